package org.sideport.media.export;

import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_TTF;
import static org.bytedeco.ffmpeg.global.avcodec.AV_PKT_DATA_DISPLAYMATRIX;
import static org.bytedeco.ffmpeg.global.avcodec.av_bsf_alloc;
import static org.bytedeco.ffmpeg.global.avcodec.av_bsf_free;
import static org.bytedeco.ffmpeg.global.avcodec.av_bsf_get_by_name;
import static org.bytedeco.ffmpeg.global.avcodec.av_bsf_init;
import static org.bytedeco.ffmpeg.global.avcodec.av_bsf_receive_packet;
import static org.bytedeco.ffmpeg.global.avcodec.av_bsf_send_packet;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_alloc;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_free;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_rescale_ts;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_side_data_new;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_parameters_copy;
import static org.bytedeco.ffmpeg.global.avformat.AVIO_FLAG_WRITE;
import static org.bytedeco.ffmpeg.global.avformat.av_interleaved_write_frame;
import static org.bytedeco.ffmpeg.global.avformat.av_read_frame;
import static org.bytedeco.ffmpeg.global.avformat.av_write_trailer;
import static org.bytedeco.ffmpeg.global.avformat.avformat_alloc_output_context2;
import static org.bytedeco.ffmpeg.global.avformat.avformat_close_input;
import static org.bytedeco.ffmpeg.global.avformat.avformat_find_stream_info;
import static org.bytedeco.ffmpeg.global.avformat.avformat_free_context;
import static org.bytedeco.ffmpeg.global.avformat.avformat_new_stream;
import static org.bytedeco.ffmpeg.global.avformat.avformat_open_input;
import static org.bytedeco.ffmpeg.global.avformat.avformat_write_header;
import static org.bytedeco.ffmpeg.global.avformat.avio_closep;
import static org.bytedeco.ffmpeg.global.avformat.avio_open;
import static org.bytedeco.ffmpeg.global.avutil.AVMEDIA_TYPE_ATTACHMENT;
import static org.bytedeco.ffmpeg.global.avutil.AVMEDIA_TYPE_VIDEO;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_set;
import static org.bytedeco.ffmpeg.global.avutil.av_display_rotation_set;
import static org.bytedeco.ffmpeg.global.avutil.av_malloc;
import static org.bytedeco.ffmpeg.global.avutil.av_mallocz;
import static org.bytedeco.ffmpeg.global.avutil.av_opt_set;

import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import org.bytedeco.ffmpeg.avcodec.AVBSFContext;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.ffmpeg.avcodec.AVPacketSideData;
import org.bytedeco.ffmpeg.avformat.AVChapter;
import org.bytedeco.ffmpeg.avformat.AVFormatContext;
import org.bytedeco.ffmpeg.avformat.AVIOContext;
import org.bytedeco.ffmpeg.avformat.AVInputFormat;
import org.bytedeco.ffmpeg.avformat.AVOutputFormat;
import org.bytedeco.ffmpeg.avformat.AVStream;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.bytedeco.javacpp.BytePointer;
import org.bytedeco.javacpp.IntPointer;
import org.bytedeco.javacpp.PointerPointer;

/** Rewrites a file in another container or with things planted in it, with FFmpeg's muxers alone. */
final class Planted {

    private final Path source;
    private final Map<String, String> tags = new TreeMap<>();
    private final Map<String, String> streamTags = new TreeMap<>();
    private final Map<String, String> muxing = new TreeMap<>();
    private String chapter = "";
    private String sei = "";
    private int clockwise;
    private int frameClock;
    private String attached = "";
    private String attachedText = "";

    Planted(Path source) {
        this.source = source;
    }

    Planted tag(String key, String value) {
        tags.put(key, value);
        return this;
    }

    Planted streamTag(String key, String value) {
        streamTags.put(key, value);
        return this;
    }

    Planted muxing(String key, String value) {
        muxing.put(key, value);
        return this;
    }

    Planted chapter(String title) {
        chapter = title;
        return this;
    }

    /** User data (SEI type 5) in every key picture of an H.264 stream. */
    Planted sei(String text) {
        sei = text;
        return this;
    }

    Planted rotated(int degrees) {
        clockwise = degrees;
        return this;
    }

    /** A file inside the file, as Matroska keeps them. */
    Planted attachment(String name, String content) {
        attached = name;
        attachedText = content;
        return this;
    }

    private void attach(AVFormatContext out) {
        if (attached.isEmpty()) {
            return;
        }
        AVStream stream = avformat_new_stream(out, null);
        byte[] bytes = attachedText.getBytes(java.nio.charset.StandardCharsets.UTF_8);
        BytePointer extra = new BytePointer(av_mallocz(bytes.length + 64L));
        extra.put(bytes, 0, bytes.length);
        stream.codecpar().codec_type(AVMEDIA_TYPE_ATTACHMENT).codec_id(AV_CODEC_ID_TTF);
        stream.codecpar().extradata(extra).extradata_size(bytes.length);
        stream.metadata(dictionary(Map.of("filename", attached, "mimetype", "application/x-truetype-font")));
    }

