package org.sideport.app.timeline;

import javafx.scene.Cursor;
import javafx.scene.input.MouseButton;
import javafx.scene.input.MouseEvent;
import javafx.scene.input.ScrollEvent;
import org.jspecify.annotations.Nullable;
import org.sideport.model.MediaTime;
import org.sideport.model.PointEvent;

/** The mouse on the lane: point to go there, drag to scrub, drag an edge to move it, wheel to come closer. */
final class LaneMouse {

    private static final double REACH = 5;

    private final TimelineLane lane;
    private final LaneActions actions;
    private @Nullable MediaTime boundary;
    private @Nullable MediaTime boundaryTo;

    LaneMouse(TimelineLane lane, LaneActions actions) {
        this.lane = lane;
        this.actions = actions;
    }

    void install() {
        lane.setOnMousePressed(this::pressed);
        lane.setOnMouseDragged(this::dragged);
        lane.setOnMouseReleased(this::released);
        lane.setOnMouseMoved(this::moved);
        lane.setOnScroll(this::scrolled);
    }

    private @Nullable MediaTime boundaryAt(MouseEvent event) {
        boolean onBlocks =
                event.getY() >= TimelineLane.RULER && event.getY() < TimelineLane.RULER + TimelineLane.BLOCKS;
        if (!lane.isEditable() || !onBlocks) {
            return null;
        }
        TimeScale scale = lane.scale();
        return lane.contentProperty().get().boundaryNear(scale.timeAt(event.getX()), REACH * scale.usPerPixel());
    }

    private void pressed(MouseEvent event) {
        lane.requestFocus();
        if (event.getButton() != MouseButton.PRIMARY) {
            return;
        }
        boundary = boundaryAt(event);
        boundaryTo = null;
        if (boundary != null) {
            actions.dragBoundary(boundary, boundary);
            return;
        }
        TimeScale scale = lane.scale();
        MediaTime time = MediaTime.ofMicros(scale.timeAt(event.getX()));
        LaneContent content = lane.contentProperty().get();
        PointEvent marked = event.getY() >= TimelineLane.RULER + TimelineLane.BLOCKS
                ? content.eventNear(time.micros(), 2 * REACH * scale.usPerPixel())
                : null;
        if (marked != null) {
            actions.select(null, marked);
            actions.seek(marked.at());
        } else {
            actions.select(event.getY() < TimelineLane.RULER ? null : content.spanAt(time), null);
            actions.seek(time);
        }
    }

    private void dragged(MouseEvent event) {
        if (event.getButton() != MouseButton.PRIMARY) {
            return;
        }
        MediaTime time = MediaTime.ofMicros(lane.scale().timeAt(event.getX()));
        if (boundary == null) {
            actions.scrub(time);
            return;
        }
        LaneContent.Stretch room = lane.contentProperty().get().roomFor(boundary);
        MediaTime held = time.isBefore(room.start()) ? room.start() : time.isAfter(room.end()) ? room.end() : time;
        boundaryTo = held;
        lane.drag(boundary, held);
        actions.dragBoundary(boundary, held);
    }

    private void released(MouseEvent event) {
        if (event.getButton() == MouseButton.PRIMARY && boundary != null) {
            lane.drag(null, null);
            if (boundaryTo != null) {
                actions.dropBoundary(boundary, boundaryTo);
            }
        }
        boundary = null;
    }

    private void moved(MouseEvent event) {
        lane.setCursor(boundaryAt(event) == null ? Cursor.DEFAULT : Cursor.H_RESIZE);
    }

    private void scrolled(ScrollEvent event) {
        if (event.isControlDown() && event.getDeltaY() != 0) {
            lane.zoom(event.getDeltaY() > 0 ? 1.25 : 0.8, event.getX());
        } else {
            lane.move(-(event.getDeltaX() == 0 ? event.getDeltaY() : event.getDeltaX()));
        }
        event.consume();
    }
}
