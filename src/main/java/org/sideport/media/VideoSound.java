package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avutil.AV_SAMPLE_FMT_FLTP;
import static org.bytedeco.ffmpeg.global.avutil.av_channel_layout_default;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_alloc;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_free;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_get_buffer;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_make_writable;

import java.io.IOException;
import org.bytedeco.ffmpeg.avcodec.AVCodecContext;
import org.bytedeco.ffmpeg.avformat.AVFormatContext;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.bytedeco.javacpp.FloatPointer;

/** Mono AAC sound: gathers samples into frames of the size that the encoder wants. */
final class VideoSound implements AutoCloseable {

    private static final long BITS_PER_SECOND = 40_000;

    private final VideoTrack track;
    private final AVFrame frame = av_frame_alloc();
    private final float[] buffer;
    private int filled;
    private long written;

    VideoSound(AVFormatContext file, int rate) throws IOException {
        track = new VideoTrack(file, "aac", 1024);
        track.open(encoder -> describe(encoder, rate), new AVDictionary(null));
        int size = track.encoder().frame_size();
        buffer = new float[size];
        frame.format(AV_SAMPLE_FMT_FLTP).sample_rate(rate).nb_samples(size);
        av_channel_layout_default(frame.ch_layout(), 1);
        VideoTrack.check(av_frame_get_buffer(frame, 0), "reserve sound");
    }

    private static void describe(AVCodecContext encoder, int rate) {
        encoder.sample_fmt(AV_SAMPLE_FMT_FLTP).sample_rate(rate).bit_rate(BITS_PER_SECOND);
        av_channel_layout_default(encoder.ch_layout(), 1);
        encoder.time_base(new AVRational().num(1).den(rate));
    }

    /** @param samples amplitudes, -1 to 1 */
    void add(float[] samples) throws IOException {
        for (float sample : samples) {
            buffer[filled++] = sample;
            if (filled == buffer.length) {
                flush();
            }
        }
    }

    /** Writes the last, shorter frame and ends the stream. */
    void finish() throws IOException {
        if (filled > 0) {
            flush();
        }
        track.send(null);
    }

    private void flush() throws IOException {
        frame.nb_samples(buffer.length);
        VideoTrack.check(av_frame_make_writable(frame), "reserve sound");
        new FloatPointer(frame.data(0)).put(buffer, 0, filled);
        frame.nb_samples(filled);
        frame.pts(written);
        written += filled;
        filled = 0;
        track.send(frame);
    }

    @Override
    public void close() {
        av_frame_free(frame);
        track.close();
    }
}
