package org.sideport.stats.rasch;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.hipparchus.linear.RealMatrix;

/**
 * Where trainees stand, given the structure, and those assessors and items that could not take part in its estimation.
 * Values that nothing tells are NaN; this class is not seen outside.
 */
final class Placement {

    private final UsableMarks usable;
    private final Markings marks;
    private final Parameters parameters;
    private final ConditionalFit fit;

    final double[] ability;
    final double[] abilityError;
    final double[] severity;
    final double[] severityError;
    final double[] difficulty;
    final double[] difficultyError;

    /** Maximum likelihood abilities of the trainees in use, from which fit is judged. */
    private final double[] likeliest;

    Placement(UsableMarks usable, Parameters parameters, ConditionalFit fit) {
        this.usable = usable;
        marks = usable.marks();
        this.parameters = parameters;
        this.fit = fit;
        ability = unknown(marks.trainees().size());
        abilityError = unknown(ability.length);
        likeliest = unknown(ability.length);
        severity = structural(parameters.assessors());
        severityError = errors(parameters.assessors());
        difficulty = structural(parameters.items());
        difficultyError = errors(parameters.items());
        for (int t = 0; t < ability.length; t++) {
            placeTrainee(t);
            if (usable.trainees()[t] == Extreme.NONE) {
                placeLikeliest(t);
            }
        }
        for (int a = 0; a < severity.length; a++) {
            placeExtreme(a, true);
        }
        for (int i = 0; i < difficulty.length; i++) {
            placeExtreme(i, false);
        }
        // trainees whom only those have marked
        for (int t = 0; t < ability.length; t++) {
            if (Double.isNaN(ability[t])) {
                placeTrainee(t);
            }
        }
    }

    private static double[] unknown(int size) {
        double[] values = new double[size];
        Arrays.fill(values, Double.NaN);
        return values;
    }

    private double[] structural(int[] places) {
        double[] values = unknown(places.length);
        for (int i = 0; i < values.length; i++) {
            if (places[i] >= 0) {
                values[i] = fit.values()[places[i]];
            }
        }
        return values;
    }

    private double[] errors(int[] places) {
        double[] values = unknown(places.length);
        for (int i = 0; i < values.length; i++) {
            if (places[i] >= 0) {
                values[i] = Math.sqrt(Math.max(0, fit.covariance().getEntry(places[i], places[i])));
            }
        }
        return values;
    }

    private MarkCurve curve(int row) {
        return parameters.curve(
                fit.values(), marks.item(row), severity[marks.assessor(row)], difficulty[marks.item(row)]);
    }

    private void placeTrainee(int trainee) {
        List<MarkCurve> curves = new ArrayList<>();
        List<Integer> rows = new ArrayList<>();
        int total = 0;
        for (int row = 0; row < marks.size(); row++) {
            if (marks.trainee(row) == trainee
                    && !Double.isNaN(severity[marks.assessor(row)])
                    && !Double.isNaN(difficulty[marks.item(row)])) {
                curves.add(curve(row));
                rows.add(row);
                total += usable.score(row);
            }
        }
        if (!curves.isEmpty()) {
            ability[trainee] = Ability.warm(curves, total);
            abilityError[trainee] = error(ability[trainee], rows, curves);
        }
    }

    /**
     * Chance of the marks and uncertainty of the structure, which add up: given the sum of scores, what the structure is
     * estimated from tells nothing more of the ability.
     */
    private double error(double at, List<Integer> rows, List<MarkCurve> curves) {
        double information = 0;
        double[] slope = new double[parameters.size()];
        for (int r = 0; r < curves.size(); r++) {
            MarkCurve curve = curves.get(r);
            MarkCurve.Moments m = curve.moments(at);
            information += m.variance();
            int item = marks.item(rows.get(r));
            for (int place : new int[] {
                parameters.assessors()[marks.assessor(rows.get(r))], parameters.items()[item]
            }) {
                if (place >= 0) {
                    slope[place] += m.variance();
                }
            }
            double[] p = curve.probabilities(at);
            for (int k = 0; k < p.length; k++) {
                int place = parameters.step(item, k);
                if (place >= 0) {
                    slope[place] += p[k] * (curve.scores()[k] - m.mean());
                }
            }
        }
        RealMatrix covariance = fit.covariance();
        double structure = 0;
        double[] image = covariance.operate(slope);
        for (int i = 0; i < slope.length; i++) {
            structure += slope[i] * image[i];
        }
        return Math.sqrt(1 / information + structure / (information * information));
    }

    private void placeLikeliest(int trainee) {
        List<MarkCurve> curves = new ArrayList<>();
        int total = 0;
        for (int row : usable.rows()) {
            if (marks.trainee(row) == trainee) {
                curves.add(curve(row));
                total += usable.score(row);
            }
        }
        likeliest[trainee] = Ability.maximumLikelihood(curves, total);
    }

    /** An assessor or an item with extreme marks: Warm's estimate, all else taken as known. */
    private void placeExtreme(int code, boolean assessor) {
        Extreme extreme = (assessor ? usable.assessors() : usable.items())[code];
        if (extreme == Extreme.NONE || extreme == Extreme.CONSTANT || extreme == Extreme.INDIRECT) {
            return;
        }
        List<MarkCurve> curves = new ArrayList<>();
        int total = 0;
        for (int row = 0; row < marks.size(); row++) {
            int at = assessor ? marks.assessor(row) : marks.item(row);
            double other = assessor ? difficulty[marks.item(row)] : severity[marks.assessor(row)];
            double standing = ability[marks.trainee(row)] - other;
            if (at == code && !Double.isNaN(standing)) {
                curves.add(parameters.curve(fit.values(), marks.item(row), 0, 0).shifted(standing));
                total += usable.score(row);
            }
        }
        if (!curves.isEmpty()) {
            double leniency = Ability.warm(curves, total);
            (assessor ? severity : difficulty)[code] = -leniency;
            (assessor ? severityError : difficultyError)[code] = 1 / Math.sqrt(Ability.information(curves, leniency));
        }
    }

    /** Fit of each level of a factor. */
    MeanSquares.Sum[] fit(int[] codes, int size) {
        MeanSquares.Sum[] sums = new MeanSquares.Sum[size];
        for (int i = 0; i < size; i++) {
            sums[i] = new MeanSquares.Sum();
        }
        for (int row : usable.rows()) {
            sums[codes[row]].add(usable.score(row), curve(row).moments(likeliest[marks.trainee(row)]));
        }
        return sums;
    }

    /** Mean ability of the trainees whose marks are not extreme. */
    double meanAbility() {
        double sum = 0;
        int n = 0;
        for (int t = 0; t < ability.length; t++) {
            if (usable.trainees()[t] == Extreme.NONE) {
                sum += ability[t];
                n++;
            }
        }
        return sum / n;
    }
}
