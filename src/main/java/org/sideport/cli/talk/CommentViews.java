package org.sideport.cli.talk;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.model.Comment;
import org.sideport.model.CommentReply;
import org.sideport.model.CommentThread;
import org.sideport.model.DrawnMark;
import org.sideport.model.ItemLink;
import org.sideport.model.MediaTime;
import org.sideport.model.Voice;
import org.sideport.store.VoiceJson;

/** Comments as JSON and as lines. */
final class CommentViews {

    private CommentViews() {}

    /** @param reader whether somebody's unread marks are meant; else {@code unread} is {@code null} */
    static Map<String, @Nullable Object> of(CommentThread thread, boolean reader) {
        Comment comment = thread.comment();
        MediaTime to = comment.to();
        ItemLink item = comment.item();
        return Json.object(
                "id", comment.id(),
                "author", comment.author(),
                "tone", comment.tone().id(),
                "text", comment.text(),
                "rubric", item == null ? null : item.rubric(),
                "item", item == null ? null : item.item(),
                "from_us", comment.from().micros(),
                "to_us", to == null ? null : (Object) to.micros(),
                "drawing", comment.drawing().stream().map(CommentViews::mark).toList(),
                "voice", voice(comment.voice()),
                "replies", thread.replies().stream().map(CommentViews::reply).toList(),
                "unread", reader ? (Object) thread.unread() : null);
    }

    private static @Nullable Object voice(@Nullable Voice voice) {
        return voice == null
                ? null
                : Json.object(
                        "sha256", voice.sha256(),
                        "length_us", voice.lengthUs(),
                        "seen", VoiceJson.listOf(voice.seen()),
                        "captions", VoiceJson.listOf(voice.captions()));
    }

    private static Map<String, @Nullable Object> mark(DrawnMark mark) {
        return Json.object(
                "kind", mark.kind().id(),
                "colour", mark.colour().id(),
                "points", mark.points().stream().map(p -> List.of(p.x(), p.y())).toList(),
                "words", mark.words().isEmpty() ? null : mark.words());
    }

    private static Map<String, @Nullable Object> reply(CommentReply reply) {
        return Json.object("id", reply.id(), "author", reply.author(), "text", reply.text());
    }

    static String line(CommentThread thread) {
        Comment comment = thread.comment();
        MediaTime to = comment.to();
        ItemLink item = comment.item();
        Voice voice = comment.voice();
        StringBuilder line = new StringBuilder("  ")
                .append(comment.from().toClockText())
                .append(to == null ? "" : " to " + to.toClockText())
                .append("  ")
                .append(
                        switch (comment.tone()) {
                            case PRAISE -> "praise";
                            case IMPROVE -> "to improve";
                            case QUESTION -> "question";
                        })
                .append(" by ")
                .append(comment.author());
        if (item != null) {
            line.append(", on ").append(item.item());
        }
        line.append(comment.drawing().isEmpty() ? "" : ", with a drawing")
                .append(
                        voice == null
                                ? ""
                                : ", spoken for "
                                        + MediaTime.ofMicros(voice.lengthUs()).toClockText() + " (id "
                                        + comment.id()
                                                .substring(
                                                        0,
                                                        Math.min(8, comment.id().length())) + ")")
                .append(thread.unread() ? ", unread" : "")
                .append(comment.text().isEmpty() ? "" : ": " + comment.text());
        thread.replies()
                .forEach(reply -> line.append("\n      ")
                        .append(reply.author())
                        .append(": ")
                        .append(reply.text()));
        return line.toString();
    }
}
