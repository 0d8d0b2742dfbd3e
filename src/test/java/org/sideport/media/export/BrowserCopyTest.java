package org.sideport.media.export;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.media.WrittenVideo;
import org.sideport.model.MaskArea;
import org.sideport.model.Progress;

/** What the copy must hold follows from how its source was made: the number in each picture and its time. */
class BrowserCopyTest {

    @TempDir
    Path folder;

    @Test
    void whatPlaysAlreadyIsCopiedWithoutLossAndWithoutSound() throws IOException {
        long[] ticks = Stamped.uneven(60);
        Path source = Stamped.write(folder.resolve("in.mp4"), ticks, 0, 0.3, 0.6);
        Path out = folder.resolve("recording.mp4");
        BrowserCopy.Result copy = BrowserCopy.write(List.of(source), List.of(), false, out, Progress.NONE);
        assertThat(copy.encoded()).isFalse();
        assertThat(copy.sound()).isFalse();
        WrittenVideo written = WrittenVideo.read(out);
        assertThat(Stamped.stamps(written))
                .isEqualTo(IntStream.range(0, 60).boxed().toList());
        assertThat(Stamped.times(written)).isEqualTo(Stamped.micros(ticks, 0, 60));
        assertThat(copy.frames().size()).isEqualTo(60);
    }

    @Test
    void severalFilesBecomeOneOnTheTimelineOfTheRecording() throws IOException {
        Path one = Stamped.write(folder.resolve("p1.mp4"), Stamped.even(30), 0);
        Path two = Stamped.write(folder.resolve("p2.mp4"), Stamped.even(30), 30);
        Path out = folder.resolve("recording.mp4");
        BrowserCopy.Result copy = BrowserCopy.write(List.of(one, two), List.of(), false, out, Progress.NONE);
        assertThat(copy.encoded()).isTrue();
        assertThat(Stamped.stamps(WrittenVideo.read(out)))
                .isEqualTo(IntStream.range(0, 60).boxed().toList());
        // 25 frames a second: the 45th begins at 1.8 s
        assertThat(copy.frames().startUs(45)).isEqualTo(1_800_000);
        assertThat(BrowserCopy.plays(out, true)).isTrue();
    }

    @Test
    void anAreaIsHiddenInWhatIsHandedOut() throws IOException {
        Path source = Stamped.write(folder.resolve("in.mp4"), Stamped.even(20), 0);
        Path out = folder.resolve("recording.mp4");
        BrowserCopy.Result copy =
                BrowserCopy.write(List.of(source), List.of(new MaskArea(0, 0, 32, 16)), false, out, Progress.NONE);
        assertThat(copy.encoded())
                .as("nothing of what lay under the mask may be in it")
                .isTrue();
        assertThat(copy.frames().size()).isEqualTo(20);
    }
}
