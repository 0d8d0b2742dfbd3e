package org.sideport.media.export;

import static org.bytedeco.ffmpeg.global.avcodec.AVDISCARD_ALL;
import static org.bytedeco.ffmpeg.global.avcodec.AVDISCARD_DEFAULT;
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
import static org.bytedeco.ffmpeg.global.avformat.AVSEEK_FLAG_BACKWARD;
import static org.bytedeco.ffmpeg.global.avformat.av_read_frame;
import static org.bytedeco.ffmpeg.global.avformat.av_seek_frame;
import static org.bytedeco.ffmpeg.global.avutil.AVMEDIA_TYPE_AUDIO;
import static org.bytedeco.ffmpeg.global.avutil.AV_NOPTS_VALUE;
import static org.bytedeco.ffmpeg.global.avutil.AV_SAMPLE_FMT_FLTP;
import static org.bytedeco.ffmpeg.global.avutil.av_channel_layout_default;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_alloc;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_free;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_unref;
import static org.bytedeco.ffmpeg.global.avutil.av_rescale_q;
import static org.bytedeco.ffmpeg.global.swresample.swr_alloc;
import static org.bytedeco.ffmpeg.global.swresample.swr_convert_frame;
import static org.bytedeco.ffmpeg.global.swresample.swr_free;

import org.bytedeco.ffmpeg.avcodec.AVCodec;
import org.bytedeco.ffmpeg.avcodec.AVCodecContext;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.ffmpeg.avformat.AVStream;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.bytedeco.ffmpeg.swresample.SwrContext;
import org.bytedeco.javacpp.FloatPointer;
import org.jspecify.annotations.Nullable;
import org.sideport.media.FrameIndex;
import org.sideport.media.MediaInput;
import org.sideport.media.export.SourceFiles.Part;

/**
 * The sound of one file as blocks of samples of a wanted rate, each with its place relative to the first displayed
 * frame. Reads its own copy of the file, so that picture and sound can be asked for apart. Thread-confined; must be
 * closed.
 */
final class SoundFeed implements AutoCloseable {

    /** Sound this far before the wanted time is decoded too: decoders need a run-up, and containers interleave loosely. */
    private static final long RUN_UP_SECONDS = 3;

    /** A jump of more than this share of a second is a gap or an overlap; less is rounding of the container's clock. */
    private static final int GAP_DIVISOR = 100;

    /**
     * @param start place of the first sample, from the first displayed frame; may be negative
     * @param samples by channel
     */
    @SuppressWarnings("ArrayRecordComponent") // handed on once, compared by nobody
    record Block(long start, float[][] samples) {}

    private final MediaInput input;
    private final AVStream stream;
    private final AVCodecContext codec;
    private final long originSamples;
    private final int rate;
    private final int channels;
    private final AVPacket packet = av_packet_alloc();
    private final AVFrame decoded = av_frame_alloc();
    private final AVFrame converted = av_frame_alloc();
    private SwrContext resampler = swr_alloc();
    private boolean draining;
    private long expected = Long.MIN_VALUE;

    private SoundFeed(
            MediaInput input, AVStream stream, AVCodecContext codec, FrameIndex index, int rate, int channels) {
        this.input = input;
        this.stream = stream;
        this.codec = codec;
        this.rate = rate;
        this.channels = channels;
        this.originSamples = av_rescale_q(index.pts(0), input.video().time_base(), perSample());
    }

    /** The first sound track from about this frame on; {@code null} if there is none that can be decoded. */
    static @Nullable SoundFeed open(Part part, int fromFrame, int rate, int channels) {
        MediaInput input = Inputs.open(part.file());
        AVStream stream = firstSound(input);
        AVCodec decoder =
                stream == null ? null : avcodec_find_decoder(stream.codecpar().codec_id());
        AVCodecContext codec = decoder == null ? null : avcodec_alloc_context3(decoder);
        if (stream == null || decoder == null || codec == null) {
            input.close();
            return null;
        }
        avcodec_parameters_to_context(codec, stream.codecpar());
        codec.pkt_timebase(stream.time_base());
        SoundFeed feed = new SoundFeed(input, stream, codec, part.index(), rate, channels);
        if (avcodec_open2(codec, decoder, (AVDictionary) null) < 0) {
            feed.close();
            return null;
        }
        for (int i = 0; i < input.context().nb_streams(); i++) {
            input.context().streams(i).discard(i == stream.index() ? AVDISCARD_DEFAULT : AVDISCARD_ALL);
        }
        if (fromFrame > 0) {
            feed.seek(part.index(), fromFrame);
        }
        return feed;
    }

