package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_FLAG_BITEXACT;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_FLAG_GLOBAL_HEADER;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_alloc;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_free;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_rescale_ts;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_alloc_context3;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_find_encoder_by_name;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_free_context;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_open2;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_parameters_from_context;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_receive_packet;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_send_frame;
import static org.bytedeco.ffmpeg.global.avformat.av_interleaved_write_frame;
import static org.bytedeco.ffmpeg.global.avformat.avformat_new_stream;
import static org.bytedeco.ffmpeg.global.avutil.AVERROR_EOF;
import static org.bytedeco.ffmpeg.global.avutil.av_strerror;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.function.Consumer;
import org.bytedeco.ffmpeg.avcodec.AVCodec;
import org.bytedeco.ffmpeg.avcodec.AVCodecContext;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.ffmpeg.avformat.AVFormatContext;
import org.bytedeco.ffmpeg.avformat.AVStream;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.jspecify.annotations.Nullable;

/** One encoder with its stream in the file: takes pictures or sound, writes packets. */
public final class VideoTrack implements AutoCloseable {

    /** {@code AVERROR(EAGAIN)}: the encoder wants more input. The library has no constant for it; EAGAIN differs. */
    private static final int[] AGAIN = {-11, -35};

    private final AVFormatContext file;
    private final AVCodecContext encoder;
    private final AVPacket packet = av_packet_alloc();
    private @Nullable AVStream stream;
    private long lastDuration;

    /** @param duration length to write into packets to which the encoder gives none, in the encoder's ticks */
    public VideoTrack(AVFormatContext file, String encoderName, long duration) throws IOException {
        this.file = file;
        this.lastDuration = duration;
        AVCodec codec = avcodec_find_encoder_by_name(encoderName);
        if (codec == null || codec.isNull()) {
            throw new IOException("this build of FFmpeg has no encoder " + encoderName);
        }
        encoder = avcodec_alloc_context3(codec);
    }

    public AVCodecContext encoder() {
        return encoder;
    }

    /** Opens the encoder after {@code settings} have been applied, and adds its stream to the file. */
    public void open(Consumer<AVCodecContext> settings, AVDictionary options) throws IOException {
        settings.accept(encoder);
        encoder.flags(encoder.flags() | AV_CODEC_FLAG_GLOBAL_HEADER | AV_CODEC_FLAG_BITEXACT);
        check(avcodec_open2(encoder, encoder.codec(), options), "open the encoder");
        AVStream added = avformat_new_stream(file, null);
        added.time_base(encoder.time_base());
        added.avg_frame_rate(encoder.framerate());
        added.sample_aspect_ratio(encoder.sample_aspect_ratio());
        check(avcodec_parameters_from_context(added.codecpar(), encoder), "describe the stream");
        stream = added;
    }

    /** @param frame {@code null} for the end of the stream */
    public void send(@Nullable AVFrame frame) throws IOException {
        AVStream out = stream;
        if (out == null) {
            throw new IllegalStateException("the encoder is not open");
        }
        check(avcodec_send_frame(encoder, frame), "encode");
        while (true) {
            int code = avcodec_receive_packet(encoder, packet);
            if (code == AVERROR_EOF || code == AGAIN[0] || code == AGAIN[1]) {
                return;
            }
            check(code, "encode");
            packet.stream_index(out.index());
            if (packet.duration() <= 0) {
                packet.duration(lastDuration);
            }
            av_packet_rescale_ts(packet, encoder.time_base(), out.time_base());
            check(av_interleaved_write_frame(file, packet), "write");
        }
    }

    /** @throws IOException if {@code code} is one of FFmpeg's error numbers */
    public static void check(int code, String what) throws IOException {
        if (code < 0) {
            byte[] text = new byte[256];
            av_strerror(code, text, text.length);
            String reason = new String(text, StandardCharsets.UTF_8).trim();
            throw new IOException("could not " + what + " (" + reason + ", code " + code + ")");
        }
    }

    @Override
    public void close() {
        av_packet_free(packet);
        avcodec_free_context(encoder);
    }
}
