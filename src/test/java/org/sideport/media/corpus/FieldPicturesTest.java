package org.sideport.media.corpus;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sideport.media.FrameRef;
import org.sideport.media.MediaProbe;
import org.sideport.media.RecordingFrames;
import org.sideport.model.Progress;

class FieldPicturesTest {

    @TempDir
    Path folder;

    /** Fifty packets, but twenty-five frames, of which each is on the screen for 40 ms. */
    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void twoFieldsThatAreCodedApartAreOneFrame(boolean transport) throws Exception {
        Path file = folder.resolve("fields");
        if (transport) {
            FieldStream.writeTransport(FieldStream.of(25), file);
        } else {
            FieldStream.writeBare(FieldStream.of(25), file);
        }
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
