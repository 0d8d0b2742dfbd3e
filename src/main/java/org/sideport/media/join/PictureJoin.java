package org.sideport.media.join;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Compares the last pictures of a file with the first of another. What counts is not how much they differ but how that
 * relates to what changes from picture to picture within the files: an eye at rest looks the same after a minute.
 *
 * @param likeness what the border looks like
 * @param border mean difference of brightness across the border, grey levels
 * @param usual median difference of pictures that follow each other
 * @param apart median difference of pictures about a second apart
 * @param overlap pictures at the start of the second file that the first shows at its end
 */
record PictureJoin(Likeness likeness, double border, double usual, double apart, int overlap) {

    enum Likeness {
        /** as two pictures that follow each other */
        ALIKE,
        /** as two pictures that do not follow each other */
        DIFFERENT,
        /** too little moves, or too few pictures are there, to tell */
        UNCLEAR
    }

    /** Pictures near the border in which the usual change is measured. */
    private static final int NEAR = 25;

    /** Pictures about a second apart must differ so many times more than neighbours, or pictures do not tell. */
    private static final double CONTRAST = 3;

    /** Neighbours differ from each other by chance up to so many times the usual. */
    private static final double CHANCE = 1.5;

    /** Beyond so many times the usual, pictures do not follow each other. */
    private static final double JUMP = 4;

    /** The same picture coded twice differs by less than this share of what neighbours differ by. */
    private static final double SAME = 0.5;

    /** As much must be certain of where only few pictures are alike. */
    private static final double SAME_OF_FEW = 0.3;

    private static final int FEW = 5;

    /** Grey levels below which nothing can be said of movement. */
    private static final double LEAST = 0.05;

    static PictureJoin of(EndPictures before, EndPictures after) {
        List<float @Nullable []> last = before.last();
        List<float @Nullable []> first = after.first();
        if (last.isEmpty() || first.isEmpty()) {
            return new PictureJoin(Likeness.UNCLEAR, Double.NaN, Double.NaN, Double.NaN, 0);
        }
        double border = EndPictures.difference(last.get(last.size() - 1), first.get(0));
        List<float @Nullable []> near = last.subList(Math.max(0, last.size() - NEAR), last.size());
        List<float @Nullable []> next = first.subList(0, Math.min(NEAR, first.size()));
        double[] steps = sorted(steps(near, 1), steps(next, 1));
        double[] fourth = sorted(steps(near, 4), steps(next, 4));
        double usual = quantile(steps, 0.5);
        double high = quantile(steps, 0.9);
        double apart = quantile(sorted(steps(last, lag(last)), steps(first, lag(first))), 0.5);
        int overlap = overlap(last, first, steps);
        Likeness likeness = Likeness.UNCLEAR;
        if (!Double.isNaN(border) && steps.length >= 4 && usual > LEAST) {
            boolean tells = apart >= CONTRAST * usual;
            if (border > JUMP * high) {
                likeness = Likeness.DIFFERENT;
            } else if (tells
                    && border <= Math.max(CHANCE * usual, high)
                    && border < quantile(fourth, 0.5)
                    && border < apart / 2) {
                likeness = Likeness.ALIKE;
            }
        }
        return new PictureJoin(likeness, border, usual, apart, overlap);
    }

    /** About a second, where so much is there. */
    private static int lag(List<float @Nullable []> pictures) {
        return Math.max(1, Math.min(25, pictures.size() / 2));
    }

    private static List<Double> steps(List<float @Nullable []> pictures, int lag) {
        List<Double> steps = new ArrayList<>();
        for (int i = lag; i < pictures.size(); i++) {
            double step = EndPictures.difference(pictures.get(i - lag), pictures.get(i));
            if (!Double.isNaN(step)) {
                steps.add(step);
            }
        }
        return steps;
    }

    private static double[] sorted(List<Double> one, List<Double> other) {
        double[] all = new double[one.size() + other.size()];
        for (int i = 0; i < one.size(); i++) {
            all[i] = one.get(i);
        }
        for (int i = 0; i < other.size(); i++) {
            all[one.size() + i] = other.get(i);
        }
        Arrays.sort(all);
        return all;
    }

    private static double quantile(double[] sorted, double share) {
        return sorted.length == 0 ? Double.NaN : sorted[(int) Math.round(share * (sorted.length - 1))];
    }

    /** How many pictures at the start of the second file are the last of the first; 0 where that is not certain. */
    private static int overlap(List<float @Nullable []> last, List<float @Nullable []> first, double[] steps) {
        int most = Math.min(last.size(), first.size());
        int best = 0;
        double least = Double.MAX_VALUE;
        double[] errors = new double[most + 1];
        for (int k = 1; k <= most; k++) {
            errors[k] = aligned(last, first, k);
            if (errors[k] < least) {
                least = errors[k];
                best = k;
            }
        }
        // where every other picture is a copy of the one before, one alike is no sign
        double measure = quantile(steps, best < FEW ? 0.1 : 0.5);
        double share = best < FEW ? SAME_OF_FEW : SAME;
        if (best == 0 || steps.length < 4 || !(measure > LEAST) || least >= share * measure) {
            return 0;
        }
        for (int k = 1; k <= most; k++) {
            if (k != best && errors[k] < 2 * least + LEAST / 2) {
                return 0;
            }
        }
        return best;
    }

    private static double aligned(List<float @Nullable []> last, List<float @Nullable []> first, int k) {
        double sum = 0;
        int pairs = 0;
        for (int i = 0; i < k; i++) {
            double one = EndPictures.difference(last.get(last.size() - k + i), first.get(i));
            if (!Double.isNaN(one)) {
                sum += one;
                pairs++;
            }
        }
        return pairs * 2 < k ? Double.MAX_VALUE : sum / pairs;
    }
}
