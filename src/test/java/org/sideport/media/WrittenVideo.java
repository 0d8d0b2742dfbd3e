package org.sideport.media;

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
import static org.bytedeco.ffmpeg.global.avformat.avformat_close_input;
import static org.bytedeco.ffmpeg.global.avformat.avformat_find_stream_info;
import static org.bytedeco.ffmpeg.global.avformat.avformat_open_input;
import static org.bytedeco.ffmpeg.global.avutil.AVMEDIA_TYPE_VIDEO;
import static org.bytedeco.ffmpeg.global.avutil.AV_DICT_IGNORE_SUFFIX;
import static org.bytedeco.ffmpeg.global.avutil.AV_PICTURE_TYPE_B;
import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_BGRA;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_get;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_alloc;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_free;
import static org.bytedeco.ffmpeg.global.swscale.SWS_BILINEAR;
import static org.bytedeco.ffmpeg.global.swscale.sws_freeContext;
import static org.bytedeco.ffmpeg.global.swscale.sws_getContext;
import static org.bytedeco.ffmpeg.global.swscale.sws_scale;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.bytedeco.ffmpeg.avcodec.AVCodecContext;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.ffmpeg.avformat.AVFormatContext;
import org.bytedeco.ffmpeg.avformat.AVInputFormat;
import org.bytedeco.ffmpeg.avformat.AVStream;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVDictionaryEntry;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.ffmpeg.swscale.SwsContext;
import org.bytedeco.javacpp.DoublePointer;
import org.bytedeco.javacpp.IntPointer;
import org.bytedeco.javacpp.PointerPointer;

/**
 * A whole file read back by FFmpeg's decoder, straight through from the start, with nothing of our own reading code in
 * between.
 *
 * @param tags container tags, {@code key=value}
 * @param streams number of streams
 */
public record WrittenVideo(int width, int height, List<Frame> frames, List<String> tags, int streams) {

    /**
     * @param micros presentation time, microseconds, from the file's own clock
     * @param argb {@code 0xAARRGGBB}, row by row
     */
    public record Frame(long micros, int[] argb, boolean bidirectional, boolean key) {}

    /** The whole file with all its pictures: for short ones. */
    public static WrittenVideo read(Path file) throws IOException {
        List<Frame> frames = new ArrayList<>();
        WrittenVideo video = scan(file, frames::add);
        return new WrittenVideo(video.width(), video.height(), frames, video.tags(), video.streams());
    }

    /** Hands out each picture in turn and keeps none. */
    public static WrittenVideo scan(Path file, Consumer<Frame> visitor) throws IOException {
        AVFormatContext input = new AVFormatContext(null);
        VideoTrack.check(
                avformat_open_input(input, file.toString(), (AVInputFormat) null, (AVDictionary) null), "open");
        VideoTrack.check(avformat_find_stream_info(input, (AVDictionary) null), "look");
        AVStream stream = null;
        for (int i = 0; i < input.nb_streams(); i++) {
            if (input.streams(i).codecpar().codec_type() == AVMEDIA_TYPE_VIDEO) {
                stream = input.streams(i);
            }
        }
        if (stream == null) {
            throw new IOException("no picture in " + file);
        }
        AVCodecContext decoder =
                avcodec_alloc_context3(avcodec_find_decoder(stream.codecpar().codec_id()));
        VideoTrack.check(avcodec_parameters_to_context(decoder, stream.codecpar()), "describe");
        VideoTrack.check(avcodec_open2(decoder, decoder.codec(), (AVDictionary) null), "open decoder");
        AVPacket packet = av_packet_alloc();
        AVFrame frame = av_frame_alloc();
        boolean more = true;
        while (more) {
            more = av_read_frame(input, packet) >= 0;
            if (more && packet.stream_index() != stream.index()) {
                av_packet_unref(packet);
                continue;
            }
            VideoTrack.check(avcodec_send_packet(decoder, more ? packet : null), "decode");
            av_packet_unref(packet);
            while (avcodec_receive_frame(decoder, frame) >= 0) {
                long micros = Math.round(frame.best_effort_timestamp()
                        * 1e6
                        * stream.time_base().num()
                        / stream.time_base().den());
                visitor.accept(new Frame(
                        micros,
                        pixels(frame),
                        frame.pict_type() == AV_PICTURE_TYPE_B,
                        (frame.flags() & AVFrame.AV_FRAME_FLAG_KEY) != 0));
            }
        }
        WrittenVideo video =
                new WrittenVideo(decoder.width(), decoder.height(), List.of(), tags(input), input.nb_streams());
        av_frame_free(frame);
        av_packet_free(packet);
        avcodec_free_context(decoder);
        avformat_close_input(input);
        return video;
    }

    private static int[] pixels(AVFrame frame) {
        int width = frame.width();
        int height = frame.height();
        SwsContext scaler = sws_getContext(
                width, height, frame.format(), width, height, AV_PIX_FMT_BGRA, SWS_BILINEAR, null, null, (DoublePointer)
                        null);
        int[] argb = new int[width * height];
        try (IntPointer out = new IntPointer((long) width * height);
                PointerPointer<IntPointer> planes = new PointerPointer<>(out, null, null, null);
                IntPointer strides = new IntPointer(width * 4, 0, 0, 0)) {
            sws_scale(scaler, frame.data(), frame.linesize(), 0, height, planes, strides);
            out.get(argb);
        }
        sws_freeContext(scaler);
        return argb;
    }

    private static List<String> tags(AVFormatContext input) {
        List<String> tags = new ArrayList<>();
        AVDictionaryEntry entry = null;
        while ((entry = av_dict_get(input.metadata(), "", entry, AV_DICT_IGNORE_SUFFIX)) != null) {
            tags.add(entry.key().getString() + "=" + entry.value().getString());
        }
        return tags;
    }
}
