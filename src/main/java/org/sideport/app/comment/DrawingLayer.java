package org.sideport.app.comment;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import javafx.beans.Observable;
import javafx.geometry.Pos;
import javafx.scene.Group;
import javafx.scene.control.Label;
import javafx.scene.control.TextField;
import javafx.scene.input.KeyCode;
import javafx.scene.input.MouseButton;
import javafx.scene.input.MouseEvent;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Pane;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.javafx.FontIcon;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.Comment;
import org.sideport.model.DrawnMark;
import org.sideport.model.MarkColour;
import org.sideport.model.PicturePoint;

/** Lies on the picture: shows the drawings and words of this time, and takes new ones while a tool is chosen. */
public final class DrawingLayer extends Pane {

    private static final int MOST_CAPTIONS = 2;

    private final CommentsViewModel model;
    private final LiveDrawing live;
    private final Texts texts;
    private final Group drawings = new Group();
    private final Group drawing = new Group();
    private final VBox captions = new VBox(Ui.STEP / 2);
    private final List<PicturePoint> drawn = new ArrayList<>();
    private @Nullable TextField words;

    public DrawingLayer(CommentsViewModel model, LiveDrawing live, Texts texts) {
        this.model = model;
        this.live = live;
        this.texts = texts;
        setId("drawing-layer");
        getStyleClass().add("drawing-layer");
        TalkStyle.dressed(this);
        captions.setMouseTransparent(true);
        captions.setFillWidth(false);
        captions.setAlignment(Pos.BOTTOM_LEFT);
        getChildren().addAll(drawings, drawing, captions);
        drawings.setManaged(false);
        drawing.setManaged(false);
        captions.setManaged(false);
        setMouseTransparent(true);
        setOnMousePressed(this::pressed);
        setOnMouseDragged(this::dragged);
        setOnMouseReleased(this::released);
        setOnMouseClicked(MouseEvent::consume);
        model.visibleProperty().addListener((property, old, now) -> show());
        model.drawnProperty().addListener((property, old, now) -> show());
        model.toolProperty().addListener((property, old, now) -> aim(now));
        live.toolProperty().addListener((property, old, now) -> aim(now));
        live.useProperty().addListener((property, old, now) -> show());
        live.marks().addListener((Observable changed) -> show());
        live.captionProperty().addListener((property, old, now) -> show());
        widthProperty().addListener((property, old, now) -> show());
        heightProperty().addListener((property, old, now) -> show());
        show();
    }

    private void aim(DrawnMark.@Nullable Kind kind) {
        setMouseTransparent(kind == null);
        getStyleClass().remove("aiming");
        if (kind != null) {
            getStyleClass().add("aiming");
        }
        dropWords();
        drawn.clear();
        drawing.getChildren().clear();
        show();
    }

    private void show() {
        drawings.getChildren().clear();
        captions.getChildren().clear();
        if (getWidth() < 1 || getHeight() < 1) {
            return;
        }
        if (live.useProperty().get() != LiveDrawing.Use.NONE) {
            live.marks().forEach(mark -> drawings.getChildren().add(MarkShapes.of(mark, getWidth(), getHeight())));
            if (!live.captionProperty().get().isEmpty()) {
                Label said = Ui.wrapped(live.captionProperty().get());
                said.setId("spoken-caption");
                captions.getChildren().add(Ui.styled(new HBox(said), "caption"));
            }
            placeCaptions();
            return;
        }
        List<Comment> visible = model.visibleProperty().get();
        Stream.concat(visible.stream().flatMap(c -> c.drawing().stream()), model.drawnProperty().get().stream())
                .forEach(mark -> drawings.getChildren().add(MarkShapes.of(mark, getWidth(), getHeight())));
        visible.stream()
                .filter(c -> !c.text().isEmpty())
                .limit(MOST_CAPTIONS)
                .forEach(c -> captions.getChildren().add(caption(c)));
        placeCaptions();
    }

