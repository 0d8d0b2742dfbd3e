package org.sideport.app.comment;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.Bench;
import org.sideport.app.review.ReviewViewModel;
import org.sideport.model.Comment;
import org.sideport.model.CommentThread;
import org.sideport.model.CommentTone;
import org.sideport.model.DrawnMark;
import org.sideport.model.MediaTime;
import org.sideport.model.PicturePoint;
import org.sideport.player.DemoRecordings;
import org.sideport.workflow.CommentCase;
import org.sideport.workflow.Vocabularies;

/** On D-001: 25 frames a second, so frame n starts at n times 40 ms. */
class CommentsViewModelTest {

    @TempDir
    Path folder;

    private Bench bench;
    private ReviewViewModel review;
    private CommentsViewModel model;

    @BeforeEach
    void open() {
        bench = new Bench(folder);
        Bench.addCase(bench.workspace, "C-1", DemoRecordings.D001);
        review = bench.review();
        model = new CommentsViewModel(
                bench.current,
                bench.desk,
                review.annotatorProperty(),
                new CommentCase(bench.workspace),
                new Vocabularies(bench.workspace),
                bench.work,
                bench.notices,
                bench.texts);
        bench.current.open("C-1");
        review.setAnnotator("A1");
    }

    @AfterEach
    void close() {
        bench.close();
    }

    private static MediaTime frame(long n) {
        return MediaTime.ofMicros(n * 40_000);
    }

    private List<CommentThread> stored() {
        return new CommentCase(bench.workspace).of("C-1");
    }

    private void say(long frame, String text) {
        bench.desk.seek(frame(frame));
        model.begin();
        model.setText(text);
        model.end();
    }

    @Test
    void whilePlayingACommentStopsOnTheFrameOfThatMoment() {
        bench.desk.seek(frame(100));
        bench.desk.play();
        bench.player.runTo(MediaTime.ofMicros(150 * 40_000 + 17_000));
        model.begin();
        assertThat(bench.desk.playingProperty().get()).isFalse();
        assertThat(model.draftProperty().get().from()).isEqualTo(frame(150));
        assertThat(bench.desk.timeProperty().get()).isEqualTo(frame(150));
        assertThat(stored()).as("nothing is kept of nothing").isEmpty();
        model.end();
        assertThat(stored()).isEmpty();
    }

    @Test
    void eachPartIsKeptAtOnceAndUndoneOneByOne() {
        bench.desk.seek(frame(50));
        model.begin();
        model.draw(DrawnMark.Kind.LINE);
        model.addMark(List.of(new PicturePoint(0.1, 0.1), new PicturePoint(0.2, 0.2)), "");
        assertThat(stored().get(0).comment().drawing()).hasSize(1);
        model.setTone(CommentTone.PRAISE);
        model.setText("steady");
        model.setItem(model.items().get(1).link());
        Comment all = stored().get(0).comment();
        assertThat(all.tone()).isEqualTo(CommentTone.PRAISE);
        assertThat(all.text()).isEqualTo("steady");
        assertThat(model.titleOf(all.item())).isEqualTo(model.items().get(1).title());
        model.undo();
        model.undo();
        assertThat(stored().get(0).comment().text()).isEmpty();
        assertThat(model.draftProperty().get().text()).isEmpty();
        assertThat(model.draftProperty().get().tone()).isEqualTo(CommentTone.PRAISE);
        model.undo();
        model.undo();
        assertThat(stored()).isEmpty();
        assertThat(model.draftProperty().get().drawing()).isEmpty();
        model.redo();
        assertThat(model.draftProperty().get().drawing()).hasSize(1);
        assertThat(stored()).hasSize(1);
    }

