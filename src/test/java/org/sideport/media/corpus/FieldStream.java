package org.sideport.media.corpus;

import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_H264;
import static org.bytedeco.ffmpeg.global.avcodec.av_new_packet;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_alloc;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_free;
import static org.bytedeco.ffmpeg.global.avformat.AVIO_FLAG_WRITE;
import static org.bytedeco.ffmpeg.global.avformat.av_write_frame;
import static org.bytedeco.ffmpeg.global.avformat.av_write_trailer;
import static org.bytedeco.ffmpeg.global.avformat.avformat_alloc_output_context2;
import static org.bytedeco.ffmpeg.global.avformat.avformat_free_context;
import static org.bytedeco.ffmpeg.global.avformat.avformat_new_stream;
import static org.bytedeco.ffmpeg.global.avformat.avformat_write_header;
import static org.bytedeco.ffmpeg.global.avformat.avio_closep;
import static org.bytedeco.ffmpeg.global.avformat.avio_open;
import static org.bytedeco.ffmpeg.global.avutil.AVMEDIA_TYPE_VIDEO;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.ffmpeg.avformat.AVFormatContext;
import org.bytedeco.ffmpeg.avformat.AVIOContext;
import org.bytedeco.ffmpeg.avformat.AVStream;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.sideport.demo.FrameStamp;

/**
 * A bare H.264 stream whose frames are coded as two field pictures each, as interlaced recorders write them and the
 * encoder at hand cannot. All macroblocks are plain samples (I_PCM). Syntax: ITU-T H.264, 7.3.2.1.1, 7.3.2.2, 7.3.3, E.1.1.
 */
final class FieldStream {

    static final int WIDTH = 160;
    static final int HEIGHT = 128;

    private final List<byte[]> fields = new ArrayList<>();
    private final ByteArrayOutputStream stream = new ByteArrayOutputStream();
    private Bits bits = new Bits();

    /** The fields of {@code count} frames, 25 a second, stamped from 0; the first has the parameter sets before it. */
    static List<byte[]> of(int count) {
        FieldStream all = new FieldStream();
        all.sequence();
        all.pictures();
        for (int n = 0; n < count; n++) {
            int[] argb = new int[WIDTH * HEIGHT];
            Arrays.fill(argb, 0xFF808080);
            FrameStamp.write(argb, WIDTH, HEIGHT, n);
            all.field(argb, n, 0);
            all.field(argb, n, 1);
        }
        return all.fields;
    }

    static void writeBare(List<byte[]> fields, Path file) throws IOException {
        try (OutputStream out = Files.newOutputStream(file)) {
            for (byte[] field : fields) {
                out.write(field);
            }
        }
    }

    /** As a transport stream, each field with its own time, a fiftieth of a second after the one before. */
    static void writeTransport(List<byte[]> fields, Path file) throws IOException {
        AVFormatContext context = new AVFormatContext(null);
        avformat_alloc_output_context2(context, null, "mpegts", null);
        AVStream stream = avformat_new_stream(context, null);
        stream.time_base(new AVRational().num(1).den(90_000));
        stream.codecpar()
                .codec_type(AVMEDIA_TYPE_VIDEO)
                .codec_id(AV_CODEC_ID_H264)
                .width(WIDTH)
                .height(HEIGHT);
        AVIOContext io = new AVIOContext(null);
        if (avio_open(io, "file:" + file, AVIO_FLAG_WRITE) < 0) {
            throw new IOException("cannot create " + file);
        }
        context.pb(io);
        avformat_write_header(context, (AVDictionary) null);
        for (int n = 0; n < fields.size(); n++) {
            byte[] field = fields.get(n);
            AVPacket packet = av_packet_alloc();
            av_new_packet(packet, field.length);
            packet.data().put(field, 0, field.length);
            packet.pts(1_800L * n).dts(1_800L * n);
            if (av_write_frame(context, packet) < 0) {
                throw new IOException("cannot write field " + n);
            }
            av_packet_free(packet);
        }
        av_write_trailer(context);
        avio_closep(context.pb());
        avformat_free_context(context);
    }

