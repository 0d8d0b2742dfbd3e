package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_FLAG_CLOSED_GOP;
import static org.bytedeco.ffmpeg.global.avformat.AVIO_FLAG_WRITE;
import static org.bytedeco.ffmpeg.global.avformat.av_write_trailer;
import static org.bytedeco.ffmpeg.global.avformat.avformat_alloc_output_context2;
import static org.bytedeco.ffmpeg.global.avformat.avformat_free_context;
import static org.bytedeco.ffmpeg.global.avformat.avformat_write_header;
import static org.bytedeco.ffmpeg.global.avformat.avio_closep;
import static org.bytedeco.ffmpeg.global.avformat.avio_open;
import static org.bytedeco.ffmpeg.global.avutil.AVCOL_PRI_BT709;
import static org.bytedeco.ffmpeg.global.avutil.AVCOL_PRI_SMPTE170M;
import static org.bytedeco.ffmpeg.global.avutil.AVCOL_RANGE_MPEG;
import static org.bytedeco.ffmpeg.global.avutil.AVCOL_SPC_BT709;
import static org.bytedeco.ffmpeg.global.avutil.AVCOL_SPC_SMPTE170M;
import static org.bytedeco.ffmpeg.global.avutil.AVCOL_TRC_BT709;
import static org.bytedeco.ffmpeg.global.avutil.AVCOL_TRC_SMPTE170M;
import static org.bytedeco.ffmpeg.global.avutil.AV_LOG_ERROR;
import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_YUV420P;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_free;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_set;
import static org.bytedeco.ffmpeg.global.avutil.av_log_set_level;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import org.bytedeco.ffmpeg.avcodec.AVCodecContext;
import org.bytedeco.ffmpeg.avformat.AVFormatContext;
import org.bytedeco.ffmpeg.avformat.AVIOContext;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.bytedeco.javacpp.BytePointer;
import org.jspecify.annotations.Nullable;

/**
 * Writes one MP4 file: H.264 with B-frames, and mono AAC if asked for. No container tags are written, so no name of a
 * person, place or machine can get in.
 *
 * <p>The file appears under its name only after {@link #finish()}: closing without it leaves nothing behind. Not safe
 * for use by several threads.
 */
public final class VideoWriter implements AutoCloseable {

    private final Path target;
    private final Path partial;
    private final AVFormatContext file;
    private final VideoOptions options;
    private @Nullable VideoTrack pictures;
    private @Nullable VideoPicture picture;
    private @Nullable VideoSound sound;
    private long lastPts = Long.MIN_VALUE;
    private boolean finished;
    private boolean closed;

    private VideoWriter(Path target, VideoOptions options) throws IOException {
        this.target = target.toAbsolutePath();
        this.partial = this.target.resolveSibling(target.getFileName() + ".part");
        this.options = options;
        file = new AVFormatContext(null);
    }

    /** @throws IOException if the file cannot be written or FFmpeg lacks an encoder */
    public static VideoWriter open(Path target, VideoOptions options) throws IOException {
        VideoWriter writer = new VideoWriter(target, options);
        try {
            writer.start();
            return writer;
        } catch (IOException e) {
            writer.close();
            throw new IOException(target + ": " + e.getMessage(), e);
        } catch (RuntimeException e) {
            writer.close();
            throw e;
        }
    }

    private void start() throws IOException {
        av_log_set_level(AV_LOG_ERROR);
        // "file:" so that a colon in the path is not taken for a protocol
        try (BytePointer name = new BytePointer("file:" + partial, StandardCharsets.UTF_8);
                BytePointer mp4 = new BytePointer("mp4", StandardCharsets.UTF_8)) {
            VideoTrack.check(avformat_alloc_output_context2(file, null, mp4, name), "prepare the file");
            file.flags(file.flags() | AVFormatContext.AVFMT_FLAG_BITEXACT);
            AVIOContext io = new AVIOContext(null);
            VideoTrack.check(avio_open(io, name, AVIO_FLAG_WRITE), "create the file");
            file.pb(io);
        }
        VideoTrack video = new VideoTrack(file, "libx264", options.frameTicks());
        pictures = video;
        AVDictionary encoding = new AVDictionary(null);
        av_dict_set(encoding, "preset", "medium", 0);
        av_dict_set(encoding, "crf", Integer.toString(options.quality()), 0);
        av_dict_set(encoding, "profile", "high", 0);
        video.open(this::describe, encoding);
        av_dict_free(encoding);
        picture = new VideoPicture(options.width(), options.height());
        if (options.audioRate() > 0) {
            sound = new VideoSound(file, options.audioRate());
        }
        AVDictionary container = new AVDictionary(null);
        av_dict_set(container, "movflags", "+faststart", 0);
        av_dict_set(container, "video_track_timescale", Integer.toString(options.timescale()), 0);
        VideoTrack.check(avformat_write_header(file, container), "write the header");
        av_dict_free(container);
    }

