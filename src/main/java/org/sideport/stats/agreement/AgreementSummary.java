package org.sideport.stats.agreement;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * Plain agreement between every two raters, to stand beside every chance-corrected coefficient: where subjects hardly
 * differ (ceiling), kappa and intraclass correlation collapse though raters agree.
 *
 * @param pairs each two raters with a subject in common
 * @param comparisons pairs of scores over all pairs of raters
 * @param exact share of equal scores over all comparisons
 * @param withinOneLevel share of equal scores or neighbouring levels; {@code null} where the scores do not form levels
 * @param step the distance of two neighbouring levels that was used; {@code null} likewise
 * @param commonestScore the score given most often (the higher of two equally frequent ones)
 * @param commonestShare its share of all scores
 * @param scoresUsed number of different scores given
 */
public record AgreementSummary(
        List<PairAgreement> pairs,
        int comparisons,
        double exact,
        @Nullable Double withinOneLevel,
        @Nullable Double step,
        double commonestScore,
        double commonestShare,
        int scoresUsed) {

    /** With more different scores than this the scores are a measurement, not levels of a scale. */
    static final int MOST_LEVELS = 12;

    private static final double ROUNDING = 1e-9;

    public AgreementSummary {
        pairs = List.copyOf(pairs);
    }

    /**
     * Gaps are left out pair by pair. One level is the smallest distance between two different scores that were given, as
     * long as there are at most {@value #MOST_LEVELS} of them.
     */
    public static Outcome<AgreementSummary> of(RatingMatrix table) {
        return compute(table, OptionalDouble.empty());
    }

    /** @param step distance of two neighbouring levels of the scale, above 0 */
    public static Outcome<AgreementSummary> of(RatingMatrix table, double step) {
        if (!(step > 0)) {
            throw new IllegalArgumentException("step " + step);
        }
        return compute(table, OptionalDouble.of(step));
    }

    private static Outcome<AgreementSummary> compute(RatingMatrix table, OptionalDouble given) {
        TreeMap<Double, Integer> used = new TreeMap<>();
        for (double[] row : table.scores()) {
            for (double score : row) {
                if (!Double.isNaN(score)) {
                    used.merge(score + 0.0, 1, Integer::sum);
                }
            }
        }
        @Nullable Double step = given.isPresent() ? (Double) given.getAsDouble() : smallestGap(used);
        Tally[][] tallies = tallies(table, step);
        Tally all = new Tally();
        List<PairAgreement> pairs = new ArrayList<>();
        for (int a = 0; a < tallies.length; a++) {
            for (int b = a + 1; b < tallies.length; b++) {
                Tally tally = tallies[a][b];
                if (tally.n > 0) {
                    pairs.add(tally.pair(table.raters().get(a), table.raters().get(b), step));
                    all.add(tally);
                }
            }
        }
        if (all.n == 0) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "no subject has scores of two raters",
                    "let at least two raters score the same subjects");
        }
        Map.Entry<Double, Integer> commonest = used.firstEntry();
        int scores = 0;
        for (Map.Entry<Double, Integer> entry : used.entrySet()) {
            commonest = entry.getValue() >= commonest.getValue() ? entry : commonest;
            scores += entry.getValue();
        }
        return Outcome.of(new AgreementSummary(
                pairs,
                all.n,
                (double) all.exact / all.n,
                step == null ? null : (Double) ((double) all.near / all.n),
                step,
                commonest.getKey(),
                (double) commonest.getValue() / scores,
                used.size()));
    }

    /** By first and second rater; most subjects have scores of few, and only these are compared. */
    private static Tally[][] tallies(RatingMatrix table, @Nullable Double step) {
        int raters = table.raters().size();
        Tally[][] tallies = new Tally[raters][raters];
        for (int a = 0; a < raters; a++) {
            for (int b = a + 1; b < raters; b++) {
                tallies[a][b] = new Tally();
            }
        }
        int[] here = new int[raters];
        for (double[] row : table.scores()) {
            int n = 0;
            for (int a = 0; a < raters; a++) {
                if (!Double.isNaN(row[a])) {
                    here[n++] = a;
                }
            }
            for (int i = 0; i < n; i++) {
                for (int j = i + 1; j < n; j++) {
                    tallies[here[i]][here[j]].add(row[here[i]] - row[here[j]], step);
                }
            }
        }
        return tallies;
    }

    private static @Nullable Double smallestGap(TreeMap<Double, Integer> used) {
        if (used.size() < 2 || used.size() > MOST_LEVELS) {
            return null;
        }
        double smallest = Double.POSITIVE_INFINITY;
        double last = Double.NEGATIVE_INFINITY;
        for (double score : used.keySet()) {
            smallest = Math.min(smallest, score - last);
            last = score;
        }
        return smallest;
    }

    /**
     * The sentence that a reader needs where scores crowd at one end of the scale: the coefficient is low, yet the raters
     * agree. Empty unless the coefficient lies below 0.5, raters gave the same score in 60 % of comparisons or more, and one
     * score makes up 60 % of all or at most two scores were used. The bounds are a convention of this program.
     */
    public Optional<String> rangeWarning(double coefficient) {
        boolean crowded = commonestShare >= 0.6 || scoresUsed <= 2;
        if (coefficient >= 0.5 || exact < 0.6 || !crowded) {
            return Optional.empty();
        }
        return Optional.of(String.format(
                Locale.ROOT,
                "The coefficient is low (%.2f) although raters gave the same score in %.0f %% of comparisons%s: %.0f"
                        + " %% of all scores are %s, so subjects hardly differ and the coefficient has nothing to work"
                        + " with. Judge by the shares of equal scores, not by the coefficient.",
                coefficient,
                100 * exact,
                withinOneLevel == null
                        ? ""
                        : String.format(Locale.ROOT, " and were within one level in %.0f %%", 100 * withinOneLevel),
                100 * commonestShare,
                plain(commonestScore)));
    }

    private static String plain(double score) {
        return score == Math.rint(score) && Math.abs(score) < 1e9
                ? String.valueOf((long) score)
                : String.valueOf(score);
    }

    /** Counts of differences. */
    private static final class Tally {

        private int n;
        private int exact;
        private int near;
        private double sum;

        void add(double difference, @Nullable Double step) {
            n++;
            sum += difference;
            exact += difference == 0 ? 1 : 0;
            near += step != null && Math.abs(difference) <= step * (1 + ROUNDING) ? 1 : 0;
        }

        void add(Tally other) {
            n += other.n;
            exact += other.exact;
            near += other.near;
        }

        PairAgreement pair(String first, String second, @Nullable Double step) {
            return new PairAgreement(
                    first, second, n, (double) exact / n, step == null ? null : (Double) ((double) near / n), sum / n);
        }
    }
}
