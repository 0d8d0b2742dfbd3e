package org.sideport.stats.segments;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Quantiles;

/**
 * Which segment of one tagger is which of the other: pairs with one label, each segment in one pair at most, chosen so
 * that their common time is greatest. Symmetric. Touching neighbours with one label are one segment.
 *
 * @param pairs in order of time
 * @param missed segments of the reference without a partner
 * @param extra segments of the other without a partner
 */
public record SegmentMatching(List<Pair> pairs, List<Segment> missed, List<Segment> extra) {

    public record Pair(Segment reference, Segment found) {}

    /**
     * How far the second tagger's boundaries lie from the first's, in microseconds; later is positive. A boundary shared by
     * two matched segments counts once.
     *
     * @param n boundaries compared
     * @param meanUs signed: a habit of marking late or early
     * @param medianAbsoluteUs quantile of type 7
     * @param p95AbsoluteUs quantile of type 7
     */
    public record BoundaryDeviations(
            int n, double meanUs, double medianAbsoluteUs, double p95AbsoluteUs, double maxAbsoluteUs) {}

    public SegmentMatching {
        pairs = List.copyOf(pairs);
        missed = List.copyOf(missed);
        extra = List.copyOf(extra);
    }

    private record Meeting(int a, int b, long common) {}

    public static SegmentMatching of(SegmentSequence reference, SegmentSequence found) {
        List<Segment> a = reference.merged().segments();
        List<Segment> b = found.merged().segments();
        List<Meeting> chosen = best(meetings(a, b));
        List<Segment> missed = new ArrayList<>(a);
        List<Segment> extra = new ArrayList<>(b);
        List<Pair> pairs = new ArrayList<>();
        for (Meeting meeting : chosen) {
            pairs.add(new Pair(a.get(meeting.a), b.get(meeting.b)));
            missed.remove(a.get(meeting.a));
            extra.remove(b.get(meeting.b));
        }
        return new SegmentMatching(pairs, missed, extra);
    }

    /** All pairs that share time and label, in order of time: never more than there are segments. */
    private static List<Meeting> meetings(List<Segment> a, List<Segment> b) {
        List<Meeting> meetings = new ArrayList<>();
        int i = 0;
        int j = 0;
        while (i < a.size() && j < b.size()) {
            long common = a.get(i).overlapUs(b.get(j));
            if (common > 0 && a.get(i).label().equals(b.get(j).label())) {
                meetings.add(new Meeting(i, j, common));
            }
            if (a.get(i).endUs() <= b.get(j).endUs()) {
                i++;
            } else {
                j++;
            }
        }
        return meetings;
    }

    /**
     * The heaviest choice without a segment used twice. Along the list neither index falls, so that what is compatible with
     * a meeting is a beginning of the list, and one pass with memory of the best total up to each place is enough.
     */
    private static List<Meeting> best(List<Meeting> meetings) {
        int n = meetings.size();
        long[] total = new long[n + 1];
        int[] compatible = new int[n];
        for (int k = 0; k < n; k++) {
            Meeting meeting = meetings.get(k);
            int c = k;
            while (c > 0 && (meetings.get(c - 1).a == meeting.a || meetings.get(c - 1).b == meeting.b)) {
                c--;
            }
            compatible[k] = c;
            total[k + 1] = Math.max(total[k], total[c] + meeting.common);
        }
        List<Meeting> chosen = new ArrayList<>();
        int k = n;
        while (k > 0) {
            if (total[k] == total[k - 1]) {
                k--;
            } else {
                chosen.add(meetings.get(k - 1));
                k = compatible[k - 1];
            }
        }
        Collections.reverse(chosen);
        return chosen;
    }

    /** @return {@code null} where no segment has a partner */
    public @Nullable BoundaryDeviations boundaries() {
        record Boundary(long referenceUs, long foundUs) {}
        Set<Boundary> boundaries = new LinkedHashSet<>();
        for (Pair pair : pairs) {
            boundaries.add(new Boundary(pair.reference.startUs(), pair.found.startUs()));
            boundaries.add(new Boundary(pair.reference.endUs(), pair.found.endUs()));
        }
        return deviations(
                boundaries.stream().mapToDouble(b -> b.foundUs - b.referenceUs).toArray());
    }

    /** Of several recordings together: give the signed deviations of all. */
    static @Nullable BoundaryDeviations deviations(double[] signed) {
        if (signed.length == 0) {
            return null;
        }
        double[] absolute = Arrays.stream(signed).map(Math::abs).sorted().toArray();
        return new BoundaryDeviations(
                signed.length,
                Arrays.stream(signed).average().orElseThrow(),
                Quantiles.type7Sorted(absolute, 0.5),
                Quantiles.type7Sorted(absolute, 0.95),
                absolute[absolute.length - 1]);
    }
}
