package org.sideport.stats.standard;

import org.hipparchus.distribution.continuous.NormalDistribution;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * Where the normal curves of two groups cross between their means, groups taken as equally large.
 *
 * @param cut points
 * @param falsePass share of the weaker group that would lie above the cut, were its scores normal
 * @param falseFail share of the stronger group that would lie below
 */
public record NormalCrossing(double cut, double falsePass, double falseFail) {

    /**
     * The root between the means of {@code (1/2s₂² − 1/2s₁²) x² + (m₁/s₁² − m₂/s₂²) x + m₂²/2s₂² − m₁²/2s₁² − ln(s₁/s₂) =
     * 0} (Jørgensen et al. 2018, Advances in Simulation 3:5, doi 10.1186/s41077-018-0064-7).
     *
     * @return refused if the second mean is not the higher one, or the curves do not cross between the means
     */
    public static Outcome<NormalCrossing> of(NormalGroup weaker, NormalGroup stronger) {
        double distance = stronger.mean() - weaker.mean();
        if (!(distance > 0)) {
            return Outcome.refused(
                    Refusal.Reason.UNSUITABLE_DATA,
                    "the mean of the stronger group, " + plain(stronger.mean())
                            + ", is not above that of the weaker group, " + plain(weaker.mean()),
                    "check which group is which; a score that does not tell them apart gives no cut");
        }
        // x = m₁ + distance · u, so that u lies between 0 and 1 and no digits are lost to the size of the scores
        double s1 = weaker.sd() / distance;
        double s2 = stronger.sd() / distance;
        double a = (1 / (s2 * s2) - 1 / (s1 * s1)) / 2;
        double b = -1 / (s2 * s2);
        double c = 1 / (2 * s2 * s2) - Math.log(s1 / s2);
        // the difference of the log densities at u = 0 is c, at u = 1 it is a + b + c
        if (c <= 0 || a + b + c >= 0) {
            return Outcome.refused(
                    Refusal.Reason.UNSUITABLE_DATA,
                    "the normal curves do not cross between the means, " + plain(weaker.mean()) + " and "
                            + plain(stronger.mean()) + ": the scores spread too differently (SD "
                            + plain(weaker.sd()) + " and " + plain(stronger.sd()) + ")",
                    "use the observed cut, or scores that tell the groups apart");
        }
        // b < 0, so this root never subtracts nearly equal numbers; it is the one between the means
        double u = 2 * c / (-b + Math.sqrt(Math.max(b * b - 4 * a * c, 0)));
        double cut = weaker.mean() + distance * u;
        NormalDistribution normal = new NormalDistribution();
        return Outcome.of(new NormalCrossing(
                cut, normal.cumulativeProbability(-u / s1), normal.cumulativeProbability((u - 1) / s2)));
    }

    private static String plain(double value) {
        return String.format(java.util.Locale.ROOT, "%.4g", value);
    }
}
