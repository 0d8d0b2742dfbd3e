package org.sideport.media.corpus;

import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_FLAG_BITEXACT;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_FLAG_GLOBAL_HEADER;
import static org.bytedeco.ffmpeg.global.avcodec.AV_FIELD_TT;
import static org.bytedeco.ffmpeg.global.avcodec.AV_PKT_DATA_DISPLAYMATRIX;
import static org.bytedeco.ffmpeg.global.avcodec.AV_PKT_FLAG_KEY;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_alloc;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_free;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_rescale_ts;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_side_data_new;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_alloc_context3;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_find_encoder_by_name;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_free_context;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_open2;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_parameters_from_context;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_receive_packet;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_send_frame;
import static org.bytedeco.ffmpeg.global.avformat.AVFMT_GLOBALHEADER;
import static org.bytedeco.ffmpeg.global.avformat.AVIO_FLAG_WRITE;
import static org.bytedeco.ffmpeg.global.avformat.AV_DISPOSITION_ATTACHED_PIC;
import static org.bytedeco.ffmpeg.global.avformat.av_write_frame;
import static org.bytedeco.ffmpeg.global.avformat.av_write_trailer;
import static org.bytedeco.ffmpeg.global.avformat.avformat_alloc_output_context2;
import static org.bytedeco.ffmpeg.global.avformat.avformat_free_context;
import static org.bytedeco.ffmpeg.global.avformat.avformat_new_stream;
import static org.bytedeco.ffmpeg.global.avformat.avformat_write_header;
import static org.bytedeco.ffmpeg.global.avformat.avio_closep;
import static org.bytedeco.ffmpeg.global.avformat.avio_open;
import static org.bytedeco.ffmpeg.global.avutil.AV_ERROR_MAX_STRING_SIZE;
import static org.bytedeco.ffmpeg.global.avutil.AV_LOG_FATAL;
import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_YUVJ420P;
import static org.bytedeco.ffmpeg.global.avutil.AV_SAMPLE_FMT_FLTP;
import static org.bytedeco.ffmpeg.global.avutil.AV_SAMPLE_FMT_S16;
import static org.bytedeco.ffmpeg.global.avutil.av_channel_layout_default;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_set;
import static org.bytedeco.ffmpeg.global.avutil.av_display_rotation_set;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_alloc;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_free;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_get_buffer;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_make_writable;
import static org.bytedeco.ffmpeg.global.avutil.av_log_set_level;
import static org.bytedeco.ffmpeg.global.avutil.av_q2d;
import static org.bytedeco.ffmpeg.global.avutil.av_strerror;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.bytedeco.ffmpeg.avcodec.AVCodec;
import org.bytedeco.ffmpeg.avcodec.AVCodecContext;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.ffmpeg.avcodec.AVPacketSideData;
import org.bytedeco.ffmpeg.avformat.AVFormatContext;
import org.bytedeco.ffmpeg.avformat.AVIOContext;
import org.bytedeco.ffmpeg.avformat.AVStream;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.bytedeco.javacpp.BytePointer;
import org.bytedeco.javacpp.IntPointer;
import org.opentest4j.TestAbortedException;
import org.sideport.demo.FrameStamp;

/** Encodes the pictures of a {@link StampedFile} first, then writes all packets in the order of their times. */
final class StampedMuxer {

    private static final int SOUND_RATE = 48_000;

    private final StampedFile recipe;
    private final AVFormatContext file = new AVFormatContext(null);
    private final List<AVPacket> packets = new ArrayList<>();
    private final Map<Integer, AVRational> ticks = new HashMap<>();

    private StampedMuxer(StampedFile recipe) {
        this.recipe = recipe;
    }

    static List<Integer> write(StampedFile recipe, Path target) throws IOException {
        return new StampedMuxer(recipe).run(target);
    }

