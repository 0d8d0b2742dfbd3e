package org.sideport.app.comment;

import java.util.ArrayList;
import java.util.List;
import javafx.collections.ListChangeListener;
import javafx.collections.ObservableList;
import org.sideport.app.Texts;
import org.sideport.app.timeline.Lane;
import org.sideport.model.Comment;
import org.sideport.model.CommentThread;

/** The written comments as a lane of the timeline, each a mark at its moment; no lane where there are none. */
public final class CommentLane {

    /** The key of a written comment on the timeline. */
    public record Written(CommentThread thread) {}

    private static final int LONGEST = 240;

    private CommentLane() {}

    /** Keeps the lane in front of {@code others} up to date in {@code lanes}. */
    public static void keep(
            ObservableList<CommentThread> threads,
            ObservableList<Lane> others,
            ObservableList<Lane> lanes,
            Texts texts) {
        Runnable lay = () -> {
            List<Lane.Point> points = threads.stream()
                    .filter(thread -> thread.comment().voice() == null)
                    .map(thread -> point(thread, texts))
                    .toList();
            List<Lane> all = new ArrayList<>();
            if (!points.isEmpty()) {
                all.add(new Lane.Points("comments", texts.get("lane.comments"), false, points));
            }
            all.addAll(others);
            lanes.setAll(all);
        };
        threads.addListener((ListChangeListener<CommentThread>) change -> lay.run());
        others.addListener((ListChangeListener<Lane>) change -> lay.run());
        lay.run();
    }

    private static Lane.Point point(CommentThread thread, Texts texts) {
        Comment comment = thread.comment();
        String text = comment.text().length() > LONGEST ? comment.text().substring(0, LONGEST) + " …" : comment.text();
        return new Lane.Point(
                new Written(thread),
                comment.from().micros(),
                Lane.Mark.COMMENT,
                texts.get(
                        "lane.comment",
                        comment.author(),
                        texts.get("tone." + comment.tone().name())),
                text);
    }
}
