package org.sideport.media.export;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.media.WrittenVideo;
import org.sideport.model.InputException;
import org.sideport.model.Progress;

class ProxyTest {

    @TempDir
    Path folder;

    @Test
    void theSmallCopyHasEveryFrameOfAllFilesAtItsTimeInTheRecording() throws IOException {
        long[] ticks = Stamped.uneven(40);
        Path one = Stamped.write(folder.resolve("p1.mp4"), ticks, 0);
        Path two = Stamped.write(folder.resolve("p2.mp4"), Stamped.even(10), 40);
        Path out = folder.resolve("small.mp4");
        Proxy.Result result = Proxy.write(List.of(one, two), 90, true, out, false, Progress.NONE);
        WrittenVideo copy = WrittenVideo.read(out);
        // 320 x 180 halved
        assertThat(copy.width()).isEqualTo(160);
        assertThat(copy.height()).isEqualTo(90);
        assertThat(result.frames()).isEqualTo(50);
        assertThat(copy.frames()).hasSize(50);
        // the second file starts where the first one's last frame ends: 40 ms after it, as written by the test's writer
        List<Long> times = Stamped.times(copy);
        List<Long> first = Stamped.micros(ticks, 0, 40);
        assertThat(times.subList(0, 40)).isEqualTo(first);
        List<Long> second = new ArrayList<>();
        IntStream.range(0, 10).forEach(i -> second.add(times.get(40) + i * 40_000L));
        assertThat(times.subList(40, 50)).isEqualTo(second);
        assertThat(times.get(40)).isGreaterThan(first.get(39));
    }

    @Test
    void aSmallPictureKeepsItsSizeAndASenselessHeightIsRefused() throws IOException {
        Path source = Stamped.write(folder.resolve("in.mp4"), Stamped.even(5), 0);
        Path out = folder.resolve("small.mp4");
        assertThat(Proxy.write(List.of(source), 360, false, out, false, Progress.NONE)
                        .height())
                .isEqualTo(180);
        assertThatThrownBy(() -> Proxy.write(List.of(source), 3, false, out, true, Progress.NONE))
                .isInstanceOf(InputException.class);
    }
}
