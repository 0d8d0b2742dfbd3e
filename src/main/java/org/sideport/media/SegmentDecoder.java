package org.sideport.media;

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

import java.nio.file.Path;
import org.bytedeco.ffmpeg.avcodec.AVCodec;
import org.bytedeco.ffmpeg.avcodec.AVCodecContext;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.sideport.media.MediaException.Reason;

/**
 * Decodes exactly the frame asked for out of one file. Thread-confined; must be closed.
 *
 * <p>It starts at a key frame shown no later than the wanted frame and decodes until the picture of the wanted packet
 * comes out.
 */
final class SegmentDecoder implements AutoCloseable {

    /** Native memory for decoded frames kept for stepping back. */
    private static final long CACHE_BYTES = 192L << 20;

    /** Decoding on is quicker than seeking for frames so close ahead. */
    private static final int DECODE_ON = 60;

    /** How far out of the order of their times pictures may come out of the decoder. */
    private static final int DISORDER = 16;

    /** Key packets to go back where decoding from the nearest one does not give the frame. */
    private static final int[] BACK = {0, 1, 3};

    private final PacketReader packets;
    private final FrameIndex index;
    private final AVCodecContext codec;
    private final PictureConverter converter;
    private final FrameCache cache = new FrameCache(CACHE_BYTES);
    private final AVFrame frame = av_frame_alloc();
    /** Number of the frame that came out last, or -1 when the next one is not known to follow it. */
    private int position = -1;

    private boolean draining;

    private SegmentDecoder(MediaInput input, FrameIndex index, AVCodecContext codec) {
        this.packets = new PacketReader(input, index.keys());
        this.index = index;
        this.codec = codec;
        AVRational aspect = input.sampleAspect();
        this.converter = new PictureConverter(aspect.num() / (double) aspect.den(), input.rotation());
    }

    /**
     * @throws MediaException if the file cannot be opened or its codec is not known
     */
    static SegmentDecoder open(Path file, FrameIndex index) {
        MediaInput input = MediaInput.open(file);
        AVCodec decoder = avcodec_find_decoder(input.video().codecpar().codec_id());
        AVCodecContext codec = decoder == null ? null : avcodec_alloc_context3(decoder);
        if (decoder == null || codec == null) {
            input.close();
            throw new MediaException(
                    Reason.UNREADABLE,
                    "no decoder for its kind of video",
                    file.toString(),
                    "convert it to H.264 first");
        }
        avcodec_parameters_to_context(codec, input.video().codecpar());
        codec.pkt_timebase(input.video().time_base());
        codec.thread_count(0);
        int code = avcodec_open2(codec, decoder, (AVDictionary) null);
        if (code < 0) {
            avcodec_free_context(codec);
            input.close();
            throw new MediaException(
                    Reason.UNREADABLE,
                    "the decoder does not start (" + Ffmpeg.errorText(code) + ")",
                    file.toString(),
                    null);
        }
        return new SegmentDecoder(input, index, codec);
    }

    /**
     * The picture of a frame. Where damage has swallowed it, the last picture before it, as a screen would show.
     *
     * @param number 0 to the index's size, exclusive
     * @throws MediaException if nothing can be decoded there
     */
    FramePicture picture(int number) {
        AVFrame kept = cache.get(number);
        if (kept != null) {
            return converter.convert(kept);
        }
        if (position >= 0 && number > position && number - position <= DECODE_ON && decodeTo(number)) {
            return converter.convert(frame);
        }
        int key = index.keyFor(number);
        for (int back : BACK) {
            if (start(Math.max(-1, key - back)) && decodeTo(number)) {
                return converter.convert(frame);
            }
            if (key - back < 0) {
                break;
            }
        }
        return nearest(number);
    }

    private FramePicture nearest(int number) {
        AVFrame kept = cache.nearest(number);
        if (kept != null) {
            return converter.convert(kept);
        }
        throw new MediaException(
                Reason.UNREADABLE,
                "no picture can be decoded at " + index.startUs(number) / 1e6 + " s",
                packets.input().file().toString(),
                "copy the file again from the recorder");
    }

    private boolean start(int key) {
        avcodec_flush_buffers(codec);
        position = -1;
        draining = false;
        return packets.startAt(key);
    }

    /** Decodes on until this frame is in {@link #frame}; false if it did not come. */
    private boolean decodeTo(int number) {
        while (nextFrame()) {
            int found = index.frameOf((int) frame.pts());
            if (found >= 0) {
                position = found;
                cache.put(found, frame);
                if (found == number) {
                    return true;
                }
                if (found > number + DISORDER) {
                    return false;
                }
            }
        }
        position = -1;
        return false;
    }

    /** Puts the next decoded picture into {@link #frame}; false at the end of the file. */
    private boolean nextFrame() {
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
        cache.close();
        converter.close();
        av_frame_free(frame);
        avcodec_free_context(codec);
        packets.close();
    }
}
