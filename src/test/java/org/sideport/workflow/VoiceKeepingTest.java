package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.media.voice.VoiceReader;
import org.sideport.media.voice.VoiceWriter;
import org.sideport.model.Caption;
import org.sideport.model.Comment;
import org.sideport.model.DrawnMark;
import org.sideport.model.InputException;
import org.sideport.model.MarkColour;
import org.sideport.model.MediaTime;
import org.sideport.model.PicturePoint;
import org.sideport.model.SeenEvent;
import org.sideport.model.SeenTrack;
import org.sideport.model.Voice;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;

/** Voices of 2 s about a case with a recording of 100 s. */
class VoiceKeepingTest {

    private static final MediaTime END = MediaTime.ofSeconds(100);
    private static final DrawnMark LINE = new DrawnMark(
            DrawnMark.Kind.LINE,
            MarkColour.PURPLE,
            List.of(new PicturePoint(1 / 3.0, 0), new PicturePoint(0.7, 1)),
            "");
    private static final SeenTrack SEEN = new SeenTrack(List.of(
            new SeenEvent.Stand(0, MediaTime.ofSeconds(30)),
            new SeenEvent.Drawn(400_000, LINE),
            new SeenEvent.Removed(900_000, LINE),
            new SeenEvent.Run(1_000_000, MediaTime.ofSeconds(30), 0.5)));

    @TempDir
    Path temp;

    private Workspace workspace;
    private CommentSession session;
    private VoiceKeeping keeping;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(temp.resolve("w"));
        Unit.addCase(workspace, "C-01", 100);
        session = new CommentCase(workspace).open("C-01", "A1");
        keeping = new VoiceKeeping(workspace);
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    /** @param pitch so that each file is another one */
    private Path speak(String id, int pitch) {
        Path part = keeping.begin(id);
        try (VoiceWriter writer = VoiceWriter.create(part)) {
            short[] sound = new short[2 * VoiceWriter.RATE];
            for (int i = 0; i < sound.length; i++) {
                sound[i] = (short) (9000 * Math.sin(2 * Math.PI * pitch * i / VoiceWriter.RATE));
            }
            writer.write(sound, sound.length);
            writer.finish();
        }
        return part;
    }

    private Comment said(int pitch) {
        String id = CommentSession.newId();
        Comment comment = keeping.finish(speak(id, pitch), id, "A1", SEEN, END);
        session.save(comment);
        return comment;
    }

    private Comment stored() {
        return session.threads().get(0).comment();
    }

    @Test
    void aSpokenCommentComesBackFromTheStoreAsItWas() {
        Comment comment = said(300);
        assertThat(stored()).isEqualTo(comment);
        Voice voice = Objects.requireNonNull(stored().voice());
        assertThat(voice.lengthUs()).isEqualTo(2_000_000);
        assertThat(voice.seen()).isEqualTo(SEEN);
        assertThat(comment.from()).isEqualTo(MediaTime.ofSeconds(30));
        assertThat(comment.to()).as("one second at half speed").isEqualTo(MediaTime.ofSeconds(30.5));
        assertThat(VoiceReader.lengthUs(keeping.fileOf(voice))).isEqualTo(2_000_000);
        assertThat(keeping.fileOf(voice)).hasParent(temp.resolve("w/voice"));
    }

    @Test
    void itIsOneStepOfUndoAndItsTextAnother() {
        Comment comment = said(300);
        session.save(
                VoiceKeeping.withCaptions(comment, List.of(new Caption(100_000, 1_500_000, "hold it here")), "x.vtt"));
        assertThat(Objects.requireNonNull(stored().voice()).captionAt(1_499_999))
                .isEqualTo("hold it here");
        assertThat(Objects.requireNonNull(stored().voice()).captionAt(1_500_000))
                .isEmpty();
        session.undo();
        assertThat(stored()).isEqualTo(comment);
        session.undo();
        assertThat(session.threads()).isEmpty();
        session.redo();
        assertThat(stored()).isEqualTo(comment);
        assertThat(keeping.check()).isEqualTo(new VoiceKeeping.Check(List.of(), List.of()));
    }

    @Test
    void filesWithoutCommentsAreFoundAndTidiedAndLostOnesNamed() throws Exception {
        Comment kept = said(300);
        Comment gone = said(400);
        session.remove(gone);
        Path file = keeping.fileOf(Objects.requireNonNull(gone.voice()));
        assertThat(keeping.check().unused()).containsExactly(file);
        Path other = Files.writeString(temp.resolve("w/voice/notes.txt"), "somebody's");
        assertThat(keeping.tidy()).isEqualTo(1);
        assertThat(file).doesNotExist();
        assertThat(other).exists();
        Voice voice = Objects.requireNonNull(kept.voice());
        Files.delete(keeping.fileOf(voice));
        assertThat(keeping.check().missing()).containsExactly(voice.sha256());
        assertThatThrownBy(() -> keeping.copy(voice, temp.resolve("out.ogg"), false))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("not there");
    }

    @Test
    void aCommentThatWasAnsweredKeepsItsVoice() {
        Comment comment = said(300);
        new CommentCase(workspace).open("C-01", "T03").answer(comment, "thank you");
        assertThatThrownBy(() -> session.remove(comment)).isInstanceOf(InputException.class);
        assertThatThrownBy(session::undo).isInstanceOf(InputException.class);
        assertThat(stored()).isEqualTo(comment);
    }

    @Test
    void whatACrashLeftIsSavedOnTheNextStart() throws Exception {
        Path part = keeping.begin("lost");
        Path whole = temp.resolve("whole.ogg");
        try (VoiceWriter writer = VoiceWriter.create(whole)) {
            short[] sound = new short[3 * VoiceWriter.RATE];
            for (int i = 0; i < sound.length; i++) {
                sound[i] = (short) (9000 * Math.sin(2 * Math.PI * 350 * i / VoiceWriter.RATE));
            }
            writer.write(sound, sound.length);
            // the file as a killed program leaves it
            Files.copy(whole, part);
        }
        keeping.note(part, "C-01", "A1", SEEN);
        List<Comment> saved = keeping.rescue();
        assertThat(saved).hasSize(1);
        assertThat(stored()).isEqualTo(saved.get(0));
        assertThat(Objects.requireNonNull(stored().voice()).lengthUs()).isBetween(2_000_000L, 3_000_000L);
        assertThat(workspace.voices().unfinished()).isEmpty();
        assertThat(keeping.rescue()).isEmpty();
    }

    @Test
    void whatRunsOverTheEndOfTheRecordingIsCutThere() {
        String id = CommentSession.newId();
        SeenTrack over = new SeenTrack(List.of(new SeenEvent.Run(0, MediaTime.ofSeconds(99), 1)));
        Comment comment = keeping.finish(speak(id, 300), id, "A1", over, END);
        assertThat(comment.to()).isEqualTo(END);
        session.save(comment);
        assertThat(stored()).isEqualTo(comment);
    }

    @Test
    void captionsThatStartAfterTheVoiceAreRefused() {
        Comment comment = said(300);
        assertThatThrownBy(() ->
                        VoiceKeeping.withCaptions(comment, List.of(new Caption(2_000_000, 3_000_000, "late")), "x.vtt"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("after the end of the voice");
    }
}
