package org.sideport.media;

import java.util.Arrays;
import java.util.Comparator;

/**
 * The order in which the pictures of a run are shown, worked out from their headers alone: for streams whose container
 * leaves out times.
 */
final class DisplayOrder {

    private DisplayOrder() {}

    /**
     * By picture order count (ITU-T H.264, 8.2.1; H.265, 8.3.1), which starts anew at some key pictures.
     *
     * @return ordinals of the shown pictures of {@code from} to {@code to} exclusive, as they are shown
     */
    static int[] byCount(PacketLog log, int from, int to) {
        int[] sequence = new int[to - from];
        int current = 0;
        int highest = Integer.MIN_VALUE;
        for (int i = from; i < to; i++) {
            if (log.isKey(i) && log.order(i) <= highest) {
                current++;
                highest = Integer.MIN_VALUE;
            }
            highest = Math.max(highest, log.order(i));
            sequence[i - from] = current;
        }
        Integer[] order = new Integer[to - from];
        Arrays.setAll(order, i -> from + i);
        Arrays.sort(
                order,
                Comparator.<Integer>comparingInt(i -> sequence[i - from])
                        .thenComparingInt(log::order)
                        .thenComparingInt(i -> i));
        return Arrays.stream(order).mapToInt(i -> i).filter(log::isShown).toArray();
    }

    /**
     * By picture type (ISO/IEC 13818-2, 6.1.1.11): B pictures are shown as they come, any other once the next of its kind
     * comes.
     *
     * @return as {@link #byCount}
     */
    static int[] byType(PacketLog log, int from, int to) {
        int[] order = new int[to - from];
        int count = 0;
        int held = -1;
        for (int i = from; i < to; i++) {
            if (!log.isShown(i)) {
                continue;
            }
            if (log.isB(i)) {
                order[count++] = i;
            } else {
                if (held >= 0) {
                    order[count++] = held;
                }
                held = i;
            }
        }
        if (held >= 0) {
            order[count++] = held;
        }
        return Arrays.copyOf(order, count);
    }
}