    private HBox caption(Comment comment) {
        FontIcon icon = new FontIcon(TalkStyle.iconOf(comment.tone()));
        Label text = Ui.wrapped(texts.get("comments.caption", comment.author(), comment.text()), "small");
        HBox box = Ui.styled(new HBox(Ui.STEP, icon, text), "caption");
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private void placeCaptions() {
        double width = Math.max(0, getWidth() - 2 * Ui.STEP);
        captions.getChildren().forEach(box -> ((Region) box).setMaxWidth(width));
        double height = captions.prefHeight(width);
        captions.resizeRelocate(Ui.STEP, Math.max(0, getHeight() - height - Ui.STEP), width, height);
    }

    @Override
    protected void layoutChildren() {
        super.layoutChildren();
        placeCaptions();
    }

    // ---- drawing

    private DrawnMark.@Nullable Kind tool() {
        return live.isDrawing()
                ? live.toolProperty().get()
                : model.toolProperty().get();
    }

    private MarkColour colour() {
        return live.isDrawing()
                ? live.colourProperty().get()
                : model.colourProperty().get();
    }

    private void add(List<PicturePoint> points, String said) {
        if (live.isDrawing()) {
            live.addMark(points, said);
        } else {
            model.addMark(points, said);
        }
    }

    private PicturePoint place(MouseEvent event) {
        return PicturePoint.within(event.getX() / getWidth(), event.getY() / getHeight());
    }

    private void pressed(MouseEvent event) {
        event.consume();
        if (event.getButton() != MouseButton.PRIMARY) {
            return;
        }
        if (!live.isDrawing() && !model.isOnFrameOfDraft()) {
            // back to the frame that the drawing belongs to
            model.draw(model.toolProperty().get());
            return;
        }
        drawn.clear();
        // away from the text, so that the screen's keys work
        requestFocus();
        if (tool() == DrawnMark.Kind.WORDS) {
            askWords(place(event));
        } else {
            drawn.add(place(event));
        }
    }

    private void dragged(MouseEvent event) {
        event.consume();
        DrawnMark.Kind kind = tool();
        if (kind == null || drawn.isEmpty()) {
            return;
        }
        PicturePoint now = place(event);
        if (kind == DrawnMark.Kind.FREEHAND) {
            if (drawn.size() < DrawnMark.MOST_POINTS && !now.equals(drawn.get(drawn.size() - 1))) {
                drawn.add(now);
            }
        } else {
            drawn.subList(1, drawn.size()).clear();
            drawn.add(now);
        }
        drawing.getChildren().clear();
        if (drawn.size() > 1 && !drawn.get(0).equals(drawn.get(drawn.size() - 1))) {
            drawing.getChildren().add(MarkShapes.of(DrawnMark.of(kind, colour(), drawn), getWidth(), getHeight()));
        }
    }

    private void released(MouseEvent event) {
        event.consume();
        drawing.getChildren().clear();
        if (drawn.size() > 1) {
            add(List.copyOf(drawn), "");
        }
        drawn.clear();
    }

    private void askWords(PicturePoint at) {
        dropWords();
        TextField field = new TextField();
        field.setId("drawn-words");
        field.setPromptText(texts.get("comments.words.prompt"));
        field.setPrefColumnCount(14);
        field.setManaged(false);
        words = field;
        getChildren().add(field);
        field.applyCss();
        double width = field.prefWidth(-1);
        double height = field.prefHeight(-1);
        field.resizeRelocate(
                Math.max(0, Math.min(at.x() * getWidth(), getWidth() - width)),
                Math.max(0, Math.min(at.y() * getHeight() - height / 2, getHeight() - height)),
                width,
                height);
        field.setOnAction(event -> {
            String said = field.getText();
            dropWords();
            add(List.of(at), said);
        });
        field.focusedProperty().addListener((property, old, now) -> {
            if (!now) {
                dropWords();
            }
        });
        field.setOnKeyPressed(event -> {
            if (event.getCode() == KeyCode.ESCAPE) {
                dropWords();
            }
        });
        field.requestFocus();
    }

    private void dropWords() {
        TextField field = words;
        words = null;
        if (field != null) {
            getChildren().remove(field);
        }
    }
}
