package org.sideport.app.timeline;

/** What lies under the mouse. */
sealed interface Hit {

    /** An edge that may be dragged. */
    record Boundary(int lane, long us) implements Hit {}

    record SpanHit(int lane, Lane.Span span) implements Hit {}

    record PointHit(int lane, Lane.Point point) implements Hit {}

    /** A place on a lane where nothing lies. */
    record Free(int lane) implements Hit {}

    /** Above or below the lanes. */
    record Outside() implements Hit {}
}
