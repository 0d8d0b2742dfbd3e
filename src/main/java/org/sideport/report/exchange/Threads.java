package org.sideport.report.exchange;

import java.util.List;
import java.util.stream.Collectors;
import org.sideport.model.Comment;
import org.sideport.model.CommentThread;
import org.sideport.model.MediaTime;

/** Small things to do with comments that go out or come in. */
final class Threads {

    /** How long a comment on a moment is shown where a standard knows no moments: 3 s, common practice, no source. */
    static final long SHOWN_US = 3_000_000;

    private Threads() {}

    static CommentThread withoutVoice(CommentThread thread) {
        return new CommentThread(thread.comment().withVoice(null), thread.replies(), thread.unread());
    }

    /** True if something is left of it without its voice. */
    static boolean saysWithoutVoice(Comment comment) {
        return !comment.text().isEmpty() || !comment.drawing().isEmpty();
    }

    /** Where it ends on a screen. */
    static MediaTime shownUntil(Comment comment) {
        MediaTime to = comment.to();
        return to != null ? to : MediaTime.ofMicros(comment.from().micros() + SHOWN_US);
    }

    /** What is written and answered, one line each, each with who says it; never an empty line. */
    static List<String> lines(CommentThread thread) {
        return java.util.stream.Stream.concat(
                        oneLine(thread.comment().text()).stream(),
                        thread.replies().stream()
                                .flatMap(r -> oneLine(r.text()).stream().map(t -> r.author() + ": " + t)))
                .collect(Collectors.toList());
    }

    private static List<String> oneLine(String text) {
        return text.lines().map(String::strip).filter(l -> !l.isEmpty()).toList();
    }
}
