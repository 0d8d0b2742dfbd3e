package org.sideport.media.corpus;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sideport.media.FramePicture;
import org.sideport.media.MediaProbe;
import org.sideport.media.RecordingFrames;
import org.sideport.model.Progress;
import org.sideport.model.Segment;

class DisplayPropertiesTest {

    @TempDir
    Path folder;

    @ParameterizedTest
    @ValueSource(ints = {0, 90, 180, 270})
    void aTurnedRecordingIsShownUpright(int degrees) throws Exception {
        Path file = folder.resolve("turned.mp4");
        StampedFile.frames(3, 25).rotated(degrees).write(file);
        Segment segment = probe(file);
        assertThat(segment.rotation()).isEqualTo(degrees);
        FramePicture picture = picture(file);
        boolean sideways = degrees % 180 != 0;
        assertThat(picture.width()).isEqualTo(sideways ? 120 : 160);
        assertThat(picture.height()).isEqualTo(sideways ? 160 : 120);
        assertThat(picture.displayAspect()).isEqualTo(sideways ? 0.75 : 4 / 3.0);
        // the stamp's first block lies in the coded picture's lower left corner and is black in frame 0
        int x = degrees == 0 || degrees == 90 ? 2 : picture.width() - 3;
        int y = degrees == 0 || degrees == 270 ? picture.height() - 3 : 2;
        assertThat(picture.bgra()[4 * (y * picture.width() + x)] & 0xFF).isLessThan(40);
    }

    @Test
    void pixelsThatAreNotSquareAreTold() throws Exception {
        Path file = folder.resolve("wide.vob");
        // 720 × 576 with pixels of 64:45 is 16:9 (ITU-R BT.601 raster as ISO/IEC 13818-2, 6.3.3 codes it: aspect 3)
        StampedFile.frames(3, 25)
                .as("mpeg2video", "vob")
                .size(720, 576)
                .pixels(64, 45)
                .write(file);
        assertThat(probe(file).sampleAspect()).isEqualTo("64:45");
        assertThat(picture(file).displayAspect()).isEqualTo(16 / 9.0);
    }

    @Test
    void interlacedRecordingsAreTold() throws Exception {
        Path yes = folder.resolve("i.vob");
        StampedFile.frames(12, 25).as("mpeg2video", "vob").interlaced().write(yes);
        Path no = folder.resolve("p.vob");
        StampedFile.frames(12, 25).as("mpeg2video", "vob").write(no);
        assertThat(probe(yes).interlaced()).isTrue();
        assertThat(probe(no).interlaced()).isFalse();
        assertThat(probe(yes).frames()).isEqualTo(12);
    }

    @Test
    void aBareStreamSaysItsOwnRate() throws Exception {
        Path file = folder.resolve("bare.h264");
        StampedFile.frames(12, 50).as("libx264", "h264").write(file);
        Segment segment = probe(file);
        assertThat(segment.fpsNum() / (double) segment.fpsDen()).isEqualTo(50);
    }

    private static Segment probe(Path file) {
        return MediaProbe.probe(file, Progress.NONE).segment();
    }

    private static FramePicture picture(Path file) {
        try (RecordingFrames frames = RecordingFrames.open(List.of(file), Progress.NONE)) {
            return frames.picture(frames.frame(0));
        }
    }
}
