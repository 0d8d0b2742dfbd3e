package org.sideport.media.export;

import static org.bytedeco.ffmpeg.global.avutil.AVCOL_RANGE_JPEG;
import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_YUV420P;
import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_YUVJ420P;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_alloc;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_copy;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_free;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_get_buffer;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_make_writable;
import static org.bytedeco.ffmpeg.global.swscale.SWS_ACCURATE_RND;
import static org.bytedeco.ffmpeg.global.swscale.SWS_BICUBIC;
import static org.bytedeco.ffmpeg.global.swscale.sws_freeContext;
import static org.bytedeco.ffmpeg.global.swscale.sws_getContext;
import static org.bytedeco.ffmpeg.global.swscale.sws_scale;
import static org.bytedeco.ffmpeg.global.swscale.sws_setColorspaceDetails;

import java.nio.file.Path;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.ffmpeg.swscale.SwsContext;
import org.bytedeco.ffmpeg.swscale.SwsFilter;
import org.bytedeco.javacpp.DoublePointer;
import org.bytedeco.javacpp.IntPointer;
import org.jspecify.annotations.Nullable;
import org.sideport.media.ColourMatrix;

/**
 * Brings decoded frames to 8-bit 4:2:0 of one size, in a frame of its own that may be painted on. Same size and same
 * layout means the same numbers: nothing is converted then. Thread-confined; must be closed.
 */
final class FrameShaper implements AutoCloseable {

    private static final int ONE = 1 << 16;

    private final int width;
    private final int height;
    private final AVFrame shaped = av_frame_alloc();
    private @Nullable SwsContext scaler;
    private int fromWidth;
    private int fromHeight;
    private int fromFormat = -1;

    /** @param width even pixels */
    FrameShaper(int width, int height, Path target) {
        this.width = width;
        this.height = height;
        shaped.format(AV_PIX_FMT_YUV420P).width(width).height(height);
        Faults.check(av_frame_get_buffer(shaped, 0), "reserve a picture", target);
    }

    /** The same picture; valid until the next call. Its time and properties are not carried over. */
    AVFrame shape(AVFrame source, Path target) {
        Faults.check(av_frame_make_writable(shaped), "reserve a picture", target);
        boolean plain = source.format() == AV_PIX_FMT_YUV420P || source.format() == AV_PIX_FMT_YUVJ420P;
        // an odd last row or column has no place in 4:2:0 of H.264 and is left out
        if (plain && (source.width() & ~1) == width && (source.height() & ~1) == height) {
            copyPlain(source, target);
        } else {
            convert(source, target);
        }
        return shaped;
    }

    private void copyPlain(AVFrame source, Path target) {
        int format = source.format();
        int oldWidth = source.width();
        int oldHeight = source.height();
        source.format(AV_PIX_FMT_YUV420P).width(width).height(height);
        int code = av_frame_copy(shaped, source);
        source.format(format).width(oldWidth).height(oldHeight);
        Faults.check(code, "copy a picture", target);
    }

    private void convert(AVFrame source, Path target) {
        SwsContext context = scaler;
        if (context == null
                || fromWidth != source.width()
                || fromHeight != source.height()
                || fromFormat != source.format()) {
            context = prepare(source);
        }
        Faults.check(
                sws_scale(
                        context,
                        source.data(),
                        source.linesize(),
                        0,
                        source.height(),
                        shaped.data(),
                        shaped.linesize()),
                "convert a picture",
                target);
    }

    private SwsContext prepare(AVFrame source) {
        if (scaler != null) {
            sws_freeContext(scaler);
            scaler = null;
        }
        SwsContext context = sws_getContext(
                source.width(),
                source.height(),
                source.format(),
                width,
                height,
                AV_PIX_FMT_YUV420P,
                SWS_BICUBIC | SWS_ACCURATE_RND,
                (SwsFilter) null,
                (SwsFilter) null,
                (DoublePointer) null);
        if (context == null) {
            throw new IllegalStateException("no conversion from pixel format " + source.format());
        }
        IntPointer matrix = ColourMatrix.of(source);
        int range = isFullRange(source) ? 1 : 0;
        sws_setColorspaceDetails(context, matrix, range, matrix, range, 0, ONE, ONE);
        scaler = context;
        fromWidth = source.width();
        fromHeight = source.height();
        fromFormat = source.format();
        return context;
    }

    static boolean isFullRange(AVFrame frame) {
        return frame.color_range() == AVCOL_RANGE_JPEG || frame.format() == AV_PIX_FMT_YUVJ420P;
    }

    @Override
    public void close() {
        av_frame_free(shaped);
        if (scaler != null) {
            sws_freeContext(scaler);
            scaler = null;
        }
    }
}