    private static @Nullable AVStream firstSound(MediaInput input) {
        for (int i = 0; i < input.context().nb_streams(); i++) {
            AVStream stream = input.context().streams(i);
            if (stream.codecpar().codec_type() == AVMEDIA_TYPE_AUDIO) {
                return stream;
            }
        }
        return null;
    }

    private void seek(FrameIndex index, int frame) {
        long wanted = av_rescale_q(index.pts(frame), input.video().time_base(), stream.time_base());
        for (long back = RUN_UP_SECONDS; back < 1 << 20; back *= 4) {
            long to = wanted
                    - back * stream.time_base().den() / stream.time_base().num();
            if (av_seek_frame(input.context(), stream.index(), to, AVSEEK_FLAG_BACKWARD) < 0) {
                continue;
            }
            while (av_read_frame(input.context(), packet) >= 0) {
                boolean ours = packet.stream_index() == stream.index();
                long at = packet.pts();
                av_packet_unref(packet);
                if (ours
                        && at != AV_NOPTS_VALUE
                        && at
                                < wanted
                                        - stream.time_base().den()
                                                / 2
                                                / stream.time_base().num()) {
                    // it starts early enough; once more, for the packet just read
                    av_seek_frame(input.context(), stream.index(), to, AVSEEK_FLAG_BACKWARD);
                    return;
                }
                if (ours) {
                    break;
                }
            }
        }
        av_seek_frame(input.context(), stream.index(), Long.MIN_VALUE / 2, AVSEEK_FLAG_BACKWARD);
    }

    private AVRational perSample() {
        return new AVRational().num(1).den(rate);
    }

    /** The next block; {@code null} at the end. */
    @Nullable
    Block next() {
        while (true) {
            av_frame_unref(decoded);
            if (avcodec_receive_frame(codec, decoded) == 0) {
                Block block = convert();
                if (block != null) {
                    return block;
                }
            } else if (draining) {
                return null;
            } else {
                feed();
            }
        }
    }

    private @Nullable Block convert() {
        long pts = decoded.best_effort_timestamp();
        long place = pts == AV_NOPTS_VALUE
                ? expected == Long.MIN_VALUE ? 0 : expected
                : av_rescale_q(pts, stream.time_base(), perSample()) - originSamples;
        if (expected == Long.MIN_VALUE || Math.abs(place - expected) > rate / GAP_DIVISOR) {
            expected = place;
        }
        prepare();
        if (swr_convert_frame(resampler, converted, decoded) < 0) {
            // the track changed its rate or layout on the way
            swr_free(resampler);
            resampler = swr_alloc();
            prepare();
            if (swr_convert_frame(resampler, converted, decoded) < 0) {
                return null;
            }
        }
        int n = converted.nb_samples();
        if (n == 0) {
            return null;
        }
        float[][] samples = new float[channels][n];
        for (int c = 0; c < channels; c++) {
            new FloatPointer(converted.extended_data(c)).get(samples[c], 0, n);
        }
        Block block = new Block(expected, samples);
        expected += n;
        return block;
    }

    private void prepare() {
        av_frame_unref(converted);
        converted.format(AV_SAMPLE_FMT_FLTP).sample_rate(rate);
        av_channel_layout_default(converted.ch_layout(), channels);
        if (decoded.ch_layout().nb_channels() > 0 && decoded.ch_layout().order() == 0) {
            // a number of channels without names: the usual names
            av_channel_layout_default(decoded.ch_layout(), decoded.ch_layout().nb_channels());
        }
    }

    private void feed() {
        while (av_read_frame(input.context(), packet) >= 0) {
            boolean ours = packet.stream_index() == stream.index();
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
        swr_free(resampler);
        av_frame_free(converted);
        av_frame_free(decoded);
        av_packet_free(packet);
        avcodec_free_context(codec);
        input.close();
    }
}
