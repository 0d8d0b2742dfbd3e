package org.sideport.workflow.assign;

import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.hipparchus.analysis.solvers.BrentSolver;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.sideport.demo.SimulatedPanel;
import org.sideport.demo.SimulatedProgramme;

/**
 * Cuts that a {@link SimulatedProgramme} and a {@link SimulatedPanel} must bring, and how far chance may move them, from
 * the model alone. Abilities are those put in; marks and grades vary about them. Errors of functions of means are by the delta
 * method (Rao 1973, Linear Statistical Inference and its Applications, section 6a.2).
 */
final class CutTheory {

    /** A cut or an error and its standard error. */
    record Known(double value, double se) {}

    /** Mean and variance of a score. */
    record Score(double mean, double variance) {}

    private CutTheory() {}

    /**
     * Angoff (1971, in Thorndike, Educational Measurement, p. 508): the mean over J judges of the sum over I items. The known
     * biases add up to 0, so that the cut is the expected score of the borderline ability; scatter σ leaves it an error of
     * σ √(I / J).
     */
    static Known angoff(SimulatedProgramme programme, double most) {
        double[] points = programme.expectedPoints(SimulatedPanel.BORDERLINE);
        double error = SimulatedPanel.SCATTER * Math.sqrt((double) points.length / SimulatedPanel.BIAS.length);
        return new Known(Arrays.stream(points).sum() / most, error / most);
    }

    /**
     * Standard error of the cut as it is computed, SD of the judges' totals / √J. The variance of totals with known means has
     * the expectation S² + v and nearly the variance (4 Σd²v + 2 (J − 1) v²) / (J − 1)² (Searle 1971, Linear Models, section
     * 2.5), S² of the biases, v = I σ².
     */
    static Known angoffError(SimulatedProgramme programme, double most) {
        int items = programme.rubric().items().size();
        int judges = SimulatedPanel.BIAS.length;
        double v = items * SimulatedPanel.SCATTER * SimulatedPanel.SCATTER;
        double squares = Arrays.stream(SimulatedPanel.BIAS)
                .map(b -> items * b * items * b)
                .sum();
        double variance = squares / (judges - 1) + v;
        double its = (4 * squares * v + 2 * (judges - 1) * v * v) / Math.pow(judges - 1, 2);
        double error = Math.sqrt(variance / judges) / most;
        return new Known(error, error * Math.sqrt(its) / (2 * variance));
    }

    /**
     * Borderline regression (Wood, Humphrey-Murto & Norman 2006, Advances in Health Sciences Education 11:115): the least-squares
     * line through expected sums of squares and products, and the variance of its value at a grade through the influence of
     * each mark, (y − α − βx)(1 + (b − x̄)(x − x̄) / (Sxx / n)), over all grades that it may get.
     *
     * @param standings ability less severity of each mark
     */
    static Known regression(SimulatedProgramme programme, double[] standings, double borderline) {
        int n = standings.length;
        double[][] chances = new double[n][];
        double[][] shares = new double[n][];
        double[] grades = new double[n];
        double own = 0;
        for (int k = 0; k < n; k++) {
            chances[k] = programme.gradeChances(standings[k]);
            shares[k] = programme.share(standings[k]);
            double squares = 0;
            for (int g = 1; g <= SimulatedProgramme.GRADES; g++) {
                grades[k] += g * chances[k][g - 1];
                squares += g * g * chances[k][g - 1];
            }
            own += squares - grades[k] * grades[k];
        }
        double meanX = Arrays.stream(grades).average().orElseThrow();
        double meanY = Arrays.stream(shares).mapToDouble(s -> s[0]).average().orElseThrow();
        double xx = own * (n - 1) / n;
        double xy = 0;
        for (int k = 0; k < n; k++) {
            xx += (grades[k] - meanX) * (grades[k] - meanX);
            xy += (grades[k] - meanX) * (shares[k][0] - meanY);
        }
        double slope = xy / xx;
        double variance = 0;
        for (int k = 0; k < n; k++) {
            double mean = 0;
            double squares = 0;
            for (int g = 1; g <= SimulatedProgramme.GRADES; g++) {
                double weight = 1 + (borderline - meanX) * (g - meanX) * n / xx;
                double rest = shares[k][0] - meanY - slope * (g - meanX);
                mean += chances[k][g - 1] * weight * rest;
                squares += chances[k][g - 1] * weight * weight * (rest * rest + shares[k][1]);
            }
            variance += squares - mean * mean;
        }
        return new Known(meanY + slope * (borderline - meanX), Math.sqrt(variance) / n);
    }

    /**
     * Contrasting groups (Livingston & Zieky 1982; Jørgensen et al. 2018, Advances in Simulation 3:5): where the normal curves
     * of both groups' expected mean and SD are equally high, found between the means by bracketing and not by the published
     * root. The variances of a group's mean and variance, and what they share, follow from those of its scores, taken as
     * nearly normal.
     */
    static Known crossing(List<Score> weaker, List<Score> stronger) {
        double[][] low = group(weaker);
        double[][] high = group(stronger);
        double cut = crossing(low[0], high[0]);
        double variance = 0;
        for (boolean ofLow : new boolean[] {true, false}) {
            double[][] moved = ofLow ? low : high;
            double[] slope = new double[2];
            for (int p = 0; p < 2; p++) {
                int which = p;
                DoubleUnaryOperator at = by -> {
                    double[] there = moved[0].clone();
                    there[which] += by;
                    return ofLow ? crossing(there, high[0]) : crossing(low[0], there);
                };
                double step = 1e-3 * moved[0][p];
                slope[p] = (at.applyAsDouble(step) - at.applyAsDouble(-step)) / (2 * step);
            }
            variance += slope[0] * slope[0] * moved[1][0]
                    + slope[1] * slope[1] * moved[1][1]
                    + 2 * slope[0] * slope[1] * moved[1][2];
        }
        return new Known(cut, Math.sqrt(variance));
    }

    /** Mean and variance of the scores; then variances of both and their covariance. */
    private static double[][] group(List<Score> scores) {
        int n = scores.size();
        double mean = scores.stream().mapToDouble(Score::mean).average().orElseThrow();
        double within = scores.stream().mapToDouble(Score::variance).sum();
        double squares = 0;
        double ofVariance = 0;
        double shared = 0;
        for (Score one : scores) {
            double d = one.mean() - mean;
            squares += d * d;
            ofVariance += 4 * d * d * one.variance() + 2 * one.variance() * one.variance();
            shared += 2 * d * one.variance();
        }
        double variance = squares / (n - 1) + within / n;
        return new double[][] {{mean, variance}, {within / n / n, ofVariance / (n - 1) / (n - 1), shared / n / (n - 1)}
        };
    }

    private static double crossing(double[] low, double[] high) {
        NormalDistribution weaker = new NormalDistribution(low[0], Math.sqrt(low[1]));
        NormalDistribution stronger = new NormalDistribution(high[0], Math.sqrt(high[1]));
        return new BrentSolver(1e-12).solve(1000, x -> weaker.logDensity(x) - stronger.logDensity(x), low[0], high[0]);
    }
}
