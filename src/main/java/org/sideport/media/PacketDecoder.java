package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avcodec.AVDISCARD_ALL;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_alloc_context3;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_find_decoder;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_flush_buffers;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_free_context;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_open2;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_parameters_to_context;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_receive_frame;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_send_packet;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_alloc;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_free;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_unref;

import java.util.List;
import org.bytedeco.ffmpeg.avcodec.AVCodec;
import org.bytedeco.ffmpeg.avcodec.AVCodecContext;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.sideport.media.MediaException.Reason;

/** Pictures of one file in the order of their display, each with the ordinal of its packet. Must be closed. */
public final class PacketDecoder implements AutoCloseable {

    private final PacketReader packets;
    private final AVCodecContext codec;
    private final AVFrame frame = av_frame_alloc();
    private boolean draining;

    private PacketDecoder(PacketReader packets, AVCodecContext codec) {
        this.packets = packets;
        this.codec = codec;
    }

    /**
     * @param input is closed with this, and if this throws
     * @throws MediaException if its codec is not known
     */
    public static PacketDecoder open(MediaInput input, FrameIndex index) {
        return open(input, index.keys(), false);
    }

    /**
     * As {@link #open(MediaInput, FrameIndex)}.
     *
     * @param rough leaves out the loop filter: faster, and good enough for pictures that are made much smaller
     */
    static PacketDecoder open(MediaInput input, FrameIndex index, boolean rough) {
        return open(input, index.keys(), rough);
    }

    /** From the start of a file that has no index yet. */
    static PacketDecoder open(MediaInput input) {
        return open(input, List.of(), false);
    }

    private static PacketDecoder open(MediaInput input, List<KeyPacket> keys, boolean rough) {
        AVCodec decoder = avcodec_find_decoder(input.video().codecpar().codec_id());
        AVCodecContext codec = decoder == null ? null : avcodec_alloc_context3(decoder);
        String file = input.file().toString();
        if (decoder == null || codec == null) {
            input.close();
            throw new MediaException(
                    Reason.UNREADABLE, "no decoder for its kind of video", file, "convert it to H.264 first");
        }
        avcodec_parameters_to_context(codec, input.video().codecpar());
        codec.pkt_timebase(input.video().time_base());
        codec.thread_count(0);
        codec.max_pixels(Ffmpeg.MOST_PIXELS);
        if (rough) {
            codec.skip_loop_filter(AVDISCARD_ALL);
        }
        int code = avcodec_open2(codec, decoder, (AVDictionary) null);
        if (code < 0) {
            avcodec_free_context(codec);
            input.close();
            throw new MediaException(
                    Reason.UNREADABLE, "the decoder does not start (" + Ffmpeg.errorText(code) + ")", file, null);
        }
        return new PacketDecoder(new PacketReader(input, keys), codec);
    }

    /** Decodes from this key packet on; see {@link PacketReader#startAt}. */
    public boolean start(int key) {
        avcodec_flush_buffers(codec);
        draining = false;
        return packets.startAt(key);
    }

    /** The picture that came out last; valid until the next one. */
    public AVFrame frame() {
        return frame;
    }

    /** The packet that held it. */
    public int ordinal() {
        return (int) frame.pts();
    }

    /** Puts the next decoded picture into {@link #frame}; false at the end of the file. */
    public boolean next() {
        while (true) {
            av_frame_unref(frame);
            if (avcodec_receive_frame(codec, frame) == 0) {
                return true;
            }
            if (draining) {
                return false;
            }
            feed();
        }
    }

    private void feed() {
        while (packets.next()) {
            AVPacket packet = packets.packet();
            // an empty packet would end the stream
            if (packet.size() > 0) {
                // the ordinal comes out with the picture again, whatever times the file gives or leaves out
                packet.pts(packets.ordinal());
                packet.dts(packets.ordinal());
                avcodec_send_packet(codec, packet);
                return;
            }
        }
        draining = true;
        avcodec_send_packet(codec, (AVPacket) null);
    }

    @Override
    public void close() {
        av_frame_free(frame);
        avcodec_free_context(codec);
        packets.close();
    }
}
