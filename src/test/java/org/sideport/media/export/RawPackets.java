package org.sideport.media.export;

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
import static org.bytedeco.ffmpeg.global.avutil.AVMEDIA_TYPE_VIDEO;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_iterate;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_alloc;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_free;

import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.HexFormat;
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

/** What FFmpeg's demuxer and decoders say of a file, with nothing of our own code in between. */
final class RawPackets {

    private RawPackets() {}

    /** A stream: MD5 of each packet's bytes in file order. */
    record Stream(int type, int codec, List<String> packets, List<String> tags) {}

    record Content(List<Stream> streams, List<String> tags, int chapters) {

        List<String> packets(int type) {
            return streams.stream()
                    .filter(s -> s.type() == type)
                    .findFirst()
                    .orElseThrow()
                    .packets();
        }

        List<String> video() {
            return packets(AVMEDIA_TYPE_VIDEO);
        }

        List<String> audio() {
            return packets(AVMEDIA_TYPE_AUDIO);
        }
    }

    static Content read(Path file) throws Exception {
        AVFormatContext input = open(file);
        List<Stream> streams = new ArrayList<>();
        for (int i = 0; i < input.nb_streams(); i++) {
            AVStream s = input.streams(i);
            streams.add(new Stream(
                    s.codecpar().codec_type(), s.codecpar().codec_id(), new ArrayList<>(), tags(s.metadata())));
        }
        AVPacket packet = av_packet_alloc();
        while (av_read_frame(input, packet) >= 0) {
            byte[] bytes = new byte[packet.size()];
            if (bytes.length > 0) {
                packet.data().get(bytes);
            }
            String md5 =
                    HexFormat.of().formatHex(MessageDigest.getInstance("MD5").digest(bytes));
            streams.get(packet.stream_index()).packets().add(md5);
            av_packet_unref(packet);
        }
        av_packet_free(packet);
        Content content = new Content(streams, tags(input.metadata()), input.nb_chapters());
        avformat_close_input(input);
        return content;
    }

    private static AVFormatContext open(Path file) {
        AVFormatContext input = new AVFormatContext(null);
        if (avformat_open_input(input, file.toString(), (AVInputFormat) null, (AVDictionary) null) < 0
                || avformat_find_stream_info(input, (AVDictionary) null) < 0) {
            throw new AssertionError("cannot be opened: " + file);
        }
        return input;
    }

    private static List<String> tags(AVDictionary dictionary) {
        List<String> tags = new ArrayList<>();
        if (dictionary != null) {
            AVDictionaryEntry entry = av_dict_iterate(dictionary, null);
            while (entry != null) {
                tags.add(entry.key().getString() + "=" + entry.value().getString());
                entry = av_dict_iterate(dictionary, entry);
            }
        }
        return tags;
    }

    /** A decoded block of the first sound track: when it starts by the file's clock, and its first channel. */
    record Sound(double seconds, int rate, float[] samples) {}

    static List<Sound> sound(Path file) {
        AVFormatContext input = open(file);
        List<Sound> blocks = new ArrayList<>();
        AVStream stream = null;
        for (int i = 0; i < input.nb_streams(); i++) {
            if (input.streams(i).codecpar().codec_type() == AVMEDIA_TYPE_AUDIO) {
                stream = input.streams(i);
                break;
            }
        }
        if (stream != null) {
            AVCodecContext codec = avcodec_alloc_context3(
                    avcodec_find_decoder(stream.codecpar().codec_id()));
            avcodec_parameters_to_context(codec, stream.codecpar());
            codec.pkt_timebase(stream.time_base());
            avcodec_open2(codec, codec.codec(), (AVDictionary) null);
            AVPacket packet = av_packet_alloc();
            AVFrame frame = av_frame_alloc();
            boolean more = true;
            while (more) {
                more = av_read_frame(input, packet) >= 0;
                if (!more || packet.stream_index() == stream.index()) {
                    avcodec_send_packet(codec, more ? packet : null);
                }
                av_packet_unref(packet);
                while (avcodec_receive_frame(codec, frame) >= 0) {
                    float[] samples = new float[frame.nb_samples()];
                    new FloatPointer(frame.data(0)).get(samples);
                    double at = frame.best_effort_timestamp()
                            * (double) stream.time_base().num()
                            / stream.time_base().den();
                    blocks.add(new Sound(at, frame.sample_rate(), samples));
                }
            }
            av_frame_free(frame);
            av_packet_free(packet);
            avcodec_free_context(codec);
        }
        avformat_close_input(input);
        return blocks;
    }

    /** When it becomes loud and when silent again, in turn, seconds by the file's clock. */
    static List<Double> edges(Path file) {
        List<Double> edges = new ArrayList<>();
        boolean loud = false;
        for (Sound block : sound(file)) {
            int window = block.rate() / 500;
            for (int i = 0; i + window <= block.samples().length; i += window) {
                double peak = 0;
                for (int s = i; s < i + window; s++) {
                    peak = Math.max(peak, Math.abs(block.samples()[s]));
                }
                if (peak > 0.3 != loud) {
                    loud = !loud;
                    edges.add(block.seconds() + i / (double) block.rate());
                }
            }
        }
        return edges;
    }
}