    @Test
    void aStretchEndsWithAFrameThatComesLater() {
        bench.desk.seek(frame(50));
        model.begin();
        model.setText("too fast");
        model.endHere();
        assertThat(bench.notice()).contains("later frame");
        bench.desk.seek(frame(60));
        model.endHere();
        assertThat(stored().get(0).comment().to()).isEqualTo(frame(61));
        model.onlyMoment();
        assertThat(stored().get(0).comment().to()).isNull();
    }

    @Test
    void commentsComeOnThePictureAtTheirTimeOnly() {
        say(50, "here");
        assertThat(model.visibleProperty().get()).extracting(Comment::text).containsExactly("here");
        bench.desk.step(1);
        assertThat(model.visibleProperty().get()).isEmpty();
        bench.desk.seek(frame(45));
        bench.desk.play();
        bench.player.runTo(frame(80));
        bench.desk.tick();
        assertThat(model.visibleProperty().get())
                .as("a moment stays for two seconds of the moving picture")
                .hasSize(1);
        bench.player.runTo(frame(101));
        bench.desk.tick();
        assertThat(model.visibleProperty().get()).isEmpty();
        bench.desk.pause();
        model.go(stored().get(0));
        model.onPictureProperty().set(false);
        assertThat(model.visibleProperty().get()).isEmpty();
    }

    @Test
    void whatIsBeingDrawnShowsOnItsOwnFrameOnly() {
        bench.desk.seek(frame(50));
        model.begin();
        model.draw(DrawnMark.Kind.LINE);
        model.addMark(List.of(new PicturePoint(0.1, 0.1), new PicturePoint(0.2, 0.2)), "");
        assertThat(model.drawnProperty().get()).hasSize(1);
        bench.desk.step(1);
        assertThat(model.drawnProperty().get()).as("frame 51").isEmpty();
        bench.desk.step(-1);
        assertThat(model.drawnProperty().get()).as("frame 50 again").hasSize(1);
        bench.desk.play();
        assertThat(model.drawnProperty().get()).as("the moving picture").isEmpty();
        bench.desk.pause();
        bench.desk.seek(frame(50));
        assertThat(model.drawnProperty().get()).hasSize(1);
        model.end();
        assertThat(model.drawnProperty().get()).as("now a kept comment's").isEmpty();
        assertThat(model.visibleProperty().get()).hasSize(1);
    }

    @Test
    void theTraineeReadsAnswersAndFilters() {
        say(50, "one");
        say(70, "two");
        assertThat(model.unreadProperty().get()).isZero();
        review.setAnnotator("T02");
        assertThat(model.unreadProperty().get()).isEqualTo(2);
        model.go(model.shown().get(0));
        assertThat(model.unreadProperty().get()).isEqualTo(1);
        assertThat(bench.desk.timeProperty().get()).isEqualTo(frame(50));
        model.unreadOnlyProperty().set(true);
        assertThat(model.shown()).extracting(t -> t.comment().text()).containsExactly("two");
        model.answer(model.shown().get(0).comment(), "I see");
        assertThat(model.shown()).as("who answers has read").isEmpty();
        model.unreadOnlyProperty().set(false);
        model.toneProperty().set(CommentTone.QUESTION);
        assertThat(model.shown()).isEmpty();
        model.toneProperty().set(CommentTone.IMPROVE);
        assertThat(model.shown()).hasSize(2);
        model.change(model.shown().get(0).comment());
        assertThat(bench.notice()).contains("words of A1");
        review.setAnnotator("A1");
        assertThat(model.unreadProperty().get()).isEqualTo(1);
        model.markAllRead();
        assertThat(model.unreadProperty().get()).isZero();
        model.remove(model.shown().get(1).comment());
        assertThat(bench.notice()).contains("answered");
    }

    @Test
    void withoutACodeNothingIsWritten() {
        say(50, "one");
        review.setAnnotator("");
        assertThat(model.shown()).hasSize(1);
        model.begin();
        assertThat(model.draftProperty().get()).isNull();
        assertThat(bench.notice()).contains("Enter your code");
    }
}
