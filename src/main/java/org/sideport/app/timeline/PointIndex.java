package org.sideport.app.timeline;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;

/** The points of a lane in the order of time. Immutable. */
final class PointIndex {

    private final Lane.Point[] points;

    PointIndex(List<Lane.Point> unordered) {
        points = unordered.toArray(new Lane.Point[0]);
        Arrays.sort(points, Comparator.comparingLong(Lane.Point::atUs));
    }

    int size() {
        return points.length;
    }

    Lane.Point point(int i) {
        return points[i];
    }

    /** The first point at a time or after it. */
    int firstFrom(long us) {
        int low = 0;
        int high = points.length;
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (points[middle].atUs() >= us) {
                high = middle;
            } else {
                low = middle + 1;
            }
        }
        return low;
    }

    /** The point nearest to a time and no farther than {@code reachUs}, or -1. */
    int near(long us, double reachUs) {
        int after = firstFrom(us);
        int best = -1;
        if (after < points.length && points[after].atUs() - us <= reachUs) {
            best = after;
        }
        if (after > 0 && us - points[after - 1].atUs() <= reachUs) {
            int before = after - 1;
            // of several at one time the first
            while (before > 0 && points[before - 1].atUs() == points[before].atUs()) {
                before--;
            }
            if (best < 0 || us - points[before].atUs() < points[best].atUs() - us) {
                best = before;
            }
        }
        return best;
    }
}
