package org.sideport.media.corpus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.assertj.core.api.SoftAssertions;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.sideport.media.FramePicture;
import org.sideport.media.FrameRef;
import org.sideport.media.MediaException;
import org.sideport.media.MediaProbe;
import org.sideport.media.MediaWarning;
import org.sideport.media.MediaWarning.Code;
import org.sideport.media.ProbedFile;
import org.sideport.media.RecordingFrames;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;

/** Each file of the {@link Corpus}: length, every frame's time and picture, warnings or the refusal. */
class CorpusTest {

    /** Strides through all frames so that most steps are jumps, back as often as forth. */
    private static final int STRIDE = 17;

    @TempDir
    Path folder;

    static List<Corpus.Item> items() {
        return Corpus.all();
    }

    @ParameterizedTest
    @MethodSource("items")
    void everyFrameIsWhereItWasMade(Corpus.Item item) throws Exception {
        Path file = item.maker().make(folder);
        Expected expected = item.expected();
        if (expected.error() != null) {
            assertThatThrownBy(() -> MediaProbe.probe(file, Progress.NONE))
                    .isInstanceOfSatisfying(
                            MediaException.class, e -> assertThat(e.reason()).isEqualTo(expected.error()));
            assertThatThrownBy(() -> RecordingFrames.open(List.of(file), Progress.NONE))
                    .isInstanceOf(MediaException.class);
            return;
        }
        SoftAssertions soft = new SoftAssertions();
        ProbedFile probed = MediaProbe.probe(file, Progress.NONE);
        soft.assertThat(probed.segment().frames()).as("frames").isEqualTo(expected.stamps().length);
        soft.assertThat(probed.segment().durationUs()).as("duration").isEqualTo(expected.durationUs());
        soft.assertThat(codes(probed)).as("warnings").isEqualTo(expected.warnings());
        try (RecordingFrames frames = RecordingFrames.open(List.of(file), Progress.NONE)) {
            soft.assertThat(frames.duration().micros()).isEqualTo(expected.durationUs());
            int count = (int) Math.min(frames.frameCount(), expected.stamps().length);
            long[] starts = new long[count];
            int[] stamps = new int[count];
            for (int i = 0; i < count; i++) {
                int n = (int) ((long) i * STRIDE % count);
                n = count % STRIDE == 0 ? i : n;
                FrameRef frame = frames.frameAt(MediaTime.ofMicros(expected.startsUs()[n]));
                starts[n] = frame.start().micros();
                FramePicture picture = frames.picture(frame);
                stamps[n] = expected.stamps()[n] == Expected.ANY
                        ? Expected.ANY
                        : Stamps.read(picture, probed.segment().rotation());
            }
            soft.assertThat(Arrays.toString(starts))
                    .as("starts")
                    .isEqualTo(Arrays.toString(Arrays.copyOf(expected.startsUs(), count)));
            soft.assertThat(Arrays.toString(stamps))
                    .as("stamps")
                    .isEqualTo(Arrays.toString(Arrays.copyOf(expected.stamps(), count)));
        }
        soft.assertAll();
    }

    private static Set<Code> codes(ProbedFile probed) {
        return probed.warnings().stream()
                .map(MediaWarning::code)
                .filter(code -> !code.name().startsWith("IDENTITY"))
                .collect(Collectors.toSet());
    }
}
