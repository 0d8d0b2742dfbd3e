package org.sideport.app.timeline;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/** The spans of a lane in the order of time, each in a row where it overlaps no other. Immutable. */
final class SpanIndex {

    /** More than this many at once share the last row. */
    static final int MOST_ROWS = 4;

    private final Lane.Span[] spans;
    private final int[] rows;
    /** The latest end among a span and all before it. */
    private final long[] reach;

    private final int rowCount;
    private final long[] boundaries;

    SpanIndex(List<Lane.Span> unordered) {
        spans = unordered.toArray(new Lane.Span[0]);
        Arrays.sort(spans, Comparator.comparingLong(Lane.Span::startUs).thenComparingLong(Lane.Span::endUs));
        rows = new int[spans.length];
        reach = new long[spans.length];
        long[] rowEnds = new long[MOST_ROWS];
        int used = 1;
        long latest = 0;
        TreeSet<Long> edges = new TreeSet<>();
        for (int i = 0; i < spans.length; i++) {
            Lane.Span span = spans[i];
            int row = 0;
            while (row < MOST_ROWS - 1 && rowEnds[row] > span.startUs()) {
                row++;
            }
            rows[i] = row;
            rowEnds[row] = Math.max(rowEnds[row], span.endUs());
            used = Math.max(used, row + 1);
            latest = Math.max(latest, span.endUs());
            reach[i] = latest;
            edges.add(span.startUs());
            if (!span.open()) {
                edges.add(span.endUs());
            }
        }
        rowCount = used;
        boundaries = edges.stream().mapToLong(Long::longValue).toArray();
    }

    int size() {
        return spans.length;
    }

    Lane.Span span(int i) {
        return spans[i];
    }

    int row(int i) {
        return rows[i];
    }

    int rowCount() {
        return rowCount;
    }

    /** The first span that may reach beyond a time; all before it end there or earlier. */
    int firstReaching(long us) {
        int low = 0;
        int high = spans.length;
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (reach[middle] > us) {
                high = middle;
            } else {
                low = middle + 1;
            }
        }
        return low;
    }

    /** Starts and ends, each once, ascending; the end of an open span is none. */
    List<Long> boundaries() {
        List<Long> all = new ArrayList<>(boundaries.length);
        for (long boundary : boundaries) {
            all.add(boundary);
        }
        return all;
    }

    /** The boundary nearest to a time and no farther than {@code reachUs}, or -1. */
    long boundaryNear(long us, double reachUs) {
        int place = Arrays.binarySearch(boundaries, us);
        if (place >= 0) {
            return us;
        }
        int after = -place - 1;
        long best = -1;
        if (after < boundaries.length && boundaries[after] - us <= reachUs) {
            best = boundaries[after];
        }
        if (after > 0
                && us - boundaries[after - 1] <= reachUs
                && (best < 0 || us - boundaries[after - 1] < best - us)) {
            best = boundaries[after - 1];
        }
        return best;
    }

    /** Where a boundary may go: strictly between its neighbours, the recording's limits included. */
    Stretch roomFor(long boundary, long durationUs) {
        int place = Arrays.binarySearch(boundaries, boundary);
        long from = place > 0 ? boundaries[place - 1] + 1 : 0;
        long to = place >= 0 && place + 1 < boundaries.length ? boundaries[place + 1] - 1 : durationUs;
        return new Stretch(from, Math.max(from, to));
    }

    /** The span of a row at a time, the narrowest first; within {@code reachUs} of it where none covers the time. */
    Lane.@Nullable Span at(long us, int row, double reachUs) {
        Lane.Span best = null;
        double bestRank = Double.MAX_VALUE;
        for (int i = firstReaching((long) (us - reachUs) - 1);
                i < spans.length && spans[i].startUs() <= us + reachUs;
                i++) {
            Lane.Span span = spans[i];
            if (rows[i] != row || span.endUs() < us - reachUs) {
                continue;
            }
            boolean covers = us >= span.startUs() && us < span.endUs();
            // what covers the time comes before what is only near it
            double far = covers ? 0 : Math.min(Math.abs(us - span.startUs()), Math.abs(us - span.endUs()));
            double rank = far * 4 + (span.endUs() - span.startUs()) * 1e-3;
            if (rank < bestRank) {
                bestRank = rank;
                best = span;
            }
        }
        return best;
    }
}
