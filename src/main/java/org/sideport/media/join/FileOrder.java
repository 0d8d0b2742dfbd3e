package org.sideport.media.join;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.function.BiPredicate;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.sideport.media.join.PictureJoin.Likeness;

/**
 * Whether what is inside the files contradicts the order in which they are given. The strongest evidence that puts all
 * files in an order decides: clocks that run on, then time code, creation times, pictures that go on, and last, times of
 * change. Nothing is reordered here; a person decides.
 */
public final class FileOrder {

    /** Comparing each file with each takes time that grows with the square of their number. */
    private static final int MOST_FOR_PICTURES = 24;

    /** Files may lie so much closer by a clock than they are long, as a share of their length. */
    private static final double SLACK = 0.2;

    /**
     * Another order than that given.
     *
     * @param order for each place the position, among the files as given, of the one that belongs there
     * @param reason for people: what says so
     */
    public record Proposal(List<Integer> order, String reason) {
        public Proposal {
            order = List.copyOf(order);
        }
    }

    private FileOrder() {}

    /**
     * A better order.
     *
     * @return {@code null} if nothing contradicts the order given
     */
    public static @Nullable Proposal propose(List<FileEnds> files) {
        int n = files.size();
        if (n < 2) {
            return null;
        }
        int[] found = chain(n, (i, j) -> isSeamless(ClockJoin.running(files.get(i), files.get(j)), files.get(i)));
        String reason = "the clock inside them runs on from file to file in another order";
        if (found == null) {
            found = byRunningClock(files);
            reason = "the clock inside them runs on in another order";
        }
        if (found == null) {
            found = byTime(files, f -> f.clocks().timeCodeUs());
            reason = "their time codes have another order";
        }
        if (found == null) {
            found = byTime(files, f -> f.clocks().creationUs());
            reason = "the times at which they say they were made have another order";
        }
        if (found == null && n <= MOST_FOR_PICTURES) {
            found = chain(n, (i, j) -> goesOn(files.get(i), files.get(j)));
            reason = "the pictures go on from file to file in another order";
        }
        if (found == null) {
            found = byTime(files, f -> f.modifiedUs());
            reason = "the times at which they were last changed have another order (weak: copying may alter these)";
        }
        if (found == null || isAsGiven(found)) {
            return null;
        }
        return new Proposal(Arrays.stream(found).boxed().toList(), reason);
    }

    private static boolean isAsGiven(int[] order) {
        for (int i = 0; i < order.length; i++) {
            if (order[i] != i) {
                return false;
            }
        }
        return true;
    }

    private static boolean isSeamless(@Nullable Long gap, FileEnds before) {
        return gap != null && Math.abs(gap) <= before.frameUs();
    }

    private static boolean goesOn(FileEnds before, FileEnds after) {
        PictureJoin join = PictureJoin.of(before.pictures(), after.pictures());
        return join.likeness() == Likeness.ALIKE || join.overlap() > 0;
    }

    /** The one order in which each file follows from the one before it; {@code null} if there is none, or several. */
    private static int @Nullable [] chain(int n, BiPredicate<Integer, Integer> follows) {
        int[] next = new int[n];
        int[] before = new int[n];
        Arrays.fill(next, -1);
        Arrays.fill(before, -1);
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < n; j++) {
                if (i != j && follows.test(i, j)) {
                    if (next[i] >= 0 || before[j] >= 0) {
                        return null;
                    }
                    next[i] = j;
                    before[j] = i;
                }
            }
        }
        int[] order = new int[n];
        int at = 0;
        while (at < n && before[at] >= 0) {
            at++;
        }
        for (int k = 0; k < n; k++) {
            if (at < 0 || at >= n) {
                return null;
            }
            order[k] = at;
            at = next[at];
        }
        return order;
    }

    /** By where the files lie on one clock, if none of them overlap on it. */
    private static int @Nullable [] byRunningClock(List<FileEnds> files) {
        int[] order = sortedBy(files, f -> f.firstUs());
        for (int k = 0; k + 1 < order.length; k++) {
            FileEnds one = files.get(order[k]);
            Long gap = ClockJoin.running(one, files.get(order[k + 1]));
            if (gap == null || gap < -one.frameUs()) {
                return null;
            }
        }
        return order;
    }

    /** By a time of the day that all files bear, if they lie as far apart on it as they are long. */
    private static int @Nullable [] byTime(List<FileEnds> files, Function<FileEnds, @Nullable Long> clock) {
        for (FileEnds file : files) {
            if (clock.apply(file) == null) {
                return null;
            }
        }
        int[] order = sortedBy(files, file -> orZero(clock.apply(file)));
        for (int k = 0; k + 1 < order.length; k++) {
            FileEnds one = files.get(order[k]);
            FileEnds two = files.get(order[k + 1]);
            long apart = orZero(clock.apply(two)) - orZero(clock.apply(one));
            long shorter = Math.min(one.durationUs(), two.durationUs());
            if (apart <= 0 || apart > ClockJoin.LONGEST_US || apart < shorter * (1 - SLACK)) {
                return null;
            }
        }
        return order;
    }

    private static long orZero(@Nullable Long value) {
        return value == null ? 0 : value;
    }

    private static int[] sortedBy(List<FileEnds> files, Function<FileEnds, Long> key) {
        List<Integer> order = new ArrayList<>();
        for (int i = 0; i < files.size(); i++) {
            order.add(i);
        }
        order.sort(Comparator.comparing(i -> key.apply(files.get(i))));
        return order.stream().mapToInt(i -> i).toArray();
    }
}
