package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.Progress;
import org.sideport.store.Workspace;

class CaseThumbnailsTest {

    private static final Path RECORDING = Path.of(System.getProperty("sideport.home", "."), "demo-data", "D-002.mp4")
            .toAbsolutePath();

    @TempDir
    Path folder;

    private Workspace workspace;

    @BeforeEach
    void open() {
        workspace = Workspace.create(folder.resolve("ws"));
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
