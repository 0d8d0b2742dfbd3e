package org.sideport.media;

import static org.assertj.core.api.Assertions.assertThat;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_FLAG_INTERLACED_DCT;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_FLAG_INTERLACED_ME;
import static org.bytedeco.ffmpeg.global.avformat.AVIO_FLAG_WRITE;
import static org.bytedeco.ffmpeg.global.avformat.av_write_trailer;
import static org.bytedeco.ffmpeg.global.avformat.avformat_alloc_output_context2;
import static org.bytedeco.ffmpeg.global.avformat.avformat_free_context;
import static org.bytedeco.ffmpeg.global.avformat.avformat_write_header;
import static org.bytedeco.ffmpeg.global.avformat.avio_closep;
import static org.bytedeco.ffmpeg.global.avformat.avio_open;
import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_YUV420P;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_free;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_set;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_alloc;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_free;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_get_buffer;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_make_writable;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import org.bytedeco.ffmpeg.avformat.AVFormatContext;
import org.bytedeco.ffmpeg.avformat.AVIOContext;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.bytedeco.javacpp.BytePointer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sideport.model.Progress;

/**
 * A white block that moves to the right with each field, on black: where each line of each field has it is known from how
 * the file is made.
 */
class FieldsTest {

    private static final int WIDTH = 320;
    private static final int HEIGHT = 160;
    private static final int FRAMES = 12;
    private static final int BLOCK = 64;
    private static final int STEP = 8;

    @TempDir
    Path folder;

    /** Left edge of the block in a field of a frame, counted in the order of display. */
    private static int edge(int frame, int field) {
        return 16 + STEP * (2 * frame + field);
    }

    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    void eachFieldIsShownAtItsMomentWithAllLines(boolean topFirst) throws IOException {
        try (RecordingFrames frames = RecordingFrames.open(List.of(write(true, topFirst)), Progress.NONE)) {
            assertThat(frames.frameCount()).isEqualTo(FRAMES);
            for (int n : new int[] {5, 6, 1, 10, 9, 4, 0, FRAMES - 1}) {
                FrameRef frame = frames.frame(n);
                standsAt(frames.picture(frame), n, 0);
                standsAt(frames.picture(frame, Rendering.FULL.with(Fields.FIRST)), n, 0);
                standsAt(frames.picture(frame, Rendering.FULL.with(Fields.SECOND)), n, 1);
                standsAt(frames.picture(frame, Rendering.DRAFT), n, 0);
                standsAt(frames.picture(frame, new Rendering(160, Fields.SECOND)), n, 1);
            }
        }
    }

    /** All lines have the block where the field has it: white within, black on both sides, no comb. */
    private static void standsAt(FramePicture picture, int frame, int field) {
        double scale = (double) picture.width() / WIDTH;
        int left = edge(frame, field);
        for (int y = 4; y < picture.height() - 4; y++) {
            String what = "frame " + frame + ", field " + field + ", line " + y;
            assertThat(green(picture, (left + 3) * scale, y)).as(what).isGreaterThan(180);
            assertThat(green(picture, (left + BLOCK - 4) * scale, y)).as(what).isGreaterThan(180);
            assertThat(green(picture, (left - 4) * scale, y)).as(what).isLessThan(75);
            assertThat(green(picture, (left + BLOCK + 3) * scale, y)).as(what).isLessThan(75);
        }
    }

    @Test
    void wovenFieldsAreLeftAsCoded() throws IOException {
        try (RecordingFrames frames = RecordingFrames.open(List.of(write(true, true)), Progress.NONE)) {
            FramePicture woven = frames.picture(frames.frame(5), Rendering.FULL.with(Fields.WOVEN));
            for (int y = 20; y < HEIGHT - 20; y++) {
                int beyond = green(woven, edge(5, 0) + BLOCK + 3, y);
                // only the second field, on the odd lines here, has got there
                assertThat(beyond > 127).as("line %s", y).isEqualTo(y % 2 == 1);
            }
        }
    }

    @Test
    void stepsForwardAndBackGiveTheSameFieldsAsJumps() throws IOException {
        Path file = write(true, true);
        try (RecordingFrames steps = RecordingFrames.open(List.of(file), Progress.NONE);
                RecordingFrames jumps = RecordingFrames.open(List.of(file), Progress.NONE)) {
            FramePicture[] jumped = new FramePicture[FRAMES];
            for (int i = 0; i < FRAMES; i++) {
                int n = i * 5 % FRAMES;
                jumped[n] = jumps.picture(jumps.frame(n));
            }
            for (int n = 0; n < FRAMES; n++) {
                assertThat(BarStamps.same(steps.picture(steps.frame(n)), jumped[n]))
                        .isTrue();
            }
            for (int n = FRAMES - 1; n >= 0; n--) {
                assertThat(BarStamps.same(steps.picture(steps.frame(n)), jumped[n]))
                        .isTrue();
            }
        }
    }

