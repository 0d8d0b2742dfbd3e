package org.sideport.stats.agreement;

import java.util.List;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.hipparchus.stat.descriptive.moment.Mean;
import org.hipparchus.stat.descriptive.moment.Variance;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal.Reason;

/**
 * Limits of agreement of two methods or raters with several measurements of each subject: Bland & Altman 2007, Journal of
 * Biopharmaceutical Statistics 17:571. Repeated measurements of one subject are not independent, so that pooling them as
 * pairs would make the limits too narrow. The limits of the limits are by the delta method from the variances of the
 * components.
 */
public final class RepeatedBlandAltman {

    private RepeatedBlandAltman() {}

    /**
     * Several pairs for each subject, both measurements of a pair taken together, while the true value may vary between
     * pairs (section 3): the variance of a single difference is that within subjects plus that between them, from a one-way
     * analysis of variance of the differences.
     *
     * @param differences [subject][pair], first minus second; subjects may have unequal numbers, at least one each
     * @param multiplier 1.96 for 95 % limits of agreement
     * @param level coverage of the confidence limits
     * @return refused below 3 subjects or where no subject has two pairs
     */
    public static Outcome<LimitsOfAgreement> varyingTruth(double[][] differences, double multiplier, double level) {
        int n = differences.length;
        if (n < 3) {
            return BlandAltman.tooFew(n, "subjects");
        }
        int all = 0;
        double squaresOfCounts = 0;
        double sum = 0;
        for (double[] own : differences) {
            all += own.length;
            squaresOfCounts += (double) own.length * own.length;
            for (double d : own) {
                sum += d;
            }
        }
        if (all == n) {
            return Outcome.refused(
                    Reason.UNSUITABLE_DATA, "no subject has a second pair", "use the analysis of single pairs");
        }
        double mean = sum / all;
        double betweenSquare = 0;
        double within = 0;
        for (double[] own : differences) {
            double m = new Mean().evaluate(own);
            betweenSquare += own.length * (m - mean) * (m - mean) / (n - 1);
            for (double d : own) {
                within += (d - m) * (d - m) / (all - n);
            }
        }
        double divisor = ((double) all * all - squaresOfCounts) / ((n - 1.0) * all);
        double between = Math.max(0, (betweenSquare - within) / divisor);
        double variance = between + within;
        double biasVariance = between * squaresOfCounts / all / all + within / all;
        // Variances of the mean squares 2 MS²/df, carried to between + within = MSB/d + MSW (1 − 1/d).
        double ofVariance = 2 * Math.pow(betweenSquare / divisor, 2) / (n - 1)
                + 2 * Math.pow(within * (1 - 1 / divisor), 2) / (all - n);
        return Outcome.of(
                result(mean, variance, biasVariance, ofVariance, n, multiplier, level, "pairs, true value may vary"));
    }

    /**
     * Several measurements by each method, not in pairs, while the true value stays (section 2): the variance of the
     * difference of single measurements is that of the subjects' mean differences plus (1 − 1/mₓ)s²ₓ + (1 − 1/m_y)s²_y, with
     * m the harmonic mean numbers of measurements.
     *
     * @param first [subject][measurement], at least one each
     * @param second likewise, of the same subjects
     * @param multiplier as above
     * @param level as above
     * @return refused below 3 subjects or where nothing was measured twice
     * @throws IllegalArgumentException if the numbers of subjects differ
     */
    public static Outcome<LimitsOfAgreement> constantTruth(
            double[][] first, double[][] second, double multiplier, double level) {
        int n = first.length;
        if (second.length != n) {
            throw new IllegalArgumentException(n + " and " + second.length + " subjects");
        }
        if (n < 3) {
            return BlandAltman.tooFew(n, "subjects");
        }
        Repeats x = Repeats.of(first);
        Repeats y = Repeats.of(second);
        if (x.freedom == 0 && y.freedom == 0) {
            return Outcome.refused(
                    Reason.UNSUITABLE_DATA,
                    "no subject was measured twice by one method",
                    "use the analysis of single pairs");
        }
        double[] differences = new double[n];
        for (int i = 0; i < n; i++) {
            differences[i] = new Mean().evaluate(first[i]) - new Mean().evaluate(second[i]);
        }
        double ofMeans = new Variance().evaluate(differences);
        double variance = ofMeans + x.excess() + y.excess();
        double ofVariance = 2 * ofMeans * ofMeans / (n - 1) + x.excessVariance() + y.excessVariance();
        return Outcome.of(result(
                new Mean().evaluate(differences),
                variance,
                ofMeans / n,
                ofVariance,
                n,
                multiplier,
                level,
                "repeated measurements, constant true value"));
    }

    private static LimitsOfAgreement result(
            double mean,
            double variance,
            double biasVariance,
            double ofVariance,
            int n,
            double multiplier,
            double level,
            String what) {
        double limitVariance =
                biasVariance + (variance == 0 ? 0 : multiplier * multiplier * ofVariance / (4 * variance));
        return BlandAltman.limits(
                mean,
                Math.sqrt(variance),
                Math.sqrt(biasVariance),
                Math.sqrt(limitVariance),
                new NormalDistribution().inverseCumulativeProbability(0.5 + level / 2),
                multiplier,
                level,
                n,
                "Bland & Altman 2007; " + what,
                n < 50
                        ? List.of(
                                "There are only " + n + " subjects: the limits of agreement are uncertain themselves.")
                        : List.of(),
                null,
                null);
    }

    /** Scatter of one method's measurements of one subject. */
    private record Repeats(double within, int freedom, double inverseCount) {

        static Repeats of(double[][] measurements) {
            double squares = 0;
            int freedom = 0;
            double inverse = 0;
            for (double[] own : measurements) {
                double m = new Mean().evaluate(own);
                for (double x : own) {
                    squares += (x - m) * (x - m);
                }
                freedom += own.length - 1;
                inverse += 1.0 / own.length / measurements.length;
            }
            return new Repeats(freedom == 0 ? 0 : squares / freedom, freedom, inverse);
        }

        double excess() {
            return (1 - inverseCount) * within;
        }

        double excessVariance() {
            return freedom == 0 ? 0 : 2 * excess() * excess() / freedom;
        }
    }
}
