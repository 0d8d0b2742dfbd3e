package org.sideport.app.comment;

import javafx.beans.Observable;
import javafx.geometry.Pos;
import javafx.scene.Group;
import javafx.scene.control.Label;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Pane;
import org.sideport.app.Ui;

/** Lies on a picture and shows what was drawn and what is said while a voice is heard; nothing can be drawn on it. */
public final class SeenLayer extends Pane {

    private final LiveDrawing live;
    private final Group drawings = new Group();
    private final Label said = Ui.wrapped("");
    private final HBox caption = Ui.styled(new HBox(said), "caption");

    public SeenLayer(LiveDrawing live) {
        this.live = live;
        getStyleClass().add("drawing-layer");
        TalkStyle.dressed(this);
        setMouseTransparent(true);
        drawings.setManaged(false);
        caption.setManaged(false);
        caption.setAlignment(Pos.CENTER_LEFT);
        getChildren().addAll(drawings, caption);
        live.useProperty().addListener((property, old, now) -> show());
        live.marks().addListener((Observable changed) -> show());
        live.captionProperty().addListener((property, old, now) -> show());
        widthProperty().addListener((property, old, now) -> show());
        heightProperty().addListener((property, old, now) -> show());
        show();
    }

    private void show() {
        drawings.getChildren().clear();
        boolean used = live.useProperty().get() != LiveDrawing.Use.NONE;
        if (used && getWidth() >= 1 && getHeight() >= 1) {
            live.marks().forEach(mark -> drawings.getChildren().add(MarkShapes.of(mark, getWidth(), getHeight())));
        }
        said.setText(used ? live.captionProperty().get() : "");
        caption.setVisible(!said.getText().isEmpty());
        requestLayout();
    }

    @Override
    protected void layoutChildren() {
        super.layoutChildren();
        double most = Math.max(0, getWidth() - 2 * Ui.STEP);
        double width = Math.min(most, caption.prefWidth(-1));
        double height = caption.prefHeight(width);
        caption.resizeRelocate(Ui.STEP, Math.max(0, getHeight() - height - Ui.STEP), width, height);
    }
}
