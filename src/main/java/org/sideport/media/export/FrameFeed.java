package org.sideport.media.export;

import static org.bytedeco.ffmpeg.global.avcodec.av_packet_alloc;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_free;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_unref;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_alloc_context3;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_find_decoder;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_flush_buffers;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_free_context;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_open2;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_parameters_to_context;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_receive_frame;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_send_packet;
import static org.bytedeco.ffmpeg.global.avformat.AVSEEK_FLAG_BACKWARD;
import static org.bytedeco.ffmpeg.global.avformat.av_read_frame;
import static org.bytedeco.ffmpeg.global.avformat.av_seek_frame;
import static org.bytedeco.ffmpeg.global.avutil.AV_NOPTS_VALUE;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_alloc;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_free;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_unref;

import org.bytedeco.ffmpeg.avcodec.AVCodec;
import org.bytedeco.ffmpeg.avcodec.AVCodecContext;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.jspecify.annotations.Nullable;
import org.sideport.media.Ffmpeg;
import org.sideport.media.FrameIndex;
import org.sideport.media.MediaInput;
import org.sideport.media.export.SourceFiles.Span;

/** The decoded frames of a span, one after the other, each with its number. Thread-confined; must be closed. */
final class FrameFeed implements AutoCloseable {

    /** Errors in a row after which a file counts as ended. */
    private static final int GIVE_UP = 1000;

    private final MediaInput input;
    private final FrameIndex index;
    private final AVCodecContext codec;
    private final AVPacket packet = av_packet_alloc();
    private final AVFrame frame = av_frame_alloc();
    private final int first;
    private final int end;
    /** True where times come from decoding order: then only counting from the start tells which frame is which. */
    private final boolean counted;

    private int number;
    private boolean held;
    private boolean draining;
    private int errors;

    private FrameFeed(MediaInput input, Span span, AVCodecContext codec) {
        this.input = input;
        this.index = span.part().index();
        this.codec = codec;
        this.first = span.first();
        this.end = span.end();
        this.number = -1;
        this.counted = index.isGuessed() && index.duplicates() == 0;
    }

    /** @throws org.sideport.media.MediaException if the file cannot be opened or its codec is not known */
    static FrameFeed open(Span span) {
        MediaInput input = Inputs.open(span.part().file());
        AVCodec decoder = avcodec_find_decoder(input.video().codecpar().codec_id());
        AVCodecContext codec = decoder == null ? null : avcodec_alloc_context3(decoder);
        if (decoder == null || codec == null) {
            input.close();
            throw Faults.unreadable(span.part().file(), "no decoder for its kind of video");
        }
        avcodec_parameters_to_context(codec, input.video().codecpar());
        codec.pkt_timebase(input.video().time_base());
        codec.thread_count(0);
        int code = avcodec_open2(codec, decoder, (AVDictionary) null);
        FrameFeed feed = new FrameFeed(input, span, codec);
        if (code < 0) {
            feed.close();
            throw Faults.unreadable(span.part().file(), "the decoder does not start (" + Ffmpeg.errorText(code) + ")");
        }
        feed.findStart();
        return feed;
    }

    /** Number within its file of the frame that {@link #next()} gave. */
    int number() {
        return number;
    }

    /** The next frame of the span, which stays valid until the next call; {@code null} after the last. */
    @Nullable
    AVFrame next() {
        if (held) {
            held = false;
        } else if (!decodeNumbered()) {
            return null;
        }
        return number < end ? frame : null;
    }

    /** Seeks so that the span's first frame comes out; where a container seeks too late, ever earlier. */
    private void findStart() {
        if (first == 0 || counted) {
            skipToFirst();
            return;
        }
        long target = index.pts(first);
        for (long back = 0; ; back = back == 0 ? 1 : back * 2) {
            long from = Math.max(index.pts(0), target - input.timeBase().ofSeconds(back));
            av_seek_frame(input.context(), input.video().index(), from, AVSEEK_FLAG_BACKWARD);
            avcodec_flush_buffers(codec);
            draining = false;
            number = -1;
            if (skipToFirst() == first || from == index.pts(0)) {
                return;
            }
        }
    }

    /** Decodes up to the first frame of the span, or the next after it where damage has swallowed it. */
    private int skipToFirst() {
        while (decodeNumbered()) {
            if (number >= first) {
                held = true;
                return number;
            }
        }
        return end;
    }

    private boolean decodeNumbered() {
        while (decode()) {
            long pts = frame.best_effort_timestamp();
            int found = counted || pts == AV_NOPTS_VALUE ? number + 1 : index.ofPts(pts);
            if (found >= 0 && found > number && found < index.size()) {
                number = found;
                return true;
            }
        }
        number = end;
        return false;
    }

    private boolean decode() {
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
        while (errors < GIVE_UP) {
            int code = av_read_frame(input.context(), packet);
            if (code < 0) {
                if (code == org.bytedeco.ffmpeg.global.avutil.AVERROR_EOF) {
                    break;
                }
                errors++;
                continue;
            }
            errors = 0;
            boolean ours = packet.stream_index() == input.video().index();
            if (ours) {
                avcodec_send_packet(codec, packet);
            }
            av_packet_unref(packet);
            if (ours) {
                return;
            }
        }
        draining = true;
        avcodec_send_packet(codec, (AVPacket) null);
    }

    @Override
    public void close() {
        av_frame_free(frame);
        av_packet_free(packet);
        avcodec_free_context(codec);
        input.close();
    }
}