    private List<Integer> run(Path target) throws IOException {
        av_log_set_level(AV_LOG_FATAL);
        BytePointer url = new BytePointer("file:" + target, StandardCharsets.UTF_8);
        check(avformat_alloc_output_context2(file, null, new BytePointer(recipe.container), url), "prepare");
        file.flags(file.flags() | AVFormatContext.AVFMT_FLAG_BITEXACT);
        if (!recipe.tags.isEmpty()) {
            file.metadata(dictionary(recipe.tags));
        }
        try {
            if (recipe.video) {
                encodePictures();
            }
            if (recipe.soundLength > 0) {
                encodeSound();
            }
            if (recipe.cover) {
                encodeCover();
            }
            AVIOContext io = new AVIOContext(null);
            check(avio_open(io, url, AVIO_FLAG_WRITE), "create");
            file.pb(io);
            AVDictionary options = dictionary(recipe.containerOptions);
            check(avformat_write_header(file, options), "write the header");
            packets.sort(Comparator.comparingDouble(this::seconds));
            List<Integer> sizes = new ArrayList<>();
            for (AVPacket packet : packets) {
                sizes.add(packet.size());
                AVStream stream = file.streams(packet.stream_index());
                av_packet_rescale_ts(packet, ticks.get(packet.stream_index()), stream.time_base());
                check(av_write_frame(file, packet), "write a packet");
            }
            check(av_write_trailer(file), "complete");
            return sizes;
        } finally {
            packets.forEach(p -> av_packet_free(p));
            if (file.pb() != null && !file.pb().isNull()) {
                avio_closep(file.pb());
            }
            avformat_free_context(file);
        }
    }

    private double seconds(AVPacket packet) {
        return packet.dts() * av_q2d(ticks.get(packet.stream_index()));
    }

    private void encodePictures() throws IOException {
        AVCodecContext encoder =
                open(recipe.coder, c -> recipe.describe(c, file.oformat().flags()), recipe.coderOptions);
        AVStream stream = add(encoder);
        stream.avg_frame_rate(encoder.framerate());
        stream.sample_aspect_ratio(encoder.sample_aspect_ratio());
        if (recipe.interlaced) {
            stream.codecpar().field_order(AV_FIELD_TT);
        }
        if (recipe.rotation != 0) {
            AVPacketSideData list = new AVPacketSideData((org.bytedeco.javacpp.Pointer) null);
            AVPacketSideData side =
                    av_packet_side_data_new(list, new IntPointer(1).put(0), AV_PKT_DATA_DISPLAYMATRIX, 36, 0);
            IntPointer matrix = new IntPointer(9);
            av_display_rotation_set(matrix, recipe.rotation);
            for (int i = 0; i < 9; i++) {
                new IntPointer(side.data()).put(i, matrix.get(i));
            }
            stream.codecpar().coded_side_data(list);
            stream.codecpar().nb_coded_side_data(1);
        }
        AVFrame frame = av_frame_alloc();
        frame.format(encoder.pix_fmt()).width(recipe.width).height(recipe.height);
        check(av_frame_get_buffer(frame, 0), "reserve a picture");
        int number = recipe.firstStamp;
        Map<Long, Integer> numbers = new HashMap<>();
        for (long pts : recipe.pts) {
            check(av_frame_make_writable(frame), "reserve a picture");
            paint(frame, number);
            frame.pts(pts);
            if (recipe.interlaced) {
                frame.flags(frame.flags() | AVFrame.AV_FRAME_FLAG_INTERLACED | AVFrame.AV_FRAME_FLAG_TOP_FIELD_FIRST);
            }
            numbers.put(pts, number++);
            send(encoder, frame, stream.index(), numbers);
        }
        send(encoder, null, stream.index(), numbers);
        av_frame_free(frame);
        avcodec_free_context(encoder);
    }

