package org.sideport.app.picture;

import javafx.scene.layout.Region;
import javafx.scene.shape.Rectangle;
import org.jspecify.annotations.Nullable;
import org.sideport.model.MaskArea;
import org.sideport.model.Recording;
import org.sideport.model.Segment;

/** Lies on the player's moving picture where whoever looks may not see it. The exact frames bring their black with them. */
final class LiveCover extends Region {

    /** The player's clock is rough: an area that is covered for a time is so from this long before it to this long after. */
    private static final long MARGIN_US = 1_500_000;

    private final PictureDesk desk;

    LiveCover(PictureDesk desk) {
        this.desk = desk;
        setMouseTransparent(true);
        visibleProperty().bind(desk.liveProperty());
        desk.timeProperty().addListener((property, old, now) -> cover());
        desk.recordingProperty().addListener((property, old, now) -> cover());
        widthProperty().addListener((property, old, now) -> cover());
        heightProperty().addListener((property, old, now) -> cover());
    }

    private void cover() {
        @Nullable Recording recording = desk.recordingProperty().get();
        getChildren().clear();
        if (recording == null || recording.covered().isEmpty()) {
            return;
        }
        Segment segment =
                recording.segments().get(recording.segmentAt(desk.timeProperty().get()));
        double scale = getHeight() / segment.uprightHeight();
        for (MaskArea area : recording.covered()) {
            if (isNear(area)) {
                double left = Math.min(getWidth(), area.x() * scale);
                double top = Math.min(getHeight(), area.y() * scale);
                getChildren()
                        .add(new Rectangle(
                                left,
                                top,
                                Math.min(getWidth() - left, area.width() * scale),
                                Math.min(getHeight() - top, area.height() * scale)));
            }
        }
    }

    private boolean isNear(MaskArea area) {
        long now = desk.timeProperty().get().micros();
        long margin = (long) (MARGIN_US * Math.max(1, desk.rateProperty().get()));
        return area.touches(now - margin, now + margin);
    }
}
