package org.sideport.app.comment;

import java.util.function.Function;
import javafx.css.PseudoClass;
import javafx.geometry.Pos;
import javafx.geometry.VPos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Hyperlink;
import javafx.scene.control.Label;
import javafx.scene.control.TextField;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import org.kordamp.ikonli.feather.Feather;
import org.kordamp.ikonli.javafx.FontIcon;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.Comment;
import org.sideport.model.CommentReply;
import org.sideport.model.CommentThread;
import org.sideport.model.ItemLink;
import org.sideport.model.MediaTime;

/** One thread in the list. */
final class CommentCard extends VBox {

    private static final PseudoClass UNREAD = PseudoClass.getPseudoClass("unread");

    private final CommentsViewModel model;
    private final Texts texts;
    private final CommentThread thread;

    /** @param spoken makes what is shown of a voice */
    CommentCard(CommentsViewModel model, Texts texts, CommentThread thread, Function<Comment, Node> spoken) {
        super(Ui.STEP / 2);
        this.model = model;
        this.texts = texts;
        this.thread = thread;
        getStyleClass().add("comment-card");
        pseudoClassStateChanged(UNREAD, thread.unread());
        Comment comment = thread.comment();
        getChildren().add(head(comment));
        ItemLink item = comment.item();
        if (item != null) {
            getChildren().add(Ui.wrapped(texts.get("comments.about", model.titleOf(item)), "small", "text-muted"));
        }
        if (comment.voice() != null) {
            getChildren().add(spoken.apply(comment));
        }
        if (!comment.text().isEmpty()) {
            getChildren().add(Ui.wrapped(comment.text()));
        } else if (comment.voice() == null) {
            getChildren().add(Ui.label(texts.get("comments.drawingOnly"), "small", "text-muted"));
        }
        thread.replies().forEach(reply -> getChildren().add(reply(reply)));
        getChildren().add(answer(comment));
    }

    private HBox head(Comment comment) {
        MediaTime to = comment.to();
        Hyperlink time = Ui.styled(
                new Hyperlink(
                        to == null
                                ? comment.from().toClockText()
                                : texts.get("comments.stretch", comment.from().toClockText(), to.toClockText())),
                "digits",
                "small");
        time.setId("comment-time-" + comment.from().micros());
        time.setFocusTraversable(false);
        time.setOnAction(event -> model.go(thread));
        Label tone = Ui.label(texts.get("tone." + comment.tone().name()), "small");
        tone.setGraphic(new FontIcon(TalkStyle.iconOf(comment.tone())));
        tone.setMinWidth(USE_PREF_SIZE);
        Label author = Ui.label(comment.author(), "small", "text-muted");
        // on two lines where one has no room for all of it
        FlowPane said = new FlowPane(Ui.STEP, 0, time, tone, author);
        said.setRowValignment(VPos.CENTER);
        if (thread.unread()) {
            said.getChildren().add(Ui.label(texts.get("comments.new"), "small", "unread-word"));
        }
        said.setMinWidth(0);
        HBox.setHgrow(said, Priority.ALWAYS);
        HBox head = new HBox(Ui.STEP, said);
        if (model.isOwn(comment.author())) {
            head.getChildren()
                    .addAll(
                            small(
                                    "change-comment-" + comment.from().micros(),
                                    Feather.EDIT_2,
                                    "comments.change",
                                    () -> model.change(comment)),
                            small(
                                    "remove-comment-" + comment.from().micros(),
                                    Feather.TRASH_2,
                                    "comments.remove",
                                    () -> model.remove(comment)));
        } else if (!thread.unread()) {
            head.getChildren()
                    .add(small(
                            "unread-" + comment.from().micros(),
                            Feather.MAIL,
                            "comments.markUnread",
                            () -> model.markUnread(thread)));
        }
        head.setAlignment(Pos.TOP_LEFT);
        return head;
    }

    private Button small(String id, Feather icon, String key, Runnable action) {
        Button button = Ui.iconButton(id, icon, texts.get(key), action);
        button.getStyleClass().add("small");
        return button;
    }

    private HBox reply(CommentReply reply) {
        Label words = Ui.wrapped(texts.get("comments.reply", reply.author(), reply.text()), "small");
        HBox.setHgrow(words, Priority.ALWAYS);
        HBox box = Ui.styled(new HBox(Ui.STEP / 2, words), "reply");
        box.setAlignment(Pos.CENTER_LEFT);
        if (model.isOwn(reply.author())) {
            box.getChildren()
                    .addAll(
                            Ui.spring(),
                            small("remove-reply", Feather.X, "comments.removeReply", () -> model.removeAnswer(reply)));
        }
        return box;
    }

    private TextField answer(Comment comment) {
        TextField field = Ui.styled(new TextField(), "small", "code-field");
        field.setId("answer-" + comment.from().micros());
        field.setPromptText(texts.get("comments.answer"));
        field.setOnAction(event -> model.answer(comment, field.getText()));
        return field;
    }
}
