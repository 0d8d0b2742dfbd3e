package org.sideport.stats.rasch;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.hipparchus.linear.RealMatrix;

/**
 * Likelihood of the marks given each trainee's sum of scores. The abilities drop out of it (Rasch 1960; Andersen 1973,
 * Conditional Inference and Models for Measuring), so that the estimates of severities, difficulties and steps are
 * consistent however the abilities are spread, and whichever trainee met whichever assessor.
 *
 * <p>The elementary symmetric functions of each trainee's own marks are needed, and their first two derivatives. They are
 * taken from the characteristic function of the sum, {@code P(S = r) = 1/K Σ_k exp(−i t_k r) Π φ(t_k)} with {@code t_k =
 * 2π(k + δ)/K}, exact for more points K than possible sums. At the ability where r is the expected sum the terms fall off
 * fast and nothing cancels, unlike in the difference recursions of the symmetric functions (Fischer 1974); and under each
 * t_k the marks are independent, so that the matrix of second derivatives costs no more than one of a joint likelihood.
 */
final class ConditionalLikelihood {

    /** @param information minus the second derivatives */
    @SuppressWarnings("ArrayRecordComponent")
    record Value(double logLikelihood, double[] gradient, double[][] information) {}

    /** Marks of one trainee by one assessor on one item. */
    private record Cell(int assessor, int item, int count) {}

    private record Trainee(List<Cell> cells, int total, int highest) {}

    private final Parameters parameters;
    private final List<Trainee> trainees = new ArrayList<>();
    private final double[] observed;

    ConditionalLikelihood(UsableMarks usable, Parameters parameters) {
        this.parameters = parameters;
        observed = new double[parameters.size()];
        Markings marks = usable.marks();
        Map<Integer, List<Integer>> byTrainee = new LinkedHashMap<>();
        for (int row : usable.rows()) {
            byTrainee
                    .computeIfAbsent(marks.trainee(row), t -> new ArrayList<>())
                    .add(row);
            int score = usable.score(row);
            observed[parameters.assessors()[marks.assessor(row)]] -= score;
            observed[parameters.items()[marks.item(row)]] -= score;
            int step = parameters.step(marks.item(row), usable.category(row));
            if (step >= 0) {
                observed[step]--;
            }
        }
        byTrainee.values().forEach(rows -> {
            Map<List<Integer>, Integer> counts = new LinkedHashMap<>();
            int total = 0;
            int highest = 0;
            for (int row : rows) {
                counts.merge(List.of(marks.assessor(row), marks.item(row)), 1, Integer::sum);
                total += usable.score(row);
                highest += usable.categories(row).top();
            }
            List<Cell> cells = new ArrayList<>();
            counts.forEach((key, count) -> cells.add(new Cell(key.get(0), key.get(1), count)));
            trainees.add(new Trainee(cells, total, highest));
        });
    }

    Value at(double[] values) {
        int n = parameters.size();
        double[] gradient = observed.clone();
        double[][] information = new double[n][n];
        double logLikelihood = 0;
        for (int p = 0; p < n; p++) {
            logLikelihood += observed[p] * values[p];
        }
        for (Trainee trainee : trainees) {
            logLikelihood += add(trainee, values, gradient, information);
        }
        return new Value(logLikelihood, gradient, information);
    }

    /** Gradient of the trace of a fixed matrix times the information. */
    double[] traceGradient(double[] values, RealMatrix form) {
        double[] gradient = new double[values.length];
        for (Trainee trainee : trainees) {
            tilted(trainee, values).sum().cubes(trainee.total(), trainee.highest(), form, gradient);
        }
        return gradient;
    }

    /** @param logSum log of the symmetric function less that of the probability, negative */
    private record Tilted(TiltedSum sum, double logSum) {}

    /** Adds the trainee's part of the derivatives; gives minus the log of the symmetric function. */
    private double add(Trainee trainee, double[] values, double[] gradient, double[][] information) {
        Tilted tilted = tilted(trainee, values);
        double probability = tilted.sum().condition(trainee.total(), trainee.highest(), gradient, information);
        return tilted.logSum() - Math.log(probability);
    }

    private Tilted tilted(Trainee trainee, double[] values) {
        List<MarkCurve> curves = new ArrayList<>();
        List<MarkCurve> each = new ArrayList<>();
        for (Cell cell : trainee.cells()) {
            MarkCurve curve = parameters.curve(values, cell.assessor(), cell.item());
            curves.add(curve);
            for (int c = 0; c < cell.count(); c++) {
                each.add(curve);
            }
        }
        double ability = Ability.maximumLikelihood(each, trainee.total());
        double logSum = trainee.total() * ability;
        TiltedSum sum = new TiltedSum(parameters.size());
        for (int c = 0; c < curves.size(); c++) {
            Cell cell = trainee.cells().get(c);
            MarkCurve curve = curves.get(c);
            logSum -= cell.count() * curve.logSum(ability);
            int[] steps = new int[curve.scores().length];
            for (int k = 0; k < steps.length; k++) {
                steps[k] = parameters.step(cell.item(), k);
            }
            sum.add(
                    curve.scores(),
                    curve.probabilities(ability),
                    cell.count(),
                    parameters.assessors()[cell.assessor()],
                    parameters.items()[cell.item()],
                    steps);
        }
        return new Tilted(sum, logSum);
    }
}
