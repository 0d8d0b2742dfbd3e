package org.sideport.stats.geometry;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Refusal;

/** What every fit asks of its points. */
final class FitCheck {

    /** Below this the squares of the coordinates across the line are lost in rounding. */
    private static final double ON_A_LINE = 1e-6;

    private FitCheck() {}

    /** @return {@code null} if the points will do */
    static @Nullable Refusal fault(List<Point> points, int needed, String shape) {
        long distinct = points.stream().distinct().count();
        if (distinct < needed) {
            return new Refusal(
                    Refusal.Reason.TOO_FEW,
                    "there are " + distinct + " different points, and " + shape + " needs at least " + needed,
                    "mark more points, spread along the whole edge");
        }
        if (Frame.of(points).narrowness() < ON_A_LINE) {
            return onALine(shape);
        }
        return null;
    }

    static Refusal onALine(String shape) {
        return new Refusal(
                Refusal.Reason.NOT_IDENTIFIED,
                "the points lie on a line or nearly so, which fits " + shape + " of any size",
                "mark points along a longer stretch of the edge, best all round");
    }
}