    @Test
    void aProgressivePictureIsNotTouched() throws IOException {
        try (RecordingFrames frames = RecordingFrames.open(List.of(write(false, true)), Progress.NONE)) {
            FrameRef frame = frames.frame(5);
            assertThat(BarStamps.same(frames.picture(frame), frames.picture(frame, Rendering.FULL.with(Fields.WOVEN))))
                    .isTrue();
            // the user may know better than the flag
            standsAt(frames.picture(frame, Rendering.FULL.with(Fields.SECOND)), 5, 1);
        }
    }

    private static int green(FramePicture picture, double x, int y) {
        return picture.bgra()[(y * picture.width() + (int) x) * 4 + 1] & 255;
    }

    private Path write(boolean flagged, boolean topFirst) throws IOException {
        Ffmpeg.quiet();
        Path file = folder.resolve("fields-" + flagged + topFirst + ".mkv");
        AVFormatContext context = new AVFormatContext(null);
        try (BytePointer url = Ffmpeg.url(file);
                BytePointer kind = new BytePointer("matroska", StandardCharsets.UTF_8)) {
            VideoTrack.check(avformat_alloc_output_context2(context, null, kind, url), "prepare");
            AVIOContext io = new AVIOContext(null);
            VideoTrack.check(avio_open(io, url, AVIO_FLAG_WRITE), "create");
            context.pb(io);
        }
        try (VideoTrack track = new VideoTrack(context, "libx264", 1)) {
            AVDictionary options = new AVDictionary(null);
            av_dict_set(options, "crf", "6", 0);
            track.open(
                    encoder -> {
                        encoder.width(WIDTH).height(HEIGHT).pix_fmt(AV_PIX_FMT_YUV420P);
                        encoder.time_base(new AVRational().num(1).den(25));
                        encoder.framerate(new AVRational().num(25).den(1));
                        encoder.gop_size(6).max_b_frames(2);
                        if (flagged) {
                            encoder.flags(encoder.flags() | AV_CODEC_FLAG_INTERLACED_DCT | AV_CODEC_FLAG_INTERLACED_ME);
                        }
                    },
                    options);
            av_dict_free(options);
            VideoTrack.check(avformat_write_header(context, (AVDictionary) null), "write the header");
            AVFrame frame = av_frame_alloc();
            frame.format(AV_PIX_FMT_YUV420P).width(WIDTH).height(HEIGHT);
            av_frame_get_buffer(frame, 0);
            for (int n = 0; n < FRAMES; n++) {
                av_frame_make_writable(frame);
                draw(frame, n, topFirst);
                int flags = frame.flags() & ~AVFrame.AV_FRAME_FLAG_TOP_FIELD_FIRST;
                frame.flags(flags
                        | (flagged ? AVFrame.AV_FRAME_FLAG_INTERLACED : 0)
                        | (flagged && topFirst ? AVFrame.AV_FRAME_FLAG_TOP_FIELD_FIRST : 0));
                frame.pts(n);
                track.send(frame);
            }
            track.send(null);
            av_frame_free(frame);
            av_write_trailer(context);
        } finally {
            avio_closep(context.pb());
            avformat_free_context(context);
        }
        return file;
    }

    private static void draw(AVFrame frame, int n, boolean topFirst) {
        byte[] row = new byte[WIDTH];
        for (int y = 0; y < HEIGHT; y++) {
            int field = (y % 2 == 0) == topFirst ? 0 : 1;
            Arrays.fill(row, (byte) 16);
            Arrays.fill(row, edge(n, field), edge(n, field) + BLOCK, (byte) 235);
            frame.data(0).position((long) y * frame.linesize(0)).put(row, 0, WIDTH);
        }
        Arrays.fill(row, (byte) 128);
        for (int plane = 1; plane <= 2; plane++) {
            for (int y = 0; y < HEIGHT / 2; y++) {
                frame.data(plane).position((long) y * frame.linesize(plane)).put(row, 0, WIDTH / 2);
            }
        }
    }
}
