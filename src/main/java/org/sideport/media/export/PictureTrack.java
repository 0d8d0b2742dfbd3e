package org.sideport.media.export;

import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_FLAG_INTERLACED_DCT;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_FLAG_INTERLACED_ME;
import static org.bytedeco.ffmpeg.global.avcodec.AV_PKT_DATA_DISPLAYMATRIX;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_side_data_new;
import static org.bytedeco.ffmpeg.global.avutil.AVCOL_RANGE_JPEG;
import static org.bytedeco.ffmpeg.global.avutil.AVCOL_RANGE_MPEG;
import static org.bytedeco.ffmpeg.global.avutil.AV_PICTURE_TYPE_NONE;
import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_YUV420P;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_free;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_set;
import static org.bytedeco.ffmpeg.global.avutil.av_display_rotation_set;

import java.io.IOException;
import org.bytedeco.ffmpeg.avcodec.AVCodecContext;
import org.bytedeco.ffmpeg.avcodec.AVCodecParameters;
import org.bytedeco.ffmpeg.avcodec.AVPacketSideData;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.bytedeco.javacpp.IntPointer;
import org.bytedeco.javacpp.PointerPointer;
import org.sideport.media.VideoTrack;
import org.sideport.media.export.SourceFiles.Part;

/**
 * The H.264 stream of an export. It holds no B-frames: decoding times then equal display times, so that the length of
 * each frame, the last one included, survives in the container's table of times.
 */
final class PictureTrack implements AutoCloseable {

    private static final int MATRIX_BYTES = 9 * Integer.BYTES;

    private final VideoTrack track;

    /**
     * Opens the encoder and adds its stream.
     *
     * @param like a decoded frame, from which colour and interlacing are taken
     * @param meanTicks usual length of a frame
     */
    PictureTrack(
            OutputFile out,
            Encoding encoding,
            Part part,
            AVFrame like,
            int width,
            int height,
            OutputClock clock,
            long meanTicks)
            throws IOException {
        track = new VideoTrack(out.context(), "libx264", meanTicks);
        AVDictionary options = new AVDictionary(null);
        try {
            av_dict_set(options, "preset", encoding.preset(), 0);
            av_dict_set(options, "crf", Integer.toString(encoding.quality()), 0);
            av_dict_set(options, "profile", "high", 0);
            track.open(e -> describe(e, encoding, part, like, width, height, clock, meanTicks), options);
            turn(out.context().streams(out.context().nb_streams() - 1).codecpar(), part.rotation());
        } catch (IOException | RuntimeException e) {
            track.close();
            throw e;
        } finally {
            av_dict_free(options);
        }
    }

    private static void describe(
            AVCodecContext encoder,
            Encoding encoding,
            Part part,
            AVFrame like,
            int width,
            int height,
            OutputClock clock,
            long meanTicks) {
        encoder.width(width).height(height).pix_fmt(AV_PIX_FMT_YUV420P);
        encoder.time_base(new AVRational().num(1).den(clock.timescale()));
        encoder.framerate(new AVRational().num(clock.timescale()).den((int) Math.max(1, meanTicks)));
        encoder.sample_aspect_ratio(encoding.aspect(part, width, height));
        int perSecond = (int) Math.max(1, clock.timescale() / Math.max(1, meanTicks));
        encoder.gop_size(Math.max(1, encoding.keySeconds() * perSecond)).max_b_frames(0);
        encoder.color_range(FrameShaper.isFullRange(like) ? AVCOL_RANGE_JPEG : AVCOL_RANGE_MPEG)
                .colorspace(like.colorspace())
                .color_primaries(like.color_primaries())
                .color_trc(like.color_trc());
        boolean interlaced = (like.flags() & AVFrame.AV_FRAME_FLAG_INTERLACED) != 0;
        if (interlaced && height == part.height()) {
            encoder.flags(encoder.flags() | AV_CODEC_FLAG_INTERLACED_DCT | AV_CODEC_FLAG_INTERLACED_ME);
        }
        encoder.thread_count(Math.min(4, Runtime.getRuntime().availableProcessors()));
    }

    /** Tells players to turn the picture as they had to turn the original. */
    private static void turn(AVCodecParameters stream, int clockwise) {
        if (clockwise == 0) {
            return;
        }
        try (PointerPointer<AVPacketSideData> list = new PointerPointer<>(1);
                IntPointer count = new IntPointer(1)) {
            list.put(0, stream.coded_side_data());
            count.put(stream.nb_coded_side_data());
            AVPacketSideData matrix = av_packet_side_data_new(list, count, AV_PKT_DATA_DISPLAYMATRIX, MATRIX_BYTES, 0);
            if (matrix == null || matrix.isNull()) {
                throw new IllegalStateException("no memory for the picture's rotation");
            }
            av_display_rotation_set(new IntPointer(matrix.data()), clockwise);
            stream.coded_side_data(list.get(AVPacketSideData.class, 0));
            stream.nb_coded_side_data(count.get());
        }
    }

    void add(AVFrame picture, AVFrame like, long pts, long duration) throws IOException {
        picture.pts(pts).duration(duration);
        picture.pict_type(AV_PICTURE_TYPE_NONE);
        int fields = AVFrame.AV_FRAME_FLAG_INTERLACED | AVFrame.AV_FRAME_FLAG_TOP_FIELD_FIRST;
        picture.flags(picture.flags() & ~fields | like.flags() & fields);
        track.send(picture);
    }

    void finish() throws IOException {
        track.send(null);
    }

    @Override
    public void close() {
        track.close();
    }
}