    private void describe(AVCodecContext encoder) {
        boolean high = VideoPicture.isHighDefinition(options.height());
        encoder.width(options.width()).height(options.height()).pix_fmt(AV_PIX_FMT_YUV420P);
        encoder.time_base(new AVRational().num(1).den(options.timescale()));
        encoder.framerate(new AVRational().num(options.timescale()).den(options.frameTicks()));
        encoder.sample_aspect_ratio(
                new AVRational().num(options.sampleAspectNum()).den(options.sampleAspectDen()));
        encoder.gop_size(options.keyFrameEvery()).max_b_frames(3).flags(AV_CODEC_FLAG_CLOSED_GOP);
        encoder.color_range(AVCOL_RANGE_MPEG)
                .colorspace(high ? AVCOL_SPC_BT709 : AVCOL_SPC_SMPTE170M)
                .color_primaries(high ? AVCOL_PRI_BT709 : AVCOL_PRI_SMPTE170M)
                .color_trc(high ? AVCOL_TRC_BT709 : AVCOL_TRC_SMPTE170M);
        encoder.thread_count(Math.min(4, Runtime.getRuntime().availableProcessors()));
    }

    /**
     * Adds one picture.
     *
     * @param argb rows of {@code 0xAARRGGBB}, top first; alpha is ignored; copied before this returns
     * @param pts when it is first shown, ticks; greater than that of the picture before
     */
    public void frame(int[] argb, long pts) throws IOException {
        VideoTrack video = pictures;
        VideoPicture converter = picture;
        if (video == null || converter == null || finished || closed) {
            throw new IllegalStateException(target + " takes no more pictures");
        }
        if (pts <= lastPts) {
            throw new IllegalArgumentException("picture time " + pts + " is not after " + lastPts);
        }
        lastPts = pts;
        video.send(converter.convert(argb, pts));
    }

    /** Adds one picture of any type; see {@link #frame(int[], long)}. */
    public void frame(BufferedImage image, long pts) throws IOException {
        if (image.getWidth() != options.width() || image.getHeight() != options.height()) {
            throw new IllegalArgumentException("the picture is " + image.getWidth() + "x" + image.getHeight()
                    + ", the file " + options.width() + "x" + options.height());
        }
        frame(image.getRGB(0, 0, options.width(), options.height(), null, 0, options.width()), pts);
    }

    /**
     * Adds sound after what was added before; the first sample sounds at time 0.
     *
     * @param samples mono amplitudes, -1 to 1, at the rate of the options
     */
    public void sound(float[] samples) throws IOException {
        VideoSound track = sound;
        if (track == null || finished || closed) {
            throw new IllegalStateException(target + " takes no sound");
        }
        track.add(samples);
    }

    /** Completes the file and gives it its name, replacing what was there. */
    public void finish() throws IOException {
        VideoTrack video = pictures;
        if (video == null || finished || closed) {
            throw new IllegalStateException(target + " is already complete");
        }
        video.send(null);
        if (sound != null) {
            sound.finish();
        }
        VideoTrack.check(av_write_trailer(file), "complete " + target);
        VideoTrack.check(avio_closep(file.pb()), "complete " + target);
        file.pb(null);
        Files.move(partial, target, StandardCopyOption.REPLACE_EXISTING);
        finished = true;
    }

    @Override
    public void close() throws IOException {
        if (closed) {
            return;
        }
        closed = true;
        if (picture != null) {
            picture.close();
        }
        if (sound != null) {
            sound.close();
        }
        if (pictures != null) {
            pictures.close();
        }
        if (!file.isNull()) {
            if (file.pb() != null && !file.pb().isNull()) {
                avio_closep(file.pb());
            }
            avformat_free_context(file);
        }
        if (!finished) {
            Files.deleteIfExists(partial);
        }
    }
}
