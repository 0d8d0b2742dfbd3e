package org.sideport.media.measure;

import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_FLAG_CLOSED_GOP;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_alloc;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_clone;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_free;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_ref;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_rescale_ts;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_parameters_copy;
import static org.bytedeco.ffmpeg.global.avformat.AVIO_FLAG_WRITE;
import static org.bytedeco.ffmpeg.global.avformat.av_interleaved_write_frame;
import static org.bytedeco.ffmpeg.global.avformat.av_read_frame;
import static org.bytedeco.ffmpeg.global.avformat.av_write_trailer;
import static org.bytedeco.ffmpeg.global.avformat.avformat_alloc_output_context2;
import static org.bytedeco.ffmpeg.global.avformat.avformat_free_context;
import static org.bytedeco.ffmpeg.global.avformat.avformat_new_stream;
import static org.bytedeco.ffmpeg.global.avformat.avformat_write_header;
import static org.bytedeco.ffmpeg.global.avformat.avio_closep;
import static org.bytedeco.ffmpeg.global.avformat.avio_open;
import static org.bytedeco.ffmpeg.global.avutil.AVCOL_RANGE_MPEG;
import static org.bytedeco.ffmpeg.global.avutil.AVCOL_SPC_BT709;
import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_YUV420P;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_free;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_set;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_alloc;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_free;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_get_buffer;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_make_writable;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.bytedeco.ffmpeg.avcodec.AVCodecContext;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.ffmpeg.avformat.AVFormatContext;
import org.bytedeco.ffmpeg.avformat.AVIOContext;
import org.bytedeco.ffmpeg.avformat.AVStream;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.bytedeco.javacpp.BytePointer;
import org.sideport.media.Ffmpeg;
import org.sideport.media.MediaInput;
import org.sideport.media.VideoTrack;
import org.sideport.model.Progress;

/**
 * Writes a long made-up recording in seconds: a short clip of moving, grained pictures is encoded once (H.264 with
 * B-frames, a key frame every two seconds, 25 frames a second), and its packets are written over and over with later
 * times.
 */
public final class LongVideo {

    public static final int RATE = 25;

    /** Frames from one key frame to the next. */
    public static final int KEY_EVERY = 50;

    private static final int TICKS = 512;
    private static final int TURN = 1024;

    private LongVideo() {}

    /**
     * @param target is written over
     * @param clipSeconds of pictures to encode; an even number
     * @param seconds of the whole file; a multiple of {@code clipSeconds}
     * @throws IOException if it cannot be written
     * @throws java.util.concurrent.CancellationException if the progress is cancelled; nothing is left then
     */
    public static void write(Path target, int width, int height, int clipSeconds, int seconds, Progress progress)
            throws IOException {
        if (clipSeconds <= 0 || clipSeconds % 2 != 0 || seconds % clipSeconds != 0) {
            throw new IllegalArgumentException("a clip of even seconds, and a whole number of these");
        }
        Path clip = target.resolveSibling(target.getFileName() + ".clip");
        boolean done = false;
        try {
            encode(clip, width, height, clipSeconds * RATE, progress.part(0, 0.5));
            repeat(clip, target, clipSeconds, seconds / clipSeconds, progress.part(0.5, 1));
            done = true;
        } finally {
            Files.deleteIfExists(clip);
            if (!done) {
                Files.deleteIfExists(target);
            }
        }
    }

    private static void encode(Path clip, int width, int height, int frames, Progress progress) throws IOException {
        try (Output output = new Output(clip);
                VideoTrack track = new VideoTrack(output.context, "libx264", TICKS)) {
            AVDictionary options = new AVDictionary(null);
            av_dict_set(options, "preset", "veryfast", 0);
            av_dict_set(options, "crf", "26", 0);
            try {
                track.open(encoder -> describe(encoder, width, height), options);
            } finally {
                av_dict_free(options);
            }
            output.start();
            AVFrame frame = av_frame_alloc();
            try {
                frame.format(AV_PIX_FMT_YUV420P).width(width).height(height);
                VideoTrack.check(av_frame_get_buffer(frame, 0), "reserve a picture");
                for (int n = 0; n < frames; n++) {
                    progress.check();
                    progress.report((double) n / frames, "Making a recording to measure");
                    VideoTrack.check(av_frame_make_writable(frame), "reserve a picture");
                    draw(frame, n);
                    frame.pts((long) n * TICKS);
                    track.send(frame);
                }
                track.send(null);
            } finally {
                av_frame_free(frame);
            }
            output.finish();
        }
    }

