package org.sideport.media.corpus;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.media.FrameRef;
import org.sideport.media.MediaProbe;
import org.sideport.media.RecordingFrames;
import org.sideport.model.Progress;

class FieldPicturesTest {

    @TempDir
    Path folder;

    /** Fifty packets, but twenty-five frames, of which each is on the screen for 40 ms. */
    @Test
    void twoFieldsThatAreCodedApartAreOneFrame() throws Exception {
        Path file = Files.write(folder.resolve("fields.h264"), FieldStream.of(25));
        assertThat(MediaProbe.probe(file, Progress.NONE).segment().frames()).isEqualTo(25);
        try (RecordingFrames frames = RecordingFrames.open(List.of(file), Progress.NONE)) {
            for (int n = 24; n >= 0; n--) {
                FrameRef frame = frames.frame(n);
                assertThat(Stamps.read(frames.picture(frame))).isEqualTo(n);
                assertThat(frame.start().micros()).isEqualTo(n * 40_000L);
                assertThat(frame.end().micros()).isEqualTo((n + 1) * 40_000L);
            }
        }
    }
}
