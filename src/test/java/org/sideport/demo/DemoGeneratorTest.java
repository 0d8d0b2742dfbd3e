package org.sideport.demo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.media.WrittenVideo;
import org.sideport.model.Operator;
import org.sideport.model.Progress;

class DemoGeneratorTest {

    @TempDir
    Path folder;

    @Test
    void stampsCountOnOverTheSplitAndComeThroughTheEncoderWhileTimesBeginAnew() throws IOException {
        generator().writeRecordings(folder, Progress.NONE);
        List<Integer> numbers = new ArrayList<>();
        List<Long> times = new ArrayList<>();
        for (String name : List.of("T-1_part9.mp4", "T-1_part10.mp4")) {
            WrittenVideo video = WrittenVideo.read(folder.resolve(name));
            for (WrittenVideo.Frame frame : video.frames()) {
                numbers.add(FrameStamp.read(frame.argb(), video.width(), video.height())
                        .orElse(-1));
                times.add(frame.micros());
            }
        }
        assertThat(numbers).isEqualTo(IntStream.range(0, 60).boxed().toList());
        // 25 frames a second: 40 000 us each, 35 frames in the first file
        assertThat(times)
                .isEqualTo(IntStream.range(0, 60)
                        .mapToObj(n -> (n < 35 ? n : n - 35) * 40_000L)
                        .toList());
    }

    @Test
    void thePhaseTruthIsWrittenInExactSeconds() throws IOException {
        generator().writeRecordings(folder, Progress.NONE);
        assertThat(folder.resolve("truth-phases.csv")).content().isEqualToIgnoringNewLines("""
                case,annotator,phase,start,end,operator
                T-1,TRUTH,rhexis,0.4,2,trainee
                """);
        assertThat(folder.resolve("truth-events.csv")).content().isEqualToIgnoringNewLines("""
                case,annotator,event,at,severity,note
                T-1,TRUTH,take_over,2,,
                """);
    }

    @Test
    void aCancelledRunLeavesNoHalfMadeRecording() throws IOException {
        Progress cancelled = new Progress() {
            @Override
            public void report(double fraction, String message) {}

            @Override
            public boolean isCancelled() {
                return true;
            }
        };
        assertThatThrownBy(() -> generator().writeRecordings(folder, cancelled))
                .isInstanceOf(CancellationException.class);
        try (var files = Files.list(folder)) {
            assertThat(files).noneMatch(f -> f.toString().contains(".mp4"));
        }
    }

    private static DemoGenerator generator() {
        ScriptBuilder script = new ScriptBuilder(25, 1);
        script.pause(0.4).step("rhexis", 1.6, Operator.TRAINEE).event("take_over", 0, null, "");
        script.pause(0.4);
        EyeScript small = new EyeScript(
                "T-1",
                List.of("T-1_part9.mp4", "T-1_part10.mp4"),
                new FrameClock(25, 1, List.of(35, 25)),
                new EyeScript.PictureShape(320, 240, 1, 1),
                new EyeScript.EyeLook(5, 0, 0, 0.58, false, 16, 1),
                script.acts(),
                script.cues(),
                false);
        return new DemoGenerator(List.of(small), new CohortGenerator(1));
    }
}
