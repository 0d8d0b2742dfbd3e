package org.sideport.stats.describe;

import java.util.List;
import org.hipparchus.distribution.continuous.FDistribution;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * Analysis of variance with one factor, summed without loss of digits. Assumes independent values with one spread in all
 * groups; the p value also assumes normal residuals.
 *
 * @param ssBetween sum over the groups of {@code n_g (mean_g − mean)²}
 * @param ssWithin sum of squared deviations from the group means
 * @param f ratio of the mean squares
 * @param p probability of a ratio at least as great if all groups had one mean
 * @param rSquared share of the total sum of squares between the groups, 0 to 1
 * @param residualSd root of the mean square within
 */
public record OneWayAnova(
        int dfBetween,
        int dfWithin,
        double ssBetween,
        double ssWithin,
        double f,
        double p,
        double rSquared,
        double residualSd) {

    /**
     * @param groups each with at least one finite value
     * @return refused below two groups, without a degree of freedom within, or without any spread within
     * @throws IllegalArgumentException if a group is empty
     */
    public static Outcome<OneWayAnova> of(List<double[]> groups) {
        ExactSum sum = new ExactSum();
        int n = 0;
        for (double[] group : groups) {
            if (group.length == 0) {
                throw new IllegalArgumentException("a group without values");
            }
            n += group.length;
            for (double value : group) {
                sum.add(value);
            }
        }
        if (groups.size() < 2) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW, "there is only " + groups.size() + " group", "compare at least two groups");
        }
        int within = n - groups.size();
        if (within < 1) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "each of the " + groups.size() + " groups has one value, so that the spread within them is unknown",
                    "collect at least two values in a group");
        }
        Centre grand = Centre.of(sum, n);
        ExactSum between = new ExactSum();
        ExactSum residual = new ExactSum();
        for (double[] group : groups) {
            Centre centre = Centre.of(group);
            double shift = centre.difference(grand);
            between.addProduct(group.length * shift, shift);
            for (double value : group) {
                double deviation = centre.deviation(value);
                residual.addProduct(deviation, deviation);
            }
        }
        double ssWithin = residual.value();
        if (!(ssWithin > 0)) {
            return Outcome.refused(
                    Refusal.Reason.NO_VARIATION,
                    "the values within each group are all alike",
                    "check that the values are measured and not group averages");
        }
        double ssBetween = between.value();
        int df = groups.size() - 1;
        double residualVariance = ssWithin / within;
        double f = ssBetween / df / residualVariance;
        return Outcome.of(new OneWayAnova(
                df,
                within,
                ssBetween,
                ssWithin,
                f,
                upperTail(f, df, within),
                ssBetween / (ssBetween + ssWithin),
                Math.sqrt(residualVariance)));
    }

    /** By the lower tail of 1/F, which keeps the digits of a small p. */
    private static double upperTail(double f, int df, int within) {
        return f > 0 ? new FDistribution(within, df).cumulativeProbability(1 / f) : 1;
    }
}
