package org.sideport.media;

import static org.assertj.core.api.Assertions.assertThat;
import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_YUV420P;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_alloc;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_free;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_get_buffer;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.Progress;

/** The pictures bear their numbers; how quickly they come must not change which they are. */
class DraftsAndStepsTest {

    private static final int FRAMES = 200;
    private static final int WIDTH = 1280;
    private static final int HEIGHT = 96;

    @TempDir
    static Path folder;

    private static Path video;

    @BeforeAll
    static void write() throws IOException {
        video = BarStamps.write(folder.resolve("bars.mp4"), WIDTH, HEIGHT, FRAMES, 40);
    }

    private static RecordingFrames open() {
        return RecordingFrames.open(List.of(video), Progress.NONE);
    }

    @Test
    void aDraftIsASmallPictureOfExactlyThatFrame() {
        Random random = new Random(20261126);
        try (RecordingFrames frames = open()) {
            assertThat(frames.frameCount()).isEqualTo(FRAMES);
            for (int i = 0; i < 120; i++) {
                int n = random.nextInt(FRAMES);
                FramePicture draft = frames.picture(frames.frame(n), Rendering.DRAFT);
                assertThat(draft.width()).isEqualTo(640);
                assertThat(draft.height()).isEqualTo(48);
                assertThat(draft.displayAspect()).isEqualTo((double) WIDTH / HEIGHT);
                assertThat(BarStamps.read(draft)).isEqualTo(n);
            }
        }
    }

    /** Draft, rest, step, jump in any order: each picture is the one that a decoder fresh from the start gives. */
    @Test
    void noOrderOfDraftsStepsAndJumpsChangesAPicture() throws InterruptedException {
        List<FramePicture> straight = new ArrayList<>();
        try (RecordingFrames frames = open()) {
            for (int n = 0; n < FRAMES; n++) {
                straight.add(frames.picture(frames.frame(n)));
            }
        }
        Random random = new Random(5);
        try (RecordingFrames frames = open()) {
            int at = 100;
            for (int i = 0; i < 250; i++) {
                int kind = random.nextInt(6);
                if (kind == 0) {
                    at = random.nextInt(FRAMES);
                } else if (kind < 3) {
                    int way = random.nextBoolean() ? 1 : -1;
                    for (int k = random.nextInt(12); k > 0 && at + way >= 0 && at + way < FRAMES; k--) {
                        at += way;
                        assertThat(BarStamps.same(frames.picture(frames.frame(at)), straight.get(at)))
                                .as("step to %s", at)
                                .isTrue();
                    }
                } else if (kind < 5) {
                    at = Math.max(0, Math.min(FRAMES - 1, at + random.nextInt(41) - 20));
                    assertThat(BarStamps.read(frames.picture(frames.frame(at), Rendering.DRAFT)))
                            .isEqualTo(at);
                } else {
                    Thread.sleep(random.nextInt(5));
                }
                assertThat(BarStamps.same(frames.picture(frames.frame(at)), straight.get(at)))
                        .as("frame %s", at)
                        .isTrue();
            }
        }
    }

    /** Stepping back over the border of two groups of pictures: made ready while the user looks at the ones before. */
    @Test
    void closingWhileFramesAreMadeReadyIsSafe() {
        for (int i = 0; i < 20; i++) {
            try (RecordingFrames frames = open()) {
                for (int n = 90; n > 80 - i % 3; n--) {
                    assertThat(BarStamps.read(frames.picture(frames.frame(n)))).isEqualTo(n);
                }
            }
        }
    }

    @Test
    void theCacheStaysWithinItsBytesAndKeepsWhatLiesAhead() {
        // a frame of 64 × 64 in 4:2:0 takes 64 × 64 × 3 / 2 = 6144 bytes: ten fit
        AVFrame frame = av_frame_alloc();
        frame.format(AV_PIX_FMT_YUV420P).width(64).height(64);
        av_frame_get_buffer(frame, 0);
        try (FrameCache cache = new FrameCache(10 * 6144)) {
            cache.focus(50, -1);
            for (int n = 0; n < 100; n++) {
                cache.put(n, frame);
                assertThat(cache.usedBytes()).isLessThanOrEqualTo(10 * 6144);
            }
            for (int n = 43; n <= 50; n++) {
                assertThat(cache.get(n)).as("frame %s", n).isNotNull();
            }
            assertThat(cache.get(54)).isNull();
            cache.focus(70, 1);
            for (int n = 60; n < 80; n++) {
                cache.put(n, frame);
            }
            for (int n = 70; n < 77; n++) {
                assertThat(cache.get(n)).as("frame %s", n).isNotNull();
            }
            assertThat(cache.get(43)).isNull();
        } finally {
            av_frame_free(frame);
        }
    }
}
