package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.Comment;
import org.sideport.model.CommentReply;
import org.sideport.model.CommentThread;
import org.sideport.model.CommentTone;
import org.sideport.model.DrawnMark;
import org.sideport.model.InputException;
import org.sideport.model.ItemLink;
import org.sideport.model.MarkColour;
import org.sideport.model.MediaTime;
import org.sideport.model.PicturePoint;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;

/** Assessor A1 and trainee T03 about a case with a recording of 100 s. */
class CommentSessionTest {

    @TempDir
    Path temp;

    private Workspace workspace;
    private CommentSession assessor;
    private CommentSession trainee;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(temp.resolve("w"));
        Unit.addCase(workspace, "C-01", 100);
        assessor = new CommentCase(workspace).open("C-01", "A1");
        trainee = new CommentCase(workspace).open("C-01", "T03");
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private static Comment comment(String author, double seconds, String text) {
        return new Comment(
                CommentSession.newId(),
                author,
                CommentTone.IMPROVE,
                text,
                null,
                MediaTime.ofSeconds(seconds),
                null,
                List.of());
    }

    private CommentThread seenBy(CommentSession session, Comment comment) {
        return session.threads().stream()
                .filter(t -> t.comment().id().equals(comment.id()))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void allOfACommentComesBackFromTheStoreAsItWas() {
        Comment full = new Comment(
                CommentSession.newId(),
                "A1",
                CommentTone.PRAISE,
                "  the tear kept round; \"slowly\", with ünïcode\nand a second line ",
                new ItemLink(Unit.RUBRIC.id(), Unit.RUBRIC.items().get(2).id()),
                MediaTime.ofMicros(12_345_678),
                MediaTime.ofMicros(14_000_001),
                List.of(
                        DrawnMark.of(
                                DrawnMark.Kind.ARROW,
                                MarkColour.SKY_BLUE,
                                List.of(new PicturePoint(1 / 3.0, 0.1), new PicturePoint(0.7, 1))),
                        DrawnMark.of(
                                DrawnMark.Kind.FREEHAND,
                                MarkColour.VERMILION,
                                List.of(
                                        new PicturePoint(0, 0),
                                        new PicturePoint(0.123456789012345, 1e-12),
                                        new PicturePoint(1, 1))),
                        DrawnMark.of(
                                DrawnMark.Kind.ELLIPSE,
                                MarkColour.GREEN,
                                List.of(new PicturePoint(0.2, 0.2), new PicturePoint(0.4, 0.5))),
                        DrawnMark.words(MarkColour.PURPLE, new PicturePoint(0.5, 0.5), "edge; here")));
        assessor.save(full);
        workspace.close();
        workspace = Workspace.open(temp.resolve("w"));
        assertThat(new CommentCase(workspace).open("C-01", "A1").threads())
                .containsExactly(new CommentThread(full, List.of(), false));
    }

    @Test
    void undoAndRedoAreInTheStoreAndDoNotTouchWhatOthersWroteMeanwhile() {
        Comment first = comment("A1", 5, "first");
        assessor.save(first);
        assessor.save(first.withText("changed"));
        Comment other = comment("T03", 6, "mine");
        trainee.save(other);
        assessor.undo();
        assertThat(trainee.threads()).extracting(t -> t.comment().text()).containsExactly("first", "mine");
        assessor.undo();
        assertThat(trainee.threads()).extracting(t -> t.comment().text()).containsExactly("mine");
        assertThat(assessor.canUndo()).isFalse();
        assessor.undo();
        assessor.redo();
        assessor.redo();
        assertThat(assessor.canRedo()).isFalse();
        assertThat(trainee.threads()).extracting(t -> t.comment().text()).containsExactly("changed", "mine");
        assessor.remove(first.withText("changed"));
        assessor.undo();
        assertThat(seenBy(assessor, first).comment()).isEqualTo(first.withText("changed"));
        assessor.save(first.withTone(CommentTone.QUESTION));
        assertThat(assessor.canRedo())
                .as("a new edit ends what could be done again")
                .isFalse();
    }

    @Test
    void eachReaderHasUnreadMarksOfTheirOwn() {
        Comment said = comment("A1", 5, "hold the edge nearer to the tear");
        assessor.save(said);
        CommentSession second = new CommentCase(workspace).open("C-01", "A2");
        assertThat(seenBy(assessor, said).unread()).as("own words").isFalse();
        assertThat(seenBy(trainee, said).unread()).isTrue();
        trainee.markSeen(said);
        assertThat(seenBy(trainee, said).unread()).isFalse();
        assertThat(seenBy(second, said).unread()).isTrue();

        trainee.answer(said, "I had lost it");
        assertThat(seenBy(trainee, said).unread()).as("own answer").isFalse();
        assertThat(seenBy(assessor, said).unread()).isTrue();
        assessor.markSeen(said);
        assertThat(seenBy(assessor, said).unread()).isFalse();

        assessor.save(said.withText("hold the edge within a millimetre of the tear"));
        assertThat(seenBy(trainee, said).unread()).as("changed since").isTrue();
        trainee.markSeen(said);
        trainee.markUnseen(said);
        assertThat(seenBy(trainee, said).unread()).isTrue();
    }

    @Test
    void anAnsweredCommentStaysAndNobodyChangesTheWordsOfOthers() {
        Comment said = comment("A1", 5, "why here?");
        assessor.save(said);
        CommentReply reply = trainee.answer(said, "the view was better");
        assertThatThrownBy(() -> assessor.remove(said))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("answered");
        assertThatThrownBy(assessor::undo).isInstanceOf(InputException.class);
        assertThat(assessor.canUndo()).isTrue();
        assertThatThrownBy(() -> trainee.save(said.withText("well done"))).isInstanceOf(InputException.class);
        assertThatThrownBy(() -> trainee.save(
                        new Comment(said.id(), "T03", said.tone(), "stolen", null, said.from(), null, List.of())))
                .isInstanceOf(InputException.class);
        assertThatThrownBy(() -> trainee.remove(said)).isInstanceOf(InputException.class);
        assertThatThrownBy(() -> assessor.changeAnswer(reply, "x")).isInstanceOf(InputException.class);
        assertThatThrownBy(() -> assessor.removeAnswer(reply)).isInstanceOf(InputException.class);
        assertThat(seenBy(assessor, said).replies()).containsExactly(reply);

        trainee.changeAnswer(reply, "the red reflex was better");
        trainee.undo();
        assertThat(seenBy(assessor, said).replies()).containsExactly(reply);
        trainee.undo();
        assessor.remove(said);
        assertThat(assessor.threads()).isEmpty();
        assertThatThrownBy(trainee::redo).isInstanceOf(InputException.class).hasMessageContaining("no longer there");
    }

    @Test
    void whatCannotBeIsRefusedAndChangesNothing() {
        assertThatThrownBy(() -> comment("A1", 5, "   "))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("empty");
        assertThatThrownBy(() -> assessor.save(comment("A1", 100, "at the very end")))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("1:40.000");
        assertThatThrownBy(() -> assessor.save(comment("A1", 99, "x").withTo(MediaTime.ofSeconds(101))))
                .isInstanceOf(InputException.class);
        assertThatThrownBy(() -> assessor.save(comment("A1", 5, "x").withItem(new ItemLink(Unit.RUBRIC.id(), "none"))))
                .isInstanceOf(InputException.class)
                .hasMessageContaining(Unit.RUBRIC.items().get(0).id());
        assertThatThrownBy(() -> comment("A1", 5, "x").withTo(MediaTime.ofSeconds(5)))
                .isInstanceOf(InputException.class);
        assertThat(assessor.threads()).isEmpty();
        assertThat(assessor.canUndo()).isFalse();
        assertThatThrownBy(() -> new CommentCase(workspace).open("C-99", "A1")).isInstanceOf(InputException.class);
        assertThatThrownBy(() -> new CommentCase(workspace).open("C-01", "two words"))
                .isInstanceOf(InputException.class);
    }

    /** A moment of one frame, and a stretch that is half-open like every interval. */
    @Test
    void aCommentIsShownAtItsTime() {
        Comment moment = comment("A1", 5, "x");
        assertThat(moment.isAt(MediaTime.ofSeconds(5), 0)).isTrue();
        assertThat(moment.isAt(MediaTime.ofSeconds(5.04), 0)).isFalse();
        assertThat(moment.isAt(MediaTime.ofSeconds(6.9), 2_000_000)).isTrue();
        assertThat(moment.isAt(MediaTime.ofSeconds(7), 2_000_000)).isFalse();
        assertThat(moment.isAt(MediaTime.ofSeconds(4.9), 2_000_000)).isFalse();
        Comment stretch = moment.withTo(MediaTime.ofSeconds(9));
        assertThat(stretch.isAt(MediaTime.ofSeconds(8.96), 0)).isTrue();
        assertThat(stretch.isAt(MediaTime.ofSeconds(9), 0)).isFalse();
    }
}
