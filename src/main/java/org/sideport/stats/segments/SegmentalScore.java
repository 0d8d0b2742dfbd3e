package org.sideport.stats.segments;

import java.util.List;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * The segmental measures of Lea et al. 2017, Temporal Convolutional Networks for Action Segmentation and Detection, CVPR,
 * section 4.1: they punish over-segmentation and wrong order but not small shifts of a boundary. Background is no segment.
 *
 * @param percent the overlap that a hit must reach, for instance 50
 * @param truePositives segments found whose best overlap (intersection over union with a reference segment of their label)
 *     reaches {@code percent}; of several on one reference segment only the first counts
 * @param falsePositives other segments found
 * @param falseNegatives reference segments without a hit
 */
public record SegmentalScore(int percent, int truePositives, int falsePositives, int falseNegatives) {

    /**
     * Touching neighbours with one label are one segment. At 50 % and above the score is the same with reference and found
     * exchanged unless an overlap is exactly half; below, it can differ, since each segment found goes by its own best
     * overlap alone.
     *
     * @param percent 1 to 100
     */
    public static SegmentalScore of(SegmentSequence reference, SegmentSequence found, int percent) {
        if (percent < 1 || percent > 100) {
            throw new IllegalArgumentException("an overlap of " + percent + " %");
        }
        List<Segment> truth = reference.merged().segments();
        List<Segment> guesses = found.merged().segments();
        boolean[] used = new boolean[truth.size()];
        int hits = 0;
        int from = 0;
        for (Segment guess : guesses) {
            while (from < truth.size() && truth.get(from).endUs() <= guess.startUs()) {
                from++;
            }
            int best = -1;
            for (int t = from; t < truth.size() && truth.get(t).startUs() < guess.endUs(); t++) {
                if (truth.get(t).label().equals(guess.label())
                        && (best < 0 || overlap(truth.get(t), guess) > overlap(truth.get(best), guess))) {
                    best = t;
                }
            }
            if (best >= 0 && !used[best] && reaches(truth.get(best), guess, percent)) {
                used[best] = true;
                hits++;
            }
        }
        return new SegmentalScore(percent, hits, guesses.size() - hits, truth.size() - hits);
    }

    private static double overlap(Segment a, Segment b) {
        return (double) a.overlapUs(b) / unionUs(a, b);
    }

    /** Of overlapping segments. */
    private static long unionUs(Segment a, Segment b) {
        return a.lengthUs() + b.lengthUs() - a.overlapUs(b);
    }

    /** In whole numbers, so that exactly half is half. */
    private static boolean reaches(Segment a, Segment b, int percent) {
        return a.overlapUs(b) * 100 >= percent * unionUs(a, b);
    }

    /** Harmonic mean of precision and recall, 0 to 1; 1 where there is nothing to find and nothing was found. */
    public double f1() {
        int all = 2 * truePositives + falsePositives + falseNegatives;
        return all == 0 ? 1 : 2.0 * truePositives / all;
    }

    /**
     * Segmental edit score, {@code 100 (1 − L / max(n, m))} with {@code L} the Levenshtein distance of the two orders of
     * {@code n} and {@code m} labels: 100 if and only if the order is the same, whatever the times.
     *
     * @return 0 to 100; refused if neither has a segment
     */
    public static Outcome<Double> edit(SegmentSequence reference, SegmentSequence found) {
        List<String> a = reference.merged().labels();
        List<String> b = found.merged().labels();
        int longest = Math.max(a.size(), b.size());
        if (longest == 0) {
            return Outcome.refused(Refusal.Reason.TOO_FEW, "neither tagger marked a segment", "mark at least one");
        }
        return Outcome.of(100 * (1 - (double) EditDistance.of(a, b) / longest));
    }
}
