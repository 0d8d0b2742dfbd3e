package org.sideport.workflow.exchange;

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
import static org.bytedeco.ffmpeg.global.avutil.AVMEDIA_TYPE_AUDIO;
import static org.bytedeco.ffmpeg.global.avutil.AVMEDIA_TYPE_SUBTITLE;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_get;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_alloc;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_free;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.bytedeco.ffmpeg.avcodec.AVCodecContext;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.ffmpeg.avformat.AVFormatContext;
import org.bytedeco.ffmpeg.avformat.AVInputFormat;
import org.bytedeco.ffmpeg.avformat.AVStream;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVDictionaryEntry;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.javacpp.FloatPointer;

/** What FFmpeg's own demuxer and decoders find in a film beside its pictures. */
record FilmSound(double loudFromS, double loudUntilS, List<Text> texts, List<String> languages, List<Text> chapters) {

    record Text(double fromS, double toS, String text) {}

    static FilmSound of(Path file) {
        AVFormatContext input = new AVFormatContext(null);
        if (avformat_open_input(input, file.toString(), (AVInputFormat) null, (AVDictionary) null) != 0) {
            throw new IllegalStateException("FFmpeg cannot open " + file);
        }
        avformat_find_stream_info(input, (AVDictionary) null);
        List<Text> texts = new ArrayList<>();
        List<String> languages = new ArrayList<>();
        AVStream sound = null;
        int first = -1;
        for (int i = 0; i < input.nb_streams(); i++) {
            AVStream stream = input.streams(i);
            if (stream.codecpar().codec_type() == AVMEDIA_TYPE_AUDIO) {
                sound = stream;
            } else if (stream.codecpar().codec_type() == AVMEDIA_TYPE_SUBTITLE) {
                first = first < 0 ? i : first;
                AVDictionaryEntry language = av_dict_get(stream.metadata(), "language", null, 0);
                languages.add(language == null ? "und" : language.value().getString());
            }
        }
        double[] loud = {-1, -1};
        AVCodecContext codec = null;
        if (sound != null) {
            var decoder = avcodec_find_decoder(sound.codecpar().codec_id());
            codec = avcodec_alloc_context3(decoder);
            avcodec_parameters_to_context(codec, sound.codecpar());
            codec.pkt_timebase(sound.time_base());
            avcodec_open2(codec, decoder, (AVDictionary) null);
        }
        AVPacket packet = av_packet_alloc();
        AVFrame frame = av_frame_alloc();
        while (av_read_frame(input, packet) >= 0) {
            AVStream of = input.streams(packet.stream_index());
            double tick = (double) of.time_base().num() / of.time_base().den();
            if (packet.stream_index() == first && packet.size() > 2) {
                byte[] bytes = new byte[packet.size() - 2];
                packet.data().position(2).get(bytes);
                double from = packet.pts() * tick;
                texts.add(new Text(from, from + packet.duration() * tick, new String(bytes, StandardCharsets.UTF_8)));
            } else if (sound != null && packet.stream_index() == sound.index()) {
                avcodec_send_packet(codec, packet);
                while (avcodec_receive_frame(codec, frame) == 0) {
                    FloatPointer samples = new FloatPointer(frame.data(0));
                    for (int i = 0; i < frame.nb_samples(); i++) {
                        if (Math.abs(samples.get(i)) > 0.2) {
                            double at = frame.pts() * tick + (double) i / frame.sample_rate();
                            loud[0] = loud[0] < 0 ? at : loud[0];
                            loud[1] = at;
                        }
                    }
                }
            }
            av_packet_unref(packet);
        }
        List<Text> chapters = new ArrayList<>();
        for (int i = 0; i < input.nb_chapters(); i++) {
            var chapter = input.chapters(i);
            double tick =
                    (double) chapter.time_base().num() / chapter.time_base().den();
            AVDictionaryEntry title = av_dict_get(chapter.metadata(), "title", null, 0);
            chapters.add(new Text(
                    chapter.start() * tick,
                    chapter.end() * tick,
                    title == null ? "" : title.value().getString(StandardCharsets.UTF_8)));
        }
        av_packet_free(packet);
        av_frame_free(frame);
        if (codec != null) {
            avcodec_free_context(codec);
        }
        avformat_close_input(input);
        return new FilmSound(loud[0], loud[1], texts, languages, chapters);
    }
}