    /** Frames a second, for containers that count frames. */
    Planted counted(int framesPerSecond) {
        frameClock = framesPerSecond;
        return this;
    }

    Path write(Path target, String muxer) {
        AVFormatContext in = new AVFormatContext(null);
        check(avformat_open_input(in, source.toString(), (AVInputFormat) null, (AVDictionary) null));
        check(avformat_find_stream_info(in, (AVDictionary) null));
        AVFormatContext out = new AVFormatContext(null);
        check(avformat_alloc_output_context2(out, (AVOutputFormat) null, muxer, target.toString()));
        AVBSFContext filter = new AVBSFContext(null);
        for (int i = 0; i < in.nb_streams(); i++) {
            AVStream from = in.streams(i);
            AVStream to = avformat_new_stream(out, null);
            avcodec_parameters_copy(to.codecpar(), from.codecpar());
            to.codecpar().codec_tag(0);
            to.time_base(frameClock > 0 ? new AVRational().num(1).den(frameClock) : from.time_base());
            to.avg_frame_rate(from.avg_frame_rate());
            to.metadata(dictionary(streamTags));
            if (from.codecpar().codec_type() == AVMEDIA_TYPE_VIDEO) {
                if (!sei.isEmpty()) {
                    check(av_bsf_alloc(av_bsf_get_by_name("h264_metadata"), filter));
                    avcodec_parameters_copy(filter.par_in(), from.codecpar());
                    filter.time_base_in(from.time_base());
                    check(av_opt_set(
                            filter.priv_data(), "sei_user_data", "086f3693b7b34f2c965321492feee5b8+" + sei, 0));
                    check(av_bsf_init(filter));
                    // the filter gives start codes, and says so in its parameters; the muxer turns them into lengths
                    avcodec_parameters_copy(to.codecpar(), filter.par_out());
                    to.codecpar().codec_tag(0);
                }
                turn(to);
            }
        }
        attach(out);
        out.metadata(dictionary(tags));
        addChapter(out);
        AVIOContext io = new AVIOContext(null);
        check(avio_open(io, target.toString(), AVIO_FLAG_WRITE));
        out.pb(io);
        check(avformat_write_header(out, dictionary(muxing)));
        AVPacket packet = av_packet_alloc();
        while (av_read_frame(in, packet) >= 0) {
            AVStream from = in.streams(packet.stream_index());
            AVStream to = out.streams(packet.stream_index());
            if (!filter.isNull() && from.codecpar().codec_type() == AVMEDIA_TYPE_VIDEO) {
                check(av_bsf_send_packet(filter, packet));
                check(av_bsf_receive_packet(filter, packet));
            }
            av_packet_rescale_ts(packet, from.time_base(), to.time_base());
            packet.pos(-1);
            check(av_interleaved_write_frame(out, packet));
        }
        av_packet_free(packet);
        check(av_write_trailer(out));
        avio_closep(out.pb());
        out.pb(null);
        if (!filter.isNull()) {
            av_bsf_free(filter);
        }
        avformat_free_context(out);
        avformat_close_input(in);
        return target;
    }

    private void turn(AVStream stream) {
        if (clockwise == 0) {
            return;
        }
        PointerPointer<AVPacketSideData> list = new PointerPointer<>(1);
        IntPointer count = new IntPointer(1);
        list.put(0, stream.codecpar().coded_side_data());
        count.put(stream.codecpar().nb_coded_side_data());
        AVPacketSideData matrix = av_packet_side_data_new(list, count, AV_PKT_DATA_DISPLAYMATRIX, 36, 0);
        av_display_rotation_set(new IntPointer(matrix.data()), clockwise);
        stream.codecpar().coded_side_data(list.get(AVPacketSideData.class, 0));
        stream.codecpar().nb_coded_side_data(count.get());
    }

    private void addChapter(AVFormatContext out) {
        if (chapter.isEmpty()) {
            return;
        }
        AVChapter one = new AVChapter(av_mallocz(new AVChapter(null).sizeof()));
        one.id(1).start(0).end(1000).time_base(new AVRational().num(1).den(1000));
        one.metadata(dictionary(Map.of("title", chapter)));
        PointerPointer<AVChapter> list = new PointerPointer<>(av_malloc(8));
        list.put(0, one);
        out.chapters(list);
        out.nb_chapters(1);
    }

    private static AVDictionary dictionary(Map<String, String> entries) {
        AVDictionary dictionary = new AVDictionary(null);
        entries.forEach((key, value) -> av_dict_set(dictionary, key, value, 0));
        return dictionary;
    }

    private static void check(int code) {
        if (code < 0) {
            throw new AssertionError("FFmpeg says " + code);
        }
    }
}
