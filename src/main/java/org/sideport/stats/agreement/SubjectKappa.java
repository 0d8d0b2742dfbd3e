package org.sideport.stats.agreement;

import java.util.Arrays;
import java.util.List;
import java.util.function.UnaryOperator;
import org.hipparchus.distribution.continuous.TDistribution;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;

/**
 * A coefficient of agreement of any raters from how often each category was given to each subject, with missing scores, and
 * its standard error over subjects by linearisation: Gwet 2014, Handbook of Inter-Rater Reliability, 4th edition, chapters 4
 * and 5. Coefficients differ in what they take for chance.
 *
 * @param counts [subject][category], each subject with one score at least, two subjects with two
 * @param weights [category][category] of agreement, symmetric, 1 on the diagonal
 */
@SuppressWarnings("ArrayRecordComponent")
record SubjectKappa(int[][] counts, double[][] weights) {

    /** Mean over subjects of the share of each category. */
    double[] shares() {
        double[] shares = new double[weights.length];
        for (int[] row : counts) {
            int raters = Arrays.stream(row).sum();
            for (int k = 0; k < shares.length; k++) {
                shares[k] += (double) row[k] / raters / counts.length;
            }
        }
        return shares;
    }

    /**
     * @param chance from the shares of the categories to the chance that a score of each category meets: chance agreement
     *     is its mean over the shares, and that of a subject its mean over the subject's scores
     */
    Kappa estimate(UnaryOperator<double[]> chance, String name, double level, List<String> warnings) {
        int n = counts.length;
        double[] shares = shares();
        double[] meets = chance.apply(shares);
        double expected = 0;
        for (int k = 0; k < shares.length; k++) {
            expected += shares[k] * meets[k];
        }
        double[] agreement = new double[n];
        int twice = 0;
        double observed = 0;
        for (int i = 0; i < n; i++) {
            agreement[i] = agreement(counts[i]);
            if (!Double.isNaN(agreement[i])) {
                twice++;
                observed += agreement[i];
            }
        }
        observed /= twice;
        double value = (observed - expected) / (1 - expected);
        double squares = 0;
        for (int i = 0; i < n; i++) {
            double own =
                    Double.isNaN(agreement[i]) ? 0 : (double) n / twice * (agreement[i] - expected) / (1 - expected);
            double ownChance = 0;
            int raters = Arrays.stream(counts[i]).sum();
            for (int k = 0; k < meets.length; k++) {
                ownChance += meets[k] * counts[i][k] / raters;
            }
            double off = own - 2 * (1 - value) * (ownChance - expected) / (1 - expected) - value;
            squares += off * off;
        }
        double se = Math.sqrt(squares / ((double) n * (n - 1)));
        double t = new TDistribution(n - 1).inverseCumulativeProbability(0.5 + level / 2);
        // With no disagreement at all the formula's error is 0, which is no honest limit.
        Interval limits = new Interval(Math.max(-1, value - t * se), Math.min(1, value + t * se), level);
        return new Kappa(
                observed, expected, new Estimate(value, se, se < 1e-12 ? null : limits, n, name, warnings), null);
    }

    /** Mean weight of all pairs of one subject's scores; NaN with a single score. */
    private double agreement(int[] row) {
        int raters = Arrays.stream(row).sum();
        double sum = 0;
        for (int k = 0; k < row.length; k++) {
            double near = -1;
            for (int l = 0; l < row.length; l++) {
                near += weights[k][l] * row[l];
            }
            sum += row[k] * near;
        }
        return raters < 2 ? Double.NaN : sum / ((double) raters * (raters - 1));
    }
}