    private void sequence() {
        bits.u(8, 77).u(8, 0).u(8, 30); // Main profile, level 3
        bits.ue(0).ue(4).ue(0).ue(4); // id; 8 bits of frame_num; order count type 0 of 8 bits
        bits.ue(1).u(1, 0).ue(WIDTH / 16 - 1).ue(HEIGHT / 32 - 1);
        bits.u(1, 0).u(1, 0).u(1, 1).u(1, 0); // fields allowed, not adaptive, direct_8x8, no cropping
        bits.u(1, 1).u(1, 0).u(1, 0).u(1, 0).u(1, 0); // VUI without shape, overscan, signal type, chroma place
        bits.u(1, 1).u(16, 0).u(16, 1).u(16, 0).u(16, 50).u(1, 1); // 50 fields a second
        bits.u(1, 0).u(1, 0).u(1, 0); // no HRD, no pic_struct
        bits.u(1, 1).u(1, 1).ue(0).ue(0).ue(0).ue(0).ue(0).ue(1); // no reordering
        unit(0x67);
    }

    private void pictures() {
        bits.ue(0).ue(0).u(1, 0).u(1, 0).ue(0).ue(0).ue(0).u(1, 0).u(2, 0);
        bits.ue(0).ue(0).ue(0).u(1, 1).u(1, 0).u(1, 0);
        unit(0x68);
    }

    private void field(int[] argb, int frame, int bottom) {
        bits.ue(0).ue(7).ue(0).u(8, 0).u(1, 1).u(1, bottom); // an I slice of a field
        if (bottom == 0) {
            bits.ue(frame % 2); // idr_pic_id
        }
        bits.u(8, bottom);
        bits.u(1, 0);
        if (bottom == 0) {
            bits.u(1, 0);
        }
        bits.ue(0).ue(1);
        for (int mbY = 0; mbY < HEIGHT / 32; mbY++) {
            for (int mbX = 0; mbX < WIDTH / 16; mbX++) {
                bits.ue(25).align();
                for (int y = 0; y < 16; y++) {
                    for (int x = 0; x < 16; x++) {
                        int row = 2 * (mbY * 16 + y) + bottom;
                        bits.u(8, argb[row * WIDTH + mbX * 16 + x] & 0xFF);
                    }
                }
                for (int i = 0; i < 128; i++) {
                    bits.u(8, 128);
                }
            }
        }
        unit(bottom == 0 ? 0x65 : 0x61);
        fields.add(stream.toByteArray());
        stream.reset();
    }

    /** Start code, header, and the bits with what keeps start codes out of them (7.4.1.1). */
    private void unit(int header) {
        bits.u(1, 1).align();
        stream.writeBytes(new byte[] {0, 0, 0, 1, (byte) header});
        int zeros = 0;
        for (byte b : bits.bytes.toByteArray()) {
            if (zeros == 2 && (b & 0xFF) <= 3) {
                stream.write(3);
                zeros = 0;
            }
            stream.write(b);
            zeros = b == 0 ? zeros + 1 : 0;
        }
        bits = new Bits();
    }

    private static final class Bits {

        private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        private int current;
        private int filled;

        Bits u(int count, int value) {
            for (int i = count - 1; i >= 0; i--) {
                current = current << 1 | value >> i & 1;
                if (++filled == 8) {
                    bytes.write(current);
                    current = 0;
                    filled = 0;
                }
            }
            return this;
        }

        /** Exponential Golomb code (9.1); 0 is also the code of a signed 0. */
        Bits ue(int value) {
            int length = 32 - Integer.numberOfLeadingZeros(value + 1);
            return u(length - 1, 0).u(length, value + 1);
        }

        Bits align() {
            while (filled != 0) {
                u(1, 0);
            }
            return this;
        }
    }
}