    private void paint(AVFrame frame, int number) {
        int width = recipe.width;
        int height = recipe.height;
        int[] argb = new int[width * height];
        Arrays.fill(argb, 0xFF808080);
        if (recipe.noisy) {
            Random random = new Random(number);
            Arrays.setAll(argb, i -> 0xFF000000 | 0x010101 * (64 + random.nextInt(128)));
        }
        if (recipe.scene >= 0) {
            scene(argb, number);
        } else if (width >= 128) {
            FrameStamp.write(argb, width, height, number);
        }
        int bytes = recipe.tenBit ? 2 : 1;
        for (int y = 0; y < height; y++) {
            byte[] row = new byte[width * bytes];
            for (int x = 0; x < width; x++) {
                int luma = argb[y * width + x] & 0xFF;
                if (bytes == 1) {
                    row[x] = (byte) luma;
                } else {
                    row[2 * x] = (byte) (luma << 2);
                    row[2 * x + 1] = (byte) (luma >> 6);
                }
            }
            frame.data(0).position((long) y * frame.linesize(0)).put(row, 0, row.length);
        }
        for (int plane = 1; plane <= 2; plane++) {
            for (int y = 0; y < (height + 1) / 2; y++) {
                byte[] row = new byte[(width + 1) / 2 * bytes];
                for (int x = 0; x < row.length; x++) {
                    row[x] = (byte) (bytes == 1 ? 128 : x % 2 == 0 ? 0 : 2);
                }
                frame.data(plane).position((long) y * frame.linesize(plane)).put(row, 0, row.length);
            }
        }
    }

    /** Three waves whose speeds have no common measure; each goes round in two seconds or more at 25 pictures a second. */
    private void scene(int[] argb, int number) {
        Random random = new Random(recipe.scene);
        double[] phase = {random.nextDouble() * 6, random.nextDouble() * 6, random.nextDouble() * 6};
        double[] turn = {0.5 + random.nextDouble(), 0.5 + random.nextDouble(), 0.5 + random.nextDouble()};
        for (int y = 0; y < recipe.height; y++) {
            for (int x = 0; x < recipe.width; x++) {
                double wave = Math.sin(0.11 * turn[0] * x + 0.05 * y + 0.13 * number + phase[0])
                        + Math.sin(0.04 * x - 0.09 * turn[1] * y + 0.0717 * number + phase[1])
                        + Math.sin(0.07 * turn[2] * y - 0.0553 * number + phase[2]);
                argb[y * recipe.width + x] = 0xFF000000 | 0x010101 * (int) Math.round(128 + 30 * wave);
            }
        }
    }

    private void encodeSound() throws IOException {
        boolean aac = !recipe.container.equals("vob") && !recipe.container.equals("avi");
        AVCodecContext encoder = open(
                aac ? "aac" : "mp2",
                c -> {
                    c.sample_fmt(aac ? AV_SAMPLE_FMT_FLTP : AV_SAMPLE_FMT_S16)
                            .sample_rate(SOUND_RATE)
                            .bit_rate(64_000);
                    av_channel_layout_default(c.ch_layout(), 1);
                    c.time_base(new AVRational().num(1).den(SOUND_RATE));
                    c.flags(
                            (file.oformat().flags() & AVFMT_GLOBALHEADER) != 0
                                    ? AV_CODEC_FLAG_GLOBAL_HEADER | AV_CODEC_FLAG_BITEXACT
                                    : AV_CODEC_FLAG_BITEXACT);
                },
                Map.of());
        AVStream stream = add(encoder);
        AVFrame frame = av_frame_alloc();
        frame.format(encoder.sample_fmt()).sample_rate(SOUND_RATE).nb_samples(encoder.frame_size());
        av_channel_layout_default(frame.ch_layout(), 1);
        check(av_frame_get_buffer(frame, 0), "reserve sound");
        byte[] silence = new byte[encoder.frame_size() * (aac ? 4 : 2)];
        long from = Math.round(recipe.soundFrom * SOUND_RATE);
        for (long at = 0; at < recipe.soundLength * SOUND_RATE; at += encoder.frame_size()) {
            check(av_frame_make_writable(frame), "reserve sound");
            frame.data(0).put(silence, 0, silence.length);
            frame.pts(from + at);
            send(encoder, frame, stream.index(), null);
        }
        send(encoder, null, stream.index(), null);
        av_frame_free(frame);
        avcodec_free_context(encoder);
    }

