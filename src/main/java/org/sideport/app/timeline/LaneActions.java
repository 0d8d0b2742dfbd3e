package org.sideport.app.timeline;

import org.jspecify.annotations.Nullable;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;

/** What the lane asks for. */
public interface LaneActions {

    /** Stand at {@code time}: the mouse points or drags there. */
    void scrub(MediaTime time);

    /** Go to {@code time}. */
    void seek(MediaTime time);

    void select(@Nullable PhaseSpan span, @Nullable PointEvent event);

    /** A boundary is under way to {@code to}. */
    void dragBoundary(MediaTime boundary, MediaTime to);

    /** A boundary was let go at {@code to}. */
    void dropBoundary(MediaTime boundary, MediaTime to);

    /** A lane that is only looked at and pointed on. */
    interface ReadOnly extends LaneActions {
        @Override
        default void select(@Nullable PhaseSpan span, @Nullable PointEvent event) {
            // nothing to select
        }

        @Override
        default void dragBoundary(MediaTime boundary, MediaTime to) {
            // nothing to drag
        }

        @Override
        default void dropBoundary(MediaTime boundary, MediaTime to) {
            // nothing to drop
        }
    }
}
