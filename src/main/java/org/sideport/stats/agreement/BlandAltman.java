package org.sideport.stats.agreement;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.distribution.continuous.TDistribution;
import org.hipparchus.stat.descriptive.moment.Mean;
import org.hipparchus.stat.descriptive.moment.StandardDeviation;
import org.hipparchus.stat.regression.SimpleRegression;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal.Reason;

/**
 * Limits of agreement of two methods or raters, one pair for each subject: Bland & Altman 1986, Lancet i:307; the limits of
 * the limits by their 1999 paper, Statistical Methods in Medical Research 8:135, section 3 (variance
 * s²(1/n + z²/(2(n − 1)))) with t in the place of z. Assumes differences that are near normal and of one spread over the
 * range.
 */
public final class BlandAltman {

    private BlandAltman() {}

    /**
     * @param first finite, one for each subject
     * @param second of the same subjects in the same unit
     * @param multiplier 1.96 for 95 % limits of agreement; the paper of 1986 used 2
     * @param level coverage of the confidence limits
     * @return refused below 3 pairs
     * @throws IllegalArgumentException if the lengths differ
     */
    public static Outcome<LimitsOfAgreement> of(double[] first, double[] second, double multiplier, double level) {
        if (first.length != second.length) {
            throw new IllegalArgumentException(first.length + " and " + second.length + " values");
        }
        int n = first.length;
        if (n < 3) {
            return tooFew(n, "pairs");
        }
        double[] differences = new double[n];
        SimpleRegression regression = new SimpleRegression();
        for (int i = 0; i < n; i++) {
            differences[i] = first[i] - second[i];
            regression.addData((first[i] + second[i]) / 2, differences[i]);
        }
        double sd = new StandardDeviation().evaluate(differences);
        double slope = regression.getSlope();
        double p = Double.isFinite(slope) ? regression.getSignificance() : Double.NaN;
        List<String> warnings = new ArrayList<>();
        if (n < 50) {
            warnings.add("There are only " + n + " pairs: the limits of agreement are uncertain themselves.");
        }
        if (p < 0.05) {
            warnings.add("The difference changes with the size of what is measured, so limits of one width do not fit;"
                    + " compare logarithms or parts of the range.");
        }
        return Outcome.of(limits(
                new Mean().evaluate(differences),
                sd,
                sd / Math.sqrt(n),
                sd * Math.sqrt(1.0 / n + multiplier * multiplier / (2.0 * (n - 1))),
                new TDistribution(n - 1).inverseCumulativeProbability(0.5 + level / 2),
                multiplier,
                level,
                n,
                "Bland & Altman 1986, 1999; pairs",
                warnings,
                Double.isFinite(slope) ? (Double) slope : null,
                Double.isFinite(p) ? (Double) p : null));
    }

    static <T> Outcome<T> tooFew(int n, String what) {
        return Outcome.refused(
                Reason.TOO_FEW,
                "there " + (n == 1 ? "is 1 " + what.substring(0, what.length() - 1) : "are " + n + " " + what),
                "limits of agreement need at least 3, and some 50 to be worth reading");
    }

    static LimitsOfAgreement limits(
            double mean,
            double sd,
            double seBias,
            double seLimit,
            double quantile,
            double multiplier,
            double level,
            int n,
            String method,
            List<String> warnings,
            @Nullable Double slope,
            @Nullable Double slopeP) {
        return new LimitsOfAgreement(
                estimate(mean, seBias, quantile, level, n, method).withWarnings(warnings),
                sd,
                estimate(mean - multiplier * sd, seLimit, quantile, level, n, method),
                estimate(mean + multiplier * sd, seLimit, quantile, level, n, method),
                multiplier,
                slope,
                slopeP);
    }

    private static Estimate estimate(double value, double se, double quantile, double level, int n, String method) {
        return new Estimate(
                value, se, new Interval(value - quantile * se, value + quantile * se, level), n, method, List.of());
    }
}
