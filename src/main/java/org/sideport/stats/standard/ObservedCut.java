package org.sideport.stats.standard;

import java.util.Arrays;
import java.util.Objects;

/**
 * The cut that misjudges fewest of the persons seen: no assumption of normal scores, but led by few persons near it.
 *
 * @param cut middle of the gap; pass at or above
 * @param from the cut may lie above this score …
 * @param to … and up to this one, without another person misjudged
 * @param falsePasses persons of the weaker group at or above
 * @param falseFails persons of the stronger group below
 * @param others how many further gaps do as well; the one nearest to the middle of the group means is taken
 */
public record ObservedCut(double cut, double from, double to, int falsePasses, int falseFails, int others) {

    /**
     * @param weaker at least one score
     * @param stronger at least one score, together with two different ones
     */
    public static ObservedCut of(double[] weaker, double[] stronger) {
        double[] all = new double[weaker.length + stronger.length];
        System.arraycopy(weaker, 0, all, 0, weaker.length);
        System.arraycopy(stronger, 0, all, weaker.length, stronger.length);
        double[] scores = Arrays.stream(all).sorted().distinct().toArray();
        if (weaker.length == 0 || stronger.length == 0 || scores.length < 2) {
            throw new IllegalArgumentException("two groups with different scores are needed");
        }
        double[] low = weaker.clone();
        double[] high = stronger.clone();
        Arrays.sort(low);
        Arrays.sort(high);
        double middle = (Arrays.stream(low).average().orElseThrow()
                        + Arrays.stream(high).average().orElseThrow())
                / 2;
        int fewest = Integer.MAX_VALUE;
        int ties = 0;
        ObservedCut best = new ObservedCut(middle, middle, middle, low.length, high.length, 0);
        int failedLow = 0;
        int failedHigh = 0;
        for (int s = 0; s + 1 < scores.length; s++) {
            while (failedLow < low.length && low[failedLow] <= scores[s]) {
                failedLow++;
            }
            while (failedHigh < high.length && high[failedHigh] <= scores[s]) {
                failedHigh++;
            }
            int wrong = low.length - failedLow + failedHigh;
            double cut = scores[s] + (scores[s + 1] - scores[s]) / 2;
            if (wrong < fewest) {
                fewest = wrong;
                ties = 0;
            } else if (wrong == fewest) {
                ties++;
            } else {
                continue;
            }
            if (ties == 0 || Math.abs(cut - middle) < Math.abs(best.cut() - middle)) {
                best = new ObservedCut(cut, scores[s], scores[s + 1], low.length - failedLow, failedHigh, 0);
            }
        }
        ObservedCut found = Objects.requireNonNull(best, "two different scores leave a cut between them");
        return new ObservedCut(found.cut(), found.from(), found.to(), found.falsePasses(), found.falseFails(), ties);
    }
}
