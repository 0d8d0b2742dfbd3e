package org.sideport.app.exchange;

import java.util.function.Consumer;
import javafx.collections.ListChangeListener;
import javafx.collections.ObservableList;
import javafx.scene.image.ImageView;
import javafx.scene.input.MouseEvent;
import javafx.scene.layout.Pane;
import javafx.scene.layout.Region;
import javafx.scene.shape.Rectangle;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Ui;
import org.sideport.app.picture.FrameImage;
import org.sideport.model.MaskArea;
import org.sideport.workflow.HideAreas;

/** A picture with its hidden areas; a new one is drawn with the mouse from corner to corner. */
final class AreaPicture extends Region {

    /** A click that slipped is no area; display pixels. */
    private static final int LEAST = 4;

    private final ImageView image = new ImageView();
    private final Pane covers = new Pane();
    private final Rectangle drawn = Ui.styled(new Rectangle(), "hidden-area-drawn");
    private final ObservableList<MaskArea> areas;
    private final Consumer<MaskArea> add;
    private HideAreas.@Nullable Still still;
    private double fromX;
    private double fromY;

    /** @param add gets an area that was drawn, for the whole recording */
    AreaPicture(ObservableList<MaskArea> areas, Consumer<MaskArea> add) {
        this.areas = areas;
        this.add = add;
        getStyleClass().add("picture");
        setId("hide-picture");
        setMinSize(320, 180);
        setPrefSize(720, 480);
        drawn.setVisible(false);
        covers.setMouseTransparent(true);
        getChildren().addAll(image, covers, drawn);
        drawn.setMouseTransparent(true);
        areas.addListener((ListChangeListener<MaskArea>) change -> requestLayout());
        setOnMousePressed(this::pressed);
        setOnMouseDragged(this::dragged);
        setOnMouseReleased(event -> released());
    }

    void show(HideAreas.@Nullable Still shown) {
        still = shown;
        if (shown == null) {
            return;
        }
        image.setImage(FrameImage.of(shown.picture()));
        requestLayout();
    }

    /** Pixels of the screen for each of the picture as it is displayed; 0 without a picture. */
    private double scale() {
        HideAreas.Still shown = still;
        return shown == null ? 0 : Math.min(getWidth() / shown.width(), getHeight() / shown.height());
    }

    @Override
    protected void layoutChildren() {
        HideAreas.Still shown = still;
        if (shown == null) {
            return;
        }
        double scale = scale();
        double width = shown.width() * scale;
        double height = shown.height() * scale;
        double left = Math.rint((getWidth() - width) / 2);
        double top = Math.rint((getHeight() - height) / 2);
        image.setFitWidth(width);
        image.setFitHeight(height);
        image.relocate(left, top);
        covers.resizeRelocate(left, top, width, height);
        covers.getChildren().clear();
        for (MaskArea area : areas) {
            if (!area.covers(shown.at().micros())) {
                continue;
            }
            double right = Math.min(shown.width(), area.x() + area.width()) * scale;
            double bottom = Math.min(shown.height(), area.y() + area.height()) * scale;
            if (right > area.x() * scale && bottom > area.y() * scale) {
                covers.getChildren()
                        .add(Ui.styled(
                                new Rectangle(
                                        area.x() * scale,
                                        area.y() * scale,
                                        right - area.x() * scale,
                                        bottom - area.y() * scale),
                                "hidden-area"));
            }
        }
    }

    private void pressed(MouseEvent event) {
        fromX = event.getX();
        fromY = event.getY();
    }

    private void dragged(MouseEvent event) {
        if (still == null) {
            return;
        }
        drawn.setX(Math.min(fromX, event.getX()));
        drawn.setY(Math.min(fromY, event.getY()));
        drawn.setWidth(Math.abs(event.getX() - fromX));
        drawn.setHeight(Math.abs(event.getY() - fromY));
        drawn.setVisible(true);
    }

    private void released() {
        HideAreas.Still shown = still;
        if (shown == null || !drawn.isVisible()) {
            return;
        }
        drawn.setVisible(false);
        double scale = scale();
        int left = clamp((drawn.getX() - covers.getLayoutX()) / scale, shown.width());
        int top = clamp((drawn.getY() - covers.getLayoutY()) / scale, shown.height());
        int right = clamp(Math.ceil((drawn.getX() + drawn.getWidth() - covers.getLayoutX()) / scale), shown.width());
        int bottom = clamp(Math.ceil((drawn.getY() + drawn.getHeight() - covers.getLayoutY()) / scale), shown.height());
        if (right - left >= LEAST && bottom - top >= LEAST) {
            add.accept(new MaskArea(left, top, right - left, bottom - top));
        }
    }

    private static int clamp(double at, int most) {
        return (int) Math.max(0, Math.min(most, Math.floor(at)));
    }
}
