package org.sideport.app.comment;

import java.util.function.Function;
import javafx.beans.Observable;
import javafx.beans.binding.Bindings;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Hyperlink;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.kordamp.ikonli.javafx.FontIcon;
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.Comment;
import org.sideport.model.CommentThread;
import org.sideport.model.CommentTone;

/** The comments on the case: what is being written, filters, and all threads by time. */
public final class CommentsPane extends VBox {

    private final CommentsViewModel model;
    private final Texts texts;
    private final Function<Comment, Node> spoken;
    private final VBox list = new VBox(Ui.STEP);

    /** @param spoken makes what is shown of a comment's voice */
    public CommentsPane(CommentsViewModel model, Texts texts, Function<Comment, Node> spoken) {
        super(Ui.STEP);
        this.spoken = spoken;
        this.model = model;
        this.texts = texts;
        setId("comments-pane");
        getStyleClass().add("padded");
        TalkStyle.dressed(this);
        ScrollPane scroll = Ui.styled(new ScrollPane(list), "edge-to-edge");
        scroll.setFitToWidth(true);
        scroll.setFocusTraversable(false);
        VBox.setVgrow(scroll, Priority.ALWAYS);
        CommentWriter writer = new CommentWriter(model, texts);
        writer.setMinHeight(USE_PREF_SIZE);
        scroll.setMinHeight(96);
        getChildren().addAll(tools(), writer, filters(), scroll);
        model.shown().addListener((Observable changed) -> rebuild());
        rebuild();
    }

    private HBox tools() {
        Button begin = Ui.button("comment-here", Feather.MESSAGE_SQUARE, texts.get("comments.begin"), model::begin);
        begin.setTooltip(new Tooltip(Ui.withKey(texts, Shortcut.COMMENT_HERE)));
        begin.setFocusTraversable(false);
        Button undo = Ui.iconButton("undo-comment", Feather.CORNER_UP_LEFT, texts.get("comments.undo"), model::undo);
        undo.disableProperty()
                .bind(Bindings.createBooleanBinding(
                        () -> !model.canUndoProperty().get(), model.canUndoProperty()));
        Button redo = Ui.iconButton("redo-comment", Feather.CORNER_UP_RIGHT, texts.get("comments.redo"), model::redo);
        redo.disableProperty()
                .bind(Bindings.createBooleanBinding(
                        () -> !model.canRedoProperty().get(), model.canRedoProperty()));
        ToggleButton show = Ui.iconToggle("comments-on-picture", Feather.EYE, texts.get("comments.onPicture"));
        show.selectedProperty().bindBidirectional(model.onPictureProperty());
        HBox box = new HBox(Ui.STEP / 2, begin, Ui.spring(), show, undo, redo);
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private VBox filters() {
        HBox pills = Ui.styled(new HBox(), "tone-filter");
        pills.getChildren().add(pill(null, texts.get("comments.all"), "left-pill"));
        CommentTone[] all = CommentTone.values();
        for (int i = 0; i < all.length; i++) {
            pills.getChildren()
                    .add(pill(
                            all[i],
                            texts.get("tone." + all[i].name()),
                            i == all.length - 1 ? "right-pill" : "center-pill"));
        }
        ToggleButton unread = new ToggleButton();
        unread.setId("filter-unread");
        unread.getStyleClass().add("small");
        unread.setFocusTraversable(false);
        unread.textProperty()
                .bind(Bindings.createStringBinding(
                        () -> texts.get(
                                "comments.unread", model.unreadProperty().get()),
                        model.unreadProperty()));
        unread.selectedProperty().bindBidirectional(model.unreadOnlyProperty());
        Hyperlink read = new Hyperlink(texts.get("comments.allRead"));
        read.setId("mark-all-read");
        read.getStyleClass().add("small");
        read.setFocusTraversable(false);
        read.setOnAction(event -> model.markAllRead());
        read.disableProperty().bind(model.unreadProperty().isEqualTo(0));
        HBox below = Ui.styled(new HBox(Ui.STEP, unread, read), "tone-filter");
        below.setAlignment(Pos.CENTER_LEFT);
        return new VBox(Ui.STEP / 2, pills, below);
    }

    private ToggleButton pill(@Nullable CommentTone tone, String text, String place) {
        ToggleButton pill = new ToggleButton(text);
        pill.setId(tone == null ? "filter-all" : "filter-" + tone.id());
        if (tone != null) {
            pill.setGraphic(new FontIcon(TalkStyle.iconOf(tone)));
        }
        pill.getStyleClass().addAll("small", place);
        pill.setFocusTraversable(false);
        pill.setSelected(model.toneProperty().get() == tone);
        pill.setOnAction(event -> {
            pill.setSelected(true);
            model.toneProperty().set(tone);
        });
        model.toneProperty().addListener((property, old, now) -> pill.setSelected(now == tone));
        return pill;
    }

    private void rebuild() {
        list.getChildren().clear();
        if (model.shown().isEmpty()) {
            Node words = Ui.wrapped(
                    texts.get(
                            model.all().isEmpty() ? "comments.empty" : "comments.noMatch",
                            Shortcut.COMMENT_HERE.keysText()),
                    "text-muted");
            list.getChildren().add(words);
        }
        for (CommentThread thread : model.shown()) {
            list.getChildren().add(new CommentCard(model, texts, thread, spoken));
        }
    }
}
