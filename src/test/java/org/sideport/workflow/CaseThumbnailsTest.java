package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Set;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.Assignment.Purpose;
import org.sideport.model.Caller;
import org.sideport.model.Hidden;
import org.sideport.model.MaskArea;
import org.sideport.model.Progress;
import org.sideport.model.Role;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.assign.Assignments;

class CaseThumbnailsTest {

    private static final Path RECORDING = Path.of(System.getProperty("sideport.home", "."), "demo-data", "D-002.mp4")
            .toAbsolutePath();

    @TempDir
    Path folder;

    private Workspace workspace;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(folder.resolve("ws"));
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private void add(String code, Path... files) {
        ImportRecording importer = new ImportRecording(workspace);
        importer.addCase(
                new NewCase(code, "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of()),
                files.length == 0 ? null : importer.preview(List.of(files), Progress.NONE));
    }

    @Test
    void aSmallPictureIsMadeOnceAndKeptInTheIndexFolder() throws Exception {
        Path copy = Files.copy(RECORDING, folder.resolve("a.mp4"));
        add("C-1", copy);
        CaseThumbnails thumbnails = new CaseThumbnails(workspace);
        Path file = thumbnails.of("C-1", Progress.NONE);
        assertThat(file).startsWith(workspace.indexDir());
        var image = ImageIO.read(file.toFile());
        assertThat(image.getHeight()).isEqualTo(64);
        // the demo's recordings show an eye: neither black nor of one colour
        assertThat(image.getRGB(image.getWidth() / 2, 32) & 0xFFFFFF).isNotEqualTo(image.getRGB(0, 32) & 0xFFFFFF);

        // known content has its picture even when its file is gone
        Files.delete(copy);
        assertThat(thumbnails.of("C-1", Progress.NONE)).isEqualTo(file);
    }

    @Test
    void whoMarksBlindGetsOneOfTheirOwnThatIsBlackWhereTheCaseIsHidden() throws Exception {
        add("C-1", Files.copy(RECORDING, folder.resolve("a.mp4")));
        // the left half of a picture of 640 by 480 (demo-data/README.md)
        new HideAreas(workspace).replace("C-1", List.of(new MaskArea(0, 0, 320, 480)));
        String label = new Assignments(workspace, Clock.systemUTC())
                .give(List.of("C-1"), "A2", new Assignments.Terms(Purpose.FIRST, Set.of(Hidden.TRAINEE), null))
                .get(0)
                .label();
        Workspace blind = workspace.as(new Caller.Person("A2", Set.of(Role.ASSESSOR)));
        Path whole = new CaseThumbnails(workspace).of("C-1", Progress.NONE);
        Path covered = new CaseThumbnails(blind).of(label, Progress.NONE);
        var seen = ImageIO.read(covered.toFile());
        var all = ImageIO.read(whole.toFile());
        assertThat(seen.getRGB(30, 32) & 0xFFFFFF).isZero();
        assertThat(all.getRGB(30, 32) & 0xFFFFFF).isNotZero();
        assertThat(seen.getRGB(60, 32)).isEqualTo(all.getRGB(60, 32));

        new CaseThumbnails(workspace)
                .forget(workspace.read(stores -> stores.cases().get("C-1")).recording());
        assertThat(whole).doesNotExist();
        assertThat(covered).doesNotExist();
    }

    @Test
    void withoutARecordingOrItsFileThereIsNone() throws Exception {
        Path copy = Files.copy(RECORDING, folder.resolve("a.mp4"));
        add("C-1", copy);
        add("C-2");
        Files.delete(copy);
        CaseThumbnails thumbnails = new CaseThumbnails(workspace);
        assertThat(thumbnails.of("C-1", Progress.NONE)).isNull();
        assertThat(thumbnails.of("C-2", Progress.NONE)).isNull();
    }

    @Test
    void thoseNotSeenForLongestGoFirst() throws Exception {
        Path kept = Files.createDirectories(workspace.indexDir().resolve("thumbnails"));
        for (int i = 0; i < 5; i++) {
            Path file = Files.writeString(kept.resolve(i + ".png"), "x");
            Files.setLastModifiedTime(file, java.nio.file.attribute.FileTime.fromMillis(1000L * i));
        }
        new CaseThumbnails(workspace, 2).tidy();
        try (var left = Files.list(kept)) {
            assertThat(left.map(f -> f.getFileName().toString())).containsExactlyInAnyOrder("3.png", "4.png");
        }
    }
}