    /** A still picture as players show it beside music. */
    private void encodeCover() throws IOException {
        AVCodecContext encoder = open(
                "mjpeg",
                c -> c.width(64)
                        .height(64)
                        .pix_fmt(AV_PIX_FMT_YUVJ420P)
                        .time_base(new AVRational().num(1).den(1)),
                Map.of());
        AVStream stream = add(encoder);
        stream.disposition(AV_DISPOSITION_ATTACHED_PIC);
        AVFrame frame = av_frame_alloc();
        frame.format(AV_PIX_FMT_YUVJ420P).width(64).height(64).pts(0);
        check(av_frame_get_buffer(frame, 0), "reserve a picture");
        send(encoder, frame, stream.index(), null);
        send(encoder, null, stream.index(), null);
        av_frame_free(frame);
        avcodec_free_context(encoder);
    }

    private AVCodecContext open(
            String name, java.util.function.Consumer<AVCodecContext> settings, Map<String, String> options)
            throws IOException {
        AVCodec codec = avcodec_find_encoder_by_name(name);
        boolean optional = name.equals("libx265") || name.equals("libvpx-vp9");
        if (codec == null) {
            String text = "this build of FFmpeg has no encoder " + name;
            throw optional ? new TestAbortedException(text) : new IllegalStateException(text);
        }
        AVCodecContext encoder = avcodec_alloc_context3(codec);
        settings.accept(encoder);
        int code = avcodec_open2(encoder, codec, dictionary(options));
        if (code < 0 && optional && recipe.tenBit) {
            throw new TestAbortedException("this build of " + name + " has no ten bits");
        }
        check(code, "open " + name);
        return encoder;
    }

    private AVStream add(AVCodecContext encoder) throws IOException {
        AVStream stream = avformat_new_stream(file, null);
        check(avcodec_parameters_from_context(stream.codecpar(), encoder), "describe the stream");
        AVRational base = encoder.time_base();
        stream.time_base(base);
        ticks.put(stream.index(), new AVRational().num(base.num()).den(base.den()));
        return stream;
    }

    private void send(AVCodecContext encoder, AVFrame frame, int stream, Map<Long, Integer> numbers)
            throws IOException {
        check(avcodec_send_frame(encoder, frame), "encode");
        AVPacket packet = av_packet_alloc();
        while (avcodec_receive_packet(encoder, packet) >= 0) {
            packet.stream_index(stream);
            boolean kept = true;
            if (numbers != null) {
                if (packet.duration() <= 0 || encoder.codec().name().getString().equals("libx264")) {
                    packet.duration(1);
                }
                StampedFile.Stamp stamp = recipe.filter.apply(new StampedFile.Stamp(
                        numbers.get(packet.pts()),
                        packet.pts(),
                        packet.dts(),
                        (packet.flags() & AV_PKT_FLAG_KEY) != 0));
                kept = stamp != null;
                if (stamp != null) {
                    packet.pts(stamp.pts() + recipe.offset);
                    packet.dts(stamp.dts() + recipe.offset);
                }
            }
            if (kept) {
                packets.add(packet);
            } else {
                av_packet_free(packet);
            }
            packet = av_packet_alloc();
        }
        av_packet_free(packet);
    }

    private static AVDictionary dictionary(Map<String, String> options) {
        AVDictionary dictionary = new AVDictionary(null);
        options.forEach((key, value) -> av_dict_set(dictionary, key, value, 0));
        return dictionary;
    }

    private static void check(int code, String what) throws IOException {
        if (code < 0) {
            BytePointer text = new BytePointer(AV_ERROR_MAX_STRING_SIZE);
            av_strerror(code, text, AV_ERROR_MAX_STRING_SIZE);
            throw new IOException("could not " + what + ": " + text.getString().split("\0")[0] + " (" + code + ")");
        }
    }
}
