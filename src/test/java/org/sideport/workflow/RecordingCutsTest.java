package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.media.VideoOptions;
import org.sideport.media.VideoWriter;
import org.sideport.model.Cut;
import org.sideport.model.CutKind;
import org.sideport.model.CutState;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.timing.CaseTiming;
import org.sideport.workflow.ComputeTimings.Level;

/** A drawn recording of 8 s whose view changes at 4 s while its clock runs on, as when a recorder is paused. */
class RecordingCutsTest {

    private static final int WIDTH = 160;
    private static final int HEIGHT = 120;
    private static final MediaTime JUMP = MediaTime.ofSeconds(4);

    @TempDir
    Path temp;

    private Workspace workspace;
    private RecordingCuts job;

    @BeforeEach
    void aCaseWithAPauseOfItsRecorder() throws IOException {
        workspace = FreshWorkspace.in(temp.resolve("w"));
        Path file = temp.resolve("paused.mp4");
        try (VideoWriter writer = VideoWriter.open(file, VideoOptions.silent(WIDTH, HEIGHT, 1000, 100, 20))) {
            for (int frame = 0; frame < 80; frame++) {
                writer.frame(patches(frame < 40 ? 1 : 2, frame), frame * 100L);
            }
            writer.finish();
        }
        ImportRecording importing = new ImportRecording(workspace);
        importing.addCase(
                new NewCase("C-01", "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of()),
                importing.preview(List.of(file), Progress.NONE));
        job = new RecordingCuts(workspace);
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    /** Grey patches of three pixels that drift slowly: a view with texture everywhere. */
    private static int[] patches(long view, int frame) {
        int[] grey = new Random(view).ints(64 * 64, 20, 235).toArray();
        int[] pixels = new int[WIDTH * HEIGHT];
        for (int y = 0; y < HEIGHT; y++) {
            for (int x = 0; x < WIDTH; x++) {
                int value = grey[(y / 3) * 64 + (x + frame / 8) / 3];
                pixels[y * WIDTH + x] = 0xFF000000 | value << 16 | value << 8 | value;
            }
        }
        return pixels;
    }

    @Test
    void aJumpIsProposedAndLooksAtTheRecordingOnlyOnce() throws IOException {
        assertThat(job.of("C-01")).isEmpty();
        List<Cut> cuts = job.find("C-01", Progress.NONE);
        assertThat(cuts).singleElement().satisfies(cut -> {
            assertThat(cut.state()).isEqualTo(CutState.PROPOSED);
            assertThat(cut.kind()).isEqualTo(CutKind.INSIDE_FILE);
            assertThat(cut.from()).isLessThan(JUMP);
            assertThat(cut.to()).isGreaterThanOrEqualTo(JUMP).isLessThan(MediaTime.ofSeconds(4.3));
        });
        try (var kept = Files.list(workspace.indexDir())) {
            assertThat(kept.filter(f -> f.toString().endsWith(".traces"))).hasSize(1);
        }
        job.decide("C-01", JUMP, CutState.DISMISSED, "A1");
        assertThat(job.find("C-01", Progress.NONE))
                .as("a decision outlives another look")
                .singleElement()
                .satisfies(cut -> assertThat(cut.state()).isEqualTo(CutState.DISMISSED));
    }

    @Test
    void anAcceptedCutMakesTheTimesAcrossItUnsureAndADismissedOneDoesNot() {
        job.find("C-01", Progress.NONE);
        new TagExchange(workspace)
                .importCsv(
                        Unit.csv(
                                temp,
                                "case,annotator,phase,start,end,operator",
                                "C-01,A1,side_port,0,2,",
                                "C-01,A1,rhexis,2,6,"),
                        null,
                        false);
        assertThat(timing().unsure().any()).isFalse();
        job.decide("C-01", JUMP, CutState.ACCEPTED, "A1");
        assertThat(timing().phases().get(0).unsure().any()).isFalse();
        assertThat(timing().phases().get(1).unsure().active()).isTrue();
        assertThat(timing().unsure().span()).isTrue();
        job.decide("C-01", JUMP, CutState.PROPOSED, "");
        assertThat(timing().unsure().any()).isFalse();
        assertThat(job.of("C-01"))
                .singleElement()
                .satisfies(cut -> assertThat(cut.decidedBy()).isEmpty());
    }

    private CaseTiming timing() {
        return new ComputeTimings(workspace).ofCase("C-01", "A1", Level.PHASE);
    }

    @Test
    void aPersonCanAddWhatTheProgramMissed() {
        Cut seen = job.add("c-01", MediaTime.ofSeconds(2.5), "the instrument changed at once", "A2");
        assertThat(job.of("C-01")).containsExactly(seen);
        assertThat(seen.state()).isEqualTo(CutState.ACCEPTED);
        assertThat(seen.decidedBy()).isEqualTo("A2");
        assertThatThrownBy(() -> job.add("C-01", MediaTime.ofSeconds(8), "after the end", "A2"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("ends at 0:08.000");
    }

    /** Two drawings that have nothing to do with each other, a file each: what lies between is for a person to say. */
    @Test
    void whereFilesDoNotSurelyFollowEachOtherACutIsProposedAtTheirBorder() throws IOException {
        Path first = temp.resolve("part1.mp4");
        Path second = temp.resolve("part2.mp4");
        write(first, 5);
        write(second, 6);
        ImportRecording importing = new ImportRecording(workspace);
        importing.addCase(
                new NewCase("C-02", "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of()),
                importing.preview(List.of(first, second), Progress.NONE));
        assertThat(job.of("C-02")).singleElement().satisfies(cut -> {
            assertThat(cut.kind()).isEqualTo(CutKind.BETWEEN_FILES);
            assertThat(cut.state()).isEqualTo(CutState.PROPOSED);
            // 20 pictures of 0.1 s
            assertThat(cut.to()).isEqualTo(MediaTime.ofSeconds(2));
            assertThat(cut.evidence()).isNotBlank();
        });
    }

    private static void write(Path file, long view) throws IOException {
        try (VideoWriter writer = VideoWriter.open(file, VideoOptions.silent(WIDTH, HEIGHT, 1000, 100, 20))) {
            for (int frame = 0; frame < 20; frame++) {
                writer.frame(patches(view, frame), frame * 100L);
            }
            writer.finish();
        }
    }

    @Test
    void aDecisionNeedsACutThereAndAPerson() {
        assertThatThrownBy(() -> job.decide("C-01", JUMP, CutState.ACCEPTED, "A1"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("cuts find");
        job.add("C-01", MediaTime.ofSeconds(2), "seen", "A2");
        assertThatThrownBy(() -> job.decide("C-01", JUMP, CutState.DISMISSED, "A1"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("0:02.000");
        assertThatThrownBy(() -> job.decide("C-01", MediaTime.ofSeconds(2), CutState.DISMISSED, " "))
                .isInstanceOf(InputException.class);
        assertThatThrownBy(() -> job.of("C-99")).isInstanceOf(InputException.class);
    }
}
