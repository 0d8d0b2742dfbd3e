package org.sideport.media.voice;

import static org.bytedeco.ffmpeg.global.avcodec.av_packet_alloc;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_free;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_unref;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_alloc_context3;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_find_decoder;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_free_context;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_open2;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_parameters_to_context;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_receive_frame;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_send_packet;
import static org.bytedeco.ffmpeg.global.avformat.av_read_frame;
import static org.bytedeco.ffmpeg.global.avformat.avformat_alloc_context;
import static org.bytedeco.ffmpeg.global.avformat.avformat_close_input;
import static org.bytedeco.ffmpeg.global.avformat.avformat_find_stream_info;
import static org.bytedeco.ffmpeg.global.avformat.avformat_open_input;
import static org.bytedeco.ffmpeg.global.avutil.AVMEDIA_TYPE_AUDIO;
import static org.bytedeco.ffmpeg.global.avutil.AV_SAMPLE_FMT_S16;
import static org.bytedeco.ffmpeg.global.avutil.av_channel_layout_default;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_free;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_set;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_alloc;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_free;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_unref;
import static org.bytedeco.ffmpeg.global.swresample.swr_alloc;
import static org.bytedeco.ffmpeg.global.swresample.swr_convert_frame;
import static org.bytedeco.ffmpeg.global.swresample.swr_free;

import java.nio.file.Files;
import java.nio.file.Path;
import org.bytedeco.ffmpeg.avcodec.AVCodec;
import org.bytedeco.ffmpeg.avcodec.AVCodecContext;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.ffmpeg.avformat.AVFormatContext;
import org.bytedeco.ffmpeg.avformat.AVInputFormat;
import org.bytedeco.ffmpeg.avformat.AVStream;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.ffmpeg.swresample.SwrContext;
import org.bytedeco.javacpp.BytePointer;
import org.bytedeco.javacpp.ShortPointer;
import org.jspecify.annotations.Nullable;
import org.sideport.media.Ffmpeg;
import org.sideport.media.MediaException;
import org.sideport.media.MediaException.Reason;

/**
 * Reads a voice block by block as samples of {@value VoiceWriter#RATE} a second, one channel; what the encoder put before
 * the first sample and after the last is left out, as the file says. Thread-confined; must be closed.
 */
public final class VoiceReader implements AutoCloseable {

    private final AVFormatContext context = avformat_alloc_context();
    private final AVPacket packet = av_packet_alloc();
    private final AVFrame decoded = av_frame_alloc();
    private final AVFrame converted = av_frame_alloc();
    private final SwrContext resampler = swr_alloc();
    private @Nullable AVCodecContext codec;
    private int stream;
    private boolean draining;

    private VoiceReader() {}

    /**
     * @throws MediaException if it is missing or no sound of the kind that {@link VoiceWriter} writes
     */
    public static VoiceReader open(Path file) {
        Ffmpeg.quiet();
        if (!Files.isRegularFile(file)) {
            throw new MediaException(
                    Reason.NOT_FOUND,
                    "the sound of the comment is not there",
                    file.toString(),
                    "put the file back, from a copy of the workspace");
        }
        VoiceReader reader = new VoiceReader();
        try {
            reader.start(file);
            return reader;
        } catch (RuntimeException e) {
            reader.close();
            throw e;
        }
    }

    private void start(Path file) {
        try (BytePointer url = Ffmpeg.url(file)) {
            AVDictionary options = new AVDictionary(null);
            av_dict_set(options, "format_whitelist", "ogg", 0);
            av_dict_set(options, "protocol_whitelist", "file", 0);
            int code = avformat_open_input(context, url, (AVInputFormat) null, options);
            av_dict_free(options);
            if (code < 0) {
                // the library has freed the context
                context.setNull();
                throw unreadable(file);
            }
        }
        AVStream sound = avformat_find_stream_info(context, (AVDictionary) null) < 0 ? null : firstSound();
        AVCodec decoder =
                sound == null ? null : avcodec_find_decoder(sound.codecpar().codec_id());
        if (sound == null || decoder == null || decoder.isNull()) {
            throw unreadable(file);
        }
        stream = sound.index();
        AVCodecContext opened = avcodec_alloc_context3(decoder);
        codec = opened;
        avcodec_parameters_to_context(opened, sound.codecpar());
        opened.pkt_timebase(sound.time_base());
        if (avcodec_open2(opened, decoder, (AVDictionary) null) < 0) {
            throw unreadable(file);
        }
    }

    private @Nullable AVStream firstSound() {
        for (int i = 0; i < context.nb_streams(); i++) {
            if (context.streams(i).codecpar().codec_type() == AVMEDIA_TYPE_AUDIO) {
                return context.streams(i);
            }
        }
        return null;
    }

    private static MediaException unreadable(Path file) {
        return new MediaException(
                Reason.UNREADABLE,
                "this is no sound of a comment, or it is damaged",
                file.toString(),
                "put the file back, from a copy of the workspace");
    }

    /** The next samples, at least one; {@code null} at the end. */
    public short @Nullable [] next() {
        AVCodecContext open = codec;
        while (open != null) {
            av_frame_unref(decoded);
            if (avcodec_receive_frame(open, decoded) == 0) {
                short[] block = convert();
                if (block.length > 0) {
                    return block;
                }
            } else if (draining) {
                return null;
            } else {
                feed(open);
            }
        }
        return null;
    }

    private short[] convert() {
        av_frame_unref(converted);
        converted.format(AV_SAMPLE_FMT_S16).sample_rate(VoiceWriter.RATE);
        av_channel_layout_default(converted.ch_layout(), 1);
        if (swr_convert_frame(resampler, converted, decoded) < 0) {
            return new short[0];
        }
        short[] block = new short[converted.nb_samples()];
        if (block.length > 0) {
            new ShortPointer(converted.data(0)).get(block);
        }
        return block;
    }

    private void feed(AVCodecContext open) {
        while (av_read_frame(context, packet) >= 0) {
            boolean ours = packet.stream_index() == stream;
            if (ours) {
                avcodec_send_packet(open, packet);
            }
            av_packet_unref(packet);
            if (ours) {
                return;
            }
        }
        draining = true;
        avcodec_send_packet(open, (AVPacket) null);
    }

    /** Length of a voice by decoding all of it, microseconds. */
    public static long lengthUs(Path file) {
        try (VoiceReader reader = open(file)) {
            long samples = 0;
            for (short[] block = reader.next(); block != null; block = reader.next()) {
                samples += block.length;
            }
            return samples * 1_000_000 / VoiceWriter.RATE;
        }
    }

    @Override
    public void close() {
        swr_free(resampler);
        av_frame_free(converted);
        av_frame_free(decoded);
        av_packet_free(packet);
        AVCodecContext open = codec;
        if (open != null) {
            avcodec_free_context(open);
        }
        if (!context.isNull()) {
            avformat_close_input(context);
        }
    }
}
