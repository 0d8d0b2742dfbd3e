package org.sideport.media.voice;

import static org.bytedeco.ffmpeg.global.avformat.AVIO_FLAG_WRITE;
import static org.bytedeco.ffmpeg.global.avformat.av_write_trailer;
import static org.bytedeco.ffmpeg.global.avformat.avformat_alloc_output_context2;
import static org.bytedeco.ffmpeg.global.avformat.avformat_free_context;
import static org.bytedeco.ffmpeg.global.avformat.avformat_write_header;
import static org.bytedeco.ffmpeg.global.avformat.avio_closep;
import static org.bytedeco.ffmpeg.global.avformat.avio_open;
import static org.bytedeco.ffmpeg.global.avutil.AV_SAMPLE_FMT_S16;
import static org.bytedeco.ffmpeg.global.avutil.av_channel_layout_default;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_free;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_set;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_alloc;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_free;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_get_buffer;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_make_writable;

import java.io.IOException;
import java.nio.file.Path;
import org.bytedeco.ffmpeg.avcodec.AVCodecContext;
import org.bytedeco.ffmpeg.avformat.AVFormatContext;
import org.bytedeco.ffmpeg.avformat.AVIOContext;
import org.bytedeco.ffmpeg.avformat.AVOutputFormat;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.bytedeco.javacpp.BytePointer;
import org.bytedeco.javacpp.ShortPointer;
import org.sideport.media.Ffmpeg;
import org.sideport.media.MediaException;
import org.sideport.media.VideoTrack;

/**
 * Writes a voice as Opus in Ogg (RFC 6716, RFC 7845) by the encoder libopus, as it is spoken: pages of {@value #PAGE_US}
 * microseconds go to the disk at once, and a file that was never finished can be read up to the last of them.
 * Thread-confined; must be closed.
 */
public final class VoiceWriter implements AutoCloseable {

    /** Samples a second. */
    public static final int RATE = 48_000;

    /** Samples of one packet: 20 ms. */
    public static final int PACKET = RATE / 50;

    static final int PAGE_US = 200_000;

    private static final long BITS_PER_SECOND = 32_000;

    private final Path file;
    private final AVFormatContext context = new AVFormatContext(null);
    private final AVFrame frame = av_frame_alloc();
    private final short[] buffer = new short[PACKET];
    private final VideoTrack track;
    private int filled;
    private long written;
    private boolean open;

    private VoiceWriter(Path file) throws IOException {
        this.file = file;
        Ffmpeg.quiet();
        try (BytePointer url = Ffmpeg.url(file);
                BytePointer kind = new BytePointer("ogg")) {
            VideoTrack.check(
                    avformat_alloc_output_context2(context, (AVOutputFormat) null, kind, url), "prepare the file");
            AVIOContext io = new AVIOContext(null);
            VideoTrack.check(avio_open(io, url, AVIO_FLAG_WRITE), "create the file");
            context.pb(io);
        }
        // no name or version of a program, and a page is on the disk as soon as it is full
        context.flags(context.flags() | AVFormatContext.AVFMT_FLAG_BITEXACT | AVFormatContext.AVFMT_FLAG_FLUSH_PACKETS);
        track = new VideoTrack(context, "libopus", PACKET);
    }

    /**
     * @param file is written over if it exists
     * @throws MediaException if it cannot be written
     */
    public static VoiceWriter create(Path file) {
        VoiceWriter writer = null;
        try {
            writer = new VoiceWriter(file);
            writer.start();
            return writer;
        } catch (IOException e) {
            if (writer != null) {
                writer.close();
            }
            throw failed(file, e);
        }
    }

    private void start() throws IOException {
        AVDictionary options = new AVDictionary(null);
        AVDictionary muxing = new AVDictionary(null);
        try {
            av_dict_set(options, "application", "voip", 0);
            track.open(VoiceWriter::describe, options);
            frame.format(AV_SAMPLE_FMT_S16).sample_rate(RATE).nb_samples(PACKET);
            av_channel_layout_default(frame.ch_layout(), 1);
            VideoTrack.check(av_frame_get_buffer(frame, 0), "reserve sound");
            av_dict_set(muxing, "page_duration", Integer.toString(PAGE_US), 0);
            VideoTrack.check(avformat_write_header(context, muxing), "write the header");
            open = true;
        } finally {
            av_dict_free(options);
            av_dict_free(muxing);
        }
    }

    private static void describe(AVCodecContext encoder) {
        encoder.sample_fmt(AV_SAMPLE_FMT_S16).sample_rate(RATE).bit_rate(BITS_PER_SECOND);
        av_channel_layout_default(encoder.ch_layout(), 1);
        encoder.time_base(new AVRational().num(1).den(RATE));
    }

    private static MediaException failed(Path file, IOException e) {
        return new MediaException(
                MediaException.Reason.UNREADABLE,
                "the sound cannot be written: " + e.getMessage(),
                file.toString(),
                "check the drive and its free space");
    }

    /**
     * @param samples amplitudes, one channel
     * @param count how many of them, from the first
     */
    public void write(short[] samples, int count) {
        try {
            int at = 0;
            while (at < count) {
                int n = Math.min(count - at, PACKET - filled);
                System.arraycopy(samples, at, buffer, filled, n);
                filled += n;
                at += n;
                if (filled == PACKET) {
                    flush();
                }
            }
        } catch (IOException e) {
            throw failed(file, e);
        }
    }

    /** Length of what has been given so far, microseconds. */
    public long lengthUs() {
        return (written + filled) * 1_000_000 / RATE;
    }

    private void flush() throws IOException {
        frame.nb_samples(PACKET);
        VideoTrack.check(av_frame_make_writable(frame), "reserve sound");
        new ShortPointer(frame.data(0)).put(buffer, 0, filled);
        frame.nb_samples(filled);
        frame.pts(written);
        written += filled;
        filled = 0;
        track.send(frame);
    }

    /** Writes the rest and completes the file. */
    public void finish() {
        try {
            if (filled > 0) {
                flush();
            }
            track.send(null);
            open = false;
            VideoTrack.check(av_write_trailer(context), "complete the file");
            int code = avio_closep(context.pb());
            context.pb(null);
            VideoTrack.check(code, "complete the file");
        } catch (IOException e) {
            throw failed(file, e);
        }
    }

    @Override
    public void close() {
        track.close();
        av_frame_free(frame);
        if (!context.isNull()) {
            if (context.pb() != null && !context.pb().isNull()) {
                if (open) {
                    av_write_trailer(context);
                }
                avio_closep(context.pb());
                context.pb(null);
            }
            avformat_free_context(context);
            context.setNull();
        }
    }
}