    private static void describe(AVCodecContext encoder, int width, int height) {
        encoder.width(width).height(height).pix_fmt(AV_PIX_FMT_YUV420P);
        encoder.time_base(new AVRational().num(1).den(RATE * TICKS));
        encoder.framerate(new AVRational().num(RATE).den(1));
        encoder.gop_size(KEY_EVERY).max_b_frames(3).flags(AV_CODEC_FLAG_CLOSED_GOP);
        encoder.color_range(AVCOL_RANGE_MPEG).colorspace(AVCOL_SPC_BT709);
    }

    /** Waves that move against each other, under a grain that changes with each picture. */
    private static void draw(AVFrame frame, int n) {
        int width = frame.width();
        int height = frame.height();
        int[] wave = new int[TURN];
        for (int i = 0; i < TURN; i++) {
            wave[i] = (int) Math.round(30 * Math.sin(2 * Math.PI * i / TURN));
        }
        int grain = 12_345 + n * 7_919;
        byte[] row = new byte[width];
        BytePointer luma = frame.data(0);
        for (int y = 0; y < height; y++) {
            int across = wave[(y * 9 + n * 11) & (TURN - 1)];
            for (int x = 0; x < width; x++) {
                grain = grain * 1_664_525 + 1_013_904_223;
                int diagonal = wave[((x + y) * 23 - n * 40) & (TURN - 1)];
                row[x] = (byte) (120 + wave[(x * 5 + n * 17) & (TURN - 1)] + across + diagonal / 2 + (grain >>> 30));
            }
            luma.position((long) y * frame.linesize(0)).put(row, 0, width);
        }
        for (int plane = 1; plane <= 2; plane++) {
            BytePointer colour = frame.data(plane);
            for (int y = 0; y < height / 2; y++) {
                for (int x = 0; x < width / 2; x++) {
                    row[x] = (byte) (128 + wave[(x * 3 + y * 7 * plane + n * 9) & (TURN - 1)]);
                }
                colour.position((long) y * frame.linesize(plane)).put(row, 0, width / 2);
            }
        }
    }

    private static void repeat(Path clip, Path target, int clipSeconds, int times, Progress progress)
            throws IOException {
        List<AVPacket> packets = new ArrayList<>();
        AVPacket packet = av_packet_alloc();
        try (MediaInput input = MediaInput.open(clip);
                Output output = new Output(target)) {
            AVRational base = input.video().time_base();
            long length = (long) clipSeconds * base.den() / base.num();
            AVStream stream = avformat_new_stream(output.context, null);
            VideoTrack.check(
                    avcodec_parameters_copy(stream.codecpar(), input.video().codecpar()), "describe the stream");
            stream.codecpar().codec_tag(0);
            stream.time_base(base);
            stream.avg_frame_rate(new AVRational().num(RATE).den(1));
            output.start();
            while (av_read_frame(input.context(), packet) >= 0) {
                packets.add(av_packet_clone(packet));
            }
            for (int n = 0; n < times; n++) {
                progress.check();
                progress.report((double) n / times, "Making a recording to measure");
                for (AVPacket one : packets) {
                    VideoTrack.check(av_packet_ref(packet, one), "copy a packet");
                    packet.pts(one.pts() + n * length)
                            .dts(one.dts() + n * length)
                            .pos(-1);
                    packet.stream_index(0);
                    av_packet_rescale_ts(packet, base, stream.time_base());
                    VideoTrack.check(av_interleaved_write_frame(output.context, packet), "write");
                }
            }
            output.finish();
        } finally {
            packets.forEach(one -> av_packet_free(one));
            av_packet_free(packet);
        }
    }

    /** An MP4 file being written. */
    private static final class Output implements AutoCloseable {

        private final AVFormatContext context = new AVFormatContext(null);

        Output(Path file) throws IOException {
            Ffmpeg.quiet();
            try (BytePointer url = Ffmpeg.url(file);
                    BytePointer mp4 = new BytePointer("mp4", StandardCharsets.UTF_8)) {
                VideoTrack.check(avformat_alloc_output_context2(context, null, mp4, url), "prepare the file");
                AVIOContext io = new AVIOContext(null);
                int code = avio_open(io, url, AVIO_FLAG_WRITE);
                if (code < 0) {
                    avformat_free_context(context);
                }
                VideoTrack.check(code, "create " + file);
                context.pb(io);
            }
        }

        void start() throws IOException {
            VideoTrack.check(avformat_write_header(context, (AVDictionary) null), "write the header");
        }

        void finish() throws IOException {
            VideoTrack.check(av_write_trailer(context), "complete the file");
        }

        @Override
        public void close() {
            avio_closep(context.pb());
            avformat_free_context(context);
        }
    }
}
