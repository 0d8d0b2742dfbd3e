package org.sideport.app.timeline;

import org.jspecify.annotations.Nullable;

/** Finds what is under the mouse. Every target is at least {@link #TARGET} pixels wide, however narrow it is drawn. */
final class HitTester {

    /** Smallest width of a target, pixels. */
    static final double TARGET = 10;

    private static final double REACH = TARGET / 2;

    private HitTester() {}

    /**
     * @param x pixels from the left edge of the scale
     * @param y pixels from the top of the first lane
     * @param boundaries whether boundaries may be taken hold of
     */
    static Hit at(TimelineIndex index, TimeScale scale, double x, double y, boolean boundaries) {
        int lane = index.layout().laneAt(y);
        if (lane < 0) {
            return new Hit.Outside();
        }
        long us = scale.timeAt(x);
        double reachUs = REACH * scale.usPerPixel();
        SpanIndex spans = index.spans(lane);
        if (spans != null) {
            long boundary = boundaries && index.isEditable(lane) ? spans.boundaryNear(us, reachUs) : -1;
            return boundary >= 0 ? new Hit.Boundary(lane, boundary) : span(index, lane, us, y, reachUs);
        }
        PointIndex points = index.points(lane);
        int near = points == null ? -1 : points.near(us, reachUs + 2 * scale.usPerPixel());
        return points == null || near < 0 ? new Hit.Free(lane) : new Hit.PointHit(lane, points.point(near));
    }

    private static Hit span(TimelineIndex index, int lane, long us, double y, double reachUs) {
        SpanIndex spans = index.spans(lane);
        Lane.Span span =
                spans == null ? null : nearest(spans, us, index.layout().rowAt(lane, y), reachUs);
        return span == null ? new Hit.Free(lane) : new Hit.SpanHit(lane, span);
    }

    /** Only a span that is narrower than a target is found beside itself. */
    private static Lane.@Nullable Span nearest(SpanIndex spans, long us, int row, double reachUs) {
        Lane.Span span = spans.at(us, row, reachUs);
        boolean covers = span != null && us >= span.startUs() && us < span.endUs();
        return span == null || covers || span.endUs() - span.startUs() < 2 * reachUs ? span : null;
    }
}
