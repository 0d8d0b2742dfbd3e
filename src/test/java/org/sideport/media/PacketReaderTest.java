package org.sideport.media;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.media.corpus.StampedFile;
import org.sideport.model.Progress;

class PacketReaderTest {

    @TempDir
    Path folder;

    /** Reading a long file from its start for each jump would be right, and much too slow. */
    @ParameterizedTest
    @CsvSource({
        "libx264, mp4, 2",
        "libx264, mov, 0",
        "libx264, mpegts, 2",
        "mpeg2video, vob, 2",
        "libx264, matroska, 2",
        "libx264, avi, 0",
        "libx264, avi, 2",
        "mpeg4, avi, 2",
        "mjpeg, avi, 0",
        "wmv2, asf, 0",
        "libx264, h264, 2",
        "libx265, mp4, 3"
    })
    void everyKeyPacketIsReachedBySeeking(String coder, String container, int bFrames) throws Exception {
        Path file = folder.resolve("file");
        StampedFile.frames(120, 25).as(coder, container).b(bFrames).write(file);
        FrameIndex index = FrameIndexer.index(file, Progress.NONE);
        assertThat(index.keys()).hasSizeGreaterThan(5);
        try (PacketReader reader = new PacketReader(MediaInput.open(file), index.keys())) {
            for (int key = index.keys().size() - 1; key >= 0; key--) {
                assertThat(reader.startAt(key)).isTrue();
                assertThat(reader.next()).isTrue();
                assertThat(reader.ordinal()).isEqualTo(index.keys().get(key).ordinal());
            }
            assertThat(reader.restarts()).isZero();
        }
    }

    @Test
    void aFileThatVanishesWhileItIsReadIsAFaultAndNoCrash() throws Exception {
        Path file = folder.resolve("gone.mp4");
        StampedFile.frames(30, 25).write(file);
        FrameIndex index = FrameIndexer.index(file, Progress.NONE);
        try (PacketReader reader = new PacketReader(MediaInput.open(file), index.keys())) {
            assertThat(reader.startAt(1)).isTrue();
            // a file that is open cannot be deleted on every system, but always be renamed away or refuse to
            if (file.toFile().renameTo(folder.resolve("elsewhere.mp4").toFile())) {
                assertThatThrownBy(() -> reader.startAt(-1)).isInstanceOf(MediaException.class);
            }
            assertThat(reader.startAt(2)).isTrue();
            assertThat(reader.next()).isTrue();
            assertThat(reader.ordinal()).isEqualTo(index.keys().get(2).ordinal());
        }
    }

    /** All pictures of this file are key pictures; keeping each would cost more memory than its time does. */
    @Test
    void notEveryKeyPacketOfAFileOfKeyPicturesIsKept() throws Exception {
        Path file = folder.resolve("all.avi");
        StampedFile.frames(80, 25).as("mjpeg", "avi").write(file);
        assertThat(FrameIndexer.index(file, Progress.NONE).keys()).hasSize(10);
    }
}
