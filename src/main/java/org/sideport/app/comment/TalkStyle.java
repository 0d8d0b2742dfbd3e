package org.sideport.app.comment;

import java.util.Objects;
import javafx.scene.Parent;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.model.CommentTone;
import org.sideport.model.DrawnMark;
import org.sideport.model.MarkColour;

/** The style sheet and the icons of comments and measurements. */
public final class TalkStyle {

    private TalkStyle() {}

    public static <N extends Parent> N dressed(N node) {
        node.getStylesheets()
                .add(Objects.requireNonNull(TalkStyle.class.getResource("/org/sideport/app/talk.css"))
                        .toExternalForm());
        return node;
    }

    /** The style class that sets {@code -mark-colour}. */
    public static String classOf(MarkColour colour) {
        return "mark-" + colour.id();
    }

    static Feather iconOf(CommentTone tone) {
        return switch (tone) {
            case PRAISE -> Feather.THUMBS_UP;
            case IMPROVE -> Feather.TRENDING_UP;
            case QUESTION -> Feather.HELP_CIRCLE;
        };
    }

    public static Feather iconOf(DrawnMark.Kind kind) {
        return switch (kind) {
            case ARROW -> Feather.ARROW_UP_RIGHT;
            case LINE -> Feather.MINUS;
            case ELLIPSE -> Feather.CIRCLE;
            case FREEHAND -> Feather.EDIT_3;
            case WORDS -> Feather.TYPE;
        };
    }
}
