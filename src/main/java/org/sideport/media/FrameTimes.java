package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avutil.AV_NOPTS_VALUE;

import java.util.Arrays;
import java.util.Comparator;
import java.util.function.IntPredicate;

/**
 * Makes presentation times, one for each packet that is shown, rising through the whole file: fills in those that are
 * missing and joins the runs of the clock.
 */
final class FrameTimes {

    private final PacketLog log;
    private final boolean countsPictures;
    private final long usualTicks;
    private final long[] times;
    private final boolean anyPts;
    private final boolean anyDts;

    /**
     * @param countsPictures if picture headers carry an order count; otherwise types tell the order
     * @param usualTicks how long a frame is shown where nothing else says so
     */
    FrameTimes(PacketLog log, boolean countsPictures, long usualTicks) {
        this.log = log;
        this.countsPictures = countsPictures;
        this.usualTicks = Math.max(1, usualTicks);
        this.times = new long[log.size()];
        this.anyPts = any(log::hasPts);
        this.anyDts = any(i -> log.dts(i) != AV_NOPTS_VALUE);
    }

    private boolean any(IntPredicate wanted) {
        for (int i = 0; i < log.size(); i++) {
            if (log.isShown(i) && wanted.test(i)) {
                return true;
            }
        }
        return false;
    }

    /** Times by ordinal; those of packets that are not shown mean nothing unless the file gives them. */
    long[] all() {
        int from = 0;
        boolean first = true;
        long end = 0;
        for (int i = 0; i <= log.runs().size(); i++) {
            int to = i < log.runs().size() ? log.runs().get(i) : log.size();
            repair(from, to);
            long earliest = Long.MAX_VALUE;
            int last = -1;
            for (int n = from; n < to; n++) {
                if (log.isShown(n)) {
                    earliest = Math.min(earliest, times[n]);
                    last = last < 0 || times[n] > times[last] ? n : last;
                }
            }
            if (last < 0) {
                from = to;
                continue;
            }
            long shift = first ? 0 : end - earliest;
            first = false;
            for (int n = from; n < to; n++) {
                times[n] += shift;
            }
            end = times[last] + ticks(last);
            from = to;
        }
        return times;
    }

    long ticks(int ordinal) {
        return log.duration(ordinal) > 0 ? log.duration(ordinal) : usualTicks;
    }

    private void repair(int from, int to) {
        boolean complete = true;
        for (int i = from; i < to; i++) {
            times[i] = log.pts(i);
            complete &= log.hasPts(i) || !log.isShown(i);
        }
        if (complete) {
            return;
        }
        int[] order = countsPictures ? DisplayOrder.byCount(log, from, to) : DisplayOrder.byType(log, from, to);
        if (anyPts) {
            fillGaps(order);
        } else if (anyDts) {
            byDecodingTimes(order);
        } else {
            long time = 0;
            for (int ordinal : order) {
                times[ordinal] = time;
                time += usualTicks;
            }
        }
    }

    /** The n-th picture shown gets the n-th decoding time: right but for a constant, which does not count. */
    private void byDecodingTimes(int[] order) {
        long[] sorted = Arrays.stream(order).mapToLong(log::dts).sorted().toArray();
        for (int i = 0; i < order.length; i++) {
            times[order[i]] =
                    sorted[i] != AV_NOPTS_VALUE ? sorted[i] : i == 0 ? 0 : times[order[i - 1]] + ticks(order[i - 1]);
        }
    }

    private void fillGaps(int[] order) {
        int i = 0;
        while (i < order.length) {
            if (log.hasPts(order[i])) {
                i++;
                continue;
            }
            int next = i;
            while (next < order.length && !log.hasPts(order[next])) {
                next++;
            }
            if (i == 0) {
                fillBackwards(order, next);
            } else if (next == order.length) {
                fillForwards(order, i, next);
            } else {
                fillBetween(order, i, next);
            }
            i = next;
        }
    }

    private void fillBackwards(int[] order, int next) {
        for (int n = next - 1; n >= 0; n--) {
            times[order[n]] = next == order.length ? n * usualTicks : times[order[n + 1]] - ticks(order[n]);
        }
    }

    private void fillForwards(int[] order, int from, int to) {
        for (int n = from; n < to; n++) {
            times[order[n]] = times[order[n - 1]] + ticks(order[n - 1]);
        }
    }

    /** By the frames' lengths where these fill the gap to a frame's half, else evenly. */
    private void fillBetween(int[] order, int from, int next) {
        fillForwards(order, from, next);
        long reached = times[order[next - 1]] + ticks(order[next - 1]);
        long known = times[order[next]];
        if (Math.abs(reached - known) * 2 > ticks(order[next - 1])) {
            long before = times[order[from - 1]];
            int parts = next - from + 1;
            for (int n = from; n < next; n++) {
                times[order[n]] = before + Math.round((known - before) * (double) (n - from + 1) / parts);
            }
        }
    }

    /** Ordinals of the shown packets by their time; those with the same time in file order. */
    int[] shownByTime() {
        Integer[] shown = new Integer[log.size()];
        int count = 0;
        for (int i = 0; i < log.size(); i++) {
            if (log.isShown(i)) {
                shown[count++] = i;
            }
        }
        Arrays.sort(
                shown,
                0,
                count,
                Comparator.<Integer>comparingLong(i -> times[i]).thenComparingInt(i -> i));
        return Arrays.stream(shown, 0, count).mapToInt(i -> i).toArray();
    }
}
