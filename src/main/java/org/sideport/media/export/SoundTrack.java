package org.sideport.media.export;

import static org.bytedeco.ffmpeg.global.avutil.AV_SAMPLE_FMT_FLTP;
import static org.bytedeco.ffmpeg.global.avutil.av_channel_layout_default;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_free;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_alloc;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_free;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_get_buffer;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_make_writable;

import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import org.bytedeco.ffmpeg.avcodec.AVCodecContext;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.bytedeco.javacpp.FloatPointer;
import org.jspecify.annotations.Nullable;
import org.sideport.media.VideoTrack;
import org.sideport.media.export.SourceFiles.Part;
import org.sideport.media.export.SourceFiles.Span;

/**
 * The AAC stream of an export. Samples are put where they belong on its timeline: gaps become silence, overlaps are cut,
 * so that sound stays in step with the picture however the source was interleaved.
 */
final class SoundTrack implements AutoCloseable {

    /** Sample rates that AAC knows (ISO/IEC 14496-3, table 1.18). */
    private static final List<Integer> RATES = List.of(
            96_000, 88_200, 64_000, 48_000, 44_100, 32_000, 24_000, 22_050, 16_000, 12_000, 11_025, 8_000, 7_350);

    private static final int USUAL_RATE = 48_000;
    private static final int BITS_PER_CHANNEL = 96_000;
    private static final int LOW_RATE = 32_000;

    private final int rate;
    private final int channels;
    private final VideoTrack track;
    private final AVFrame frame = av_frame_alloc();
    private final float[][] buffer;
    private int filled;
    private long flushed;

    private SoundTrack(OutputFile out, int rate, int channels) throws IOException {
        this.rate = rate;
        this.channels = channels;
        track = new VideoTrack(out.context(), "aac", 1024);
        AVDictionary none = new AVDictionary(null);
        try {
            track.open(this::describe, none);
            int size = track.encoder().frame_size();
            buffer = new float[channels][size];
            frame.format(AV_SAMPLE_FMT_FLTP).sample_rate(rate).nb_samples(size);
            av_channel_layout_default(frame.ch_layout(), channels);
            VideoTrack.check(av_frame_get_buffer(frame, 0), "reserve sound");
        } catch (IOException | RuntimeException e) {
            close();
            throw e;
        } finally {
            av_dict_free(none);
        }
    }

    /** A track like that of the first file with sound; {@code null} if none has sound. */
    static @Nullable SoundTrack open(OutputFile out, List<Span> spans) throws IOException {
        for (Span span : spans) {
            Part part = span.part();
            if (part.soundRate() > 0) {
                int rate = RATES.contains(part.soundRate()) ? part.soundRate() : USUAL_RATE;
                return new SoundTrack(out, rate, part.soundChannels() == 1 ? 1 : 2);
            }
        }
        return null;
    }

    /** A track with one channel. */
    static SoundTrack mono(OutputFile out, int rate) throws IOException {
        return new SoundTrack(out, rate, 1);
    }

    private void describe(AVCodecContext encoder) {
        int bits = rate >= LOW_RATE ? BITS_PER_CHANNEL : BITS_PER_CHANNEL / 2;
        encoder.sample_fmt(AV_SAMPLE_FMT_FLTP).sample_rate(rate).bit_rate((long) bits * channels);
        av_channel_layout_default(encoder.ch_layout(), channels);
        encoder.time_base(new AVRational().num(1).den(rate));
    }

    int rate() {
        return rate;
    }

    int channels() {
        return channels;
    }

    /** Where the next sample goes. */
    long position() {
        return flushed + filled;
    }

    /**
     * @param place of the first sample on the export's timeline
     * @param end nothing is written from here on
     */
    void put(long place, float[][] samples, long end) throws IOException {
        int n = samples[0].length;
        int from = (int) Math.min(n, Math.max(0, position() - place));
        int to = (int) Math.min(n, Math.max(0, end - place));
        if (from >= to) {
            return;
        }
        padTo(place + from);
        int at = from;
        while (at < to) {
            int count = Math.min(to - at, buffer[0].length - filled);
            for (int c = 0; c < channels; c++) {
                System.arraycopy(samples[c], at, buffer[c], filled, count);
            }
            at += count;
            fill(count);
        }
    }

    /** Silence up to this place. */
    void padTo(long place) throws IOException {
        while (position() < place) {
            int count = (int) Math.min(place - position(), buffer[0].length - filled);
            for (float[] channel : buffer) {
                Arrays.fill(channel, filled, filled + count, 0f);
            }
            fill(count);
        }
    }

    private void fill(int count) throws IOException {
        filled += count;
        if (filled == buffer[0].length) {
            flush();
        }
    }

    private void flush() throws IOException {
        frame.nb_samples(buffer[0].length);
        VideoTrack.check(av_frame_make_writable(frame), "reserve sound");
        for (int c = 0; c < channels; c++) {
            new FloatPointer(frame.data(c)).put(buffer[c], 0, filled);
        }
        frame.nb_samples(filled);
        frame.pts(flushed);
        flushed += filled;
        filled = 0;
        track.send(frame);
    }

    void finish() throws IOException {
        if (filled > 0) {
            flush();
        }
        track.send(null);
    }

    @Override
    public void close() {
        av_frame_free(frame);
        track.close();
    }
}
