package org.sideport.stats.standard;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.describe.BinomialLimits;
import org.sideport.stats.resample.Bootstrap;

/**
 * Contrasting groups (Livingston & Zieky 1982, Passing Scores, memory; Jørgensen et al. 2018, Advances in Simulation 3:5):
 * a cut between the scores of those who are known to be not yet competent and of those who are. Pass at or above.
 *
 * @param cut where the normal curves cross, with bootstrap limits over persons (each resample draws from all, so that
 *     group sizes vary too); {@code n} counts persons
 * @param theory the same crossing with the false rates that normal curves imply
 * @param falsePass observed share of the weaker group at or above the cut, Wilson's limits
 * @param falseFail observed share of the stronger group below the cut, Wilson's limits
 * @param observed the cut that misjudges fewest of these persons
 */
public record ContrastingGroups(
        NormalGroup weaker,
        NormalGroup stronger,
        Estimate cut,
        NormalCrossing theory,
        Estimate falsePass,
        Estimate falseFail,
        ObservedCut observed) {

    static final int ENOUGH_IN_GROUP = 10;

    /**
     * @param weaker scores of those not yet competent
     * @param stronger scores of the competent
     * @return refused if a group has fewer than 3 scores or only equal ones, or the curves give no cut
     */
    public static Outcome<ContrastingGroups> of(double[] weaker, double[] stronger, Bootstrap bootstrap) {
        if (weaker.length < 3 || stronger.length < 3) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "the groups have " + weaker.length + " and " + stronger.length + " scores",
                    "collect at least 3 in each, better " + ENOUGH_IN_GROUP + " or more");
        }
        @Nullable NormalGroup low = NormalGroup.of(weaker);
        @Nullable NormalGroup high = NormalGroup.of(stronger);
        if (low == null || high == null) {
            return Outcome.refused(
                    Refusal.Reason.NO_VARIATION,
                    "all scores of the " + (low == null ? "weaker" : "stronger") + " group are equal",
                    "collect more scores, or use the observed cut");
        }
        return NormalCrossing.of(low, high).map(theory -> result(weaker, stronger, low, high, theory, bootstrap));
    }

    private static ContrastingGroups result(
            double[] weaker,
            double[] stronger,
            NormalGroup low,
            NormalGroup high,
            NormalCrossing theory,
            Bootstrap bootstrap) {
        List<String> warnings = new ArrayList<>();
        int smaller = Math.min(weaker.length, stronger.length);
        if (smaller < ENOUGH_IN_GROUP) {
            warnings.add("The smaller group has only " + smaller + " scores: the cut is hardly known, and the curves'"
                    + " false rates are guesses about tails nobody was seen in.");
        }
        int n = weaker.length + stronger.length;
        Estimate cut = CutEstimate.of(
                theory.cut(),
                null,
                n,
                "contrasting groups, crossing of normal curves",
                warnings,
                bootstrap,
                indices -> crossing(weaker, stronger, indices));
        int passed = (int) Arrays.stream(weaker).filter(s -> s >= theory.cut()).count();
        int failed = (int) Arrays.stream(stronger).filter(s -> s < theory.cut()).count();
        return new ContrastingGroups(
                low,
                high,
                cut,
                theory,
                share(passed, weaker.length, "observed false passes", bootstrap.level()),
                share(failed, stronger.length, "observed false fails", bootstrap.level()),
                ObservedCut.of(weaker, stronger));
    }

    /** NaN where the drawn persons give no cut. */
    private static double crossing(double[] weaker, double[] stronger, int[] indices) {
        double[] low = Arrays.stream(indices)
                .filter(i -> i < weaker.length)
                .mapToDouble(i -> weaker[i])
                .toArray();
        double[] high = Arrays.stream(indices)
                .filter(i -> i >= weaker.length)
                .mapToDouble(i -> stronger[i - weaker.length])
                .toArray();
        @Nullable NormalGroup first = NormalGroup.of(low);
        @Nullable NormalGroup second = NormalGroup.of(high);
        if (first == null || second == null) {
            return Double.NaN;
        }
        return NormalCrossing.of(first, second) instanceof Outcome.Found<NormalCrossing> found
                ? found.value().cut()
                : Double.NaN;
    }

    private static Estimate share(int count, int n, String method, double level) {
        Interval limits = BinomialLimits.WILSON.of(count, n, level);
        return new Estimate((double) count / n, null, limits, n, method, List.of());
    }
}
