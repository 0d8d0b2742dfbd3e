package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avutil.AVCOL_RANGE_JPEG;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_alloc;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_free;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_get_buffer;
import static org.bytedeco.ffmpeg.global.swscale.SWS_CS_ITU601;
import static org.bytedeco.ffmpeg.global.swscale.sws_alloc_context;
import static org.bytedeco.ffmpeg.global.swscale.sws_freeContext;
import static org.bytedeco.ffmpeg.global.swscale.sws_getCoefficients;
import static org.bytedeco.ffmpeg.global.swscale.sws_init_context;
import static org.bytedeco.ffmpeg.global.swscale.sws_scale_frame;
import static org.bytedeco.ffmpeg.global.swscale.sws_setColorspaceDetails;

import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.ffmpeg.swscale.SwsContext;
import org.bytedeco.ffmpeg.swscale.SwsFilter;
import org.jspecify.annotations.Nullable;

/** One conversion of FFmpeg's scaler, set up anew when the pictures change. Thread-confined; must be closed. */
final class ScalerStage implements AutoCloseable {

    private static final int ONE = 1 << 16;
    private static final int MOST_THREADS = 4;

    /** What a conversion depends on. */
    private record Kind(int format, int width, int height, int space, int range, int toWidth, int toHeight) {}

    private final int format;
    private final int flags;
    private @Nullable Kind kind;
    private @Nullable SwsContext scaler;
    private @Nullable AVFrame target;

    /**
     * @param format FFmpeg's pixel format of the result
     * @param flags FFmpeg's, of the scaler
     */
    ScalerStage(int format, int flags) {
        this.format = format;
        this.flags = flags;
    }

    /** The result is valid until the next call. */
    AVFrame scale(AVFrame source, int width, int height) {
        Kind wanted = new Kind(
                source.format(),
                source.width(),
                source.height(),
                source.colorspace(),
                source.color_range(),
                width,
                height);
        SwsContext context = scaler;
        AVFrame into = target;
        if (context == null || into == null || !wanted.equals(kind)) {
            close();
            context = prepare(source, width, height);
            into = av_frame_alloc();
            into.format(format).width(width).height(height);
            scaler = context;
            target = into;
            kind = wanted;
            if (av_frame_get_buffer(into, 0) < 0) {
                throw new OutOfMemoryError("no memory for a picture of " + width + "x" + height);
            }
        }
        int code = sws_scale_frame(context, into, source);
        if (code < 0) {
            throw new IllegalStateException("a picture was not converted: " + Ffmpeg.errorText(code));
        }
        return into;
    }

    private SwsContext prepare(AVFrame source, int width, int height) {
        SwsContext context = sws_alloc_context();
        context.src_w(source.width()).src_h(source.height()).src_format(source.format());
        context.dst_w(width).dst_h(height).dst_format(format);
        context.flags(flags);
        context.threads(Math.min(MOST_THREADS, Runtime.getRuntime().availableProcessors()));
        if (sws_init_context(context, (SwsFilter) null, (SwsFilter) null) < 0) {
            sws_freeContext(context);
            throw new IllegalStateException("no conversion from pixel format " + source.format());
        }
        int fullRange = source.color_range() == AVCOL_RANGE_JPEG ? 1 : 0;
        sws_setColorspaceDetails(
                context, ColourMatrix.of(source), fullRange, sws_getCoefficients(SWS_CS_ITU601), 1, 0, ONE, ONE);
        return context;
    }

    @Override
    public void close() {
        if (scaler != null) {
            sws_freeContext(scaler);
            scaler = null;
        }
        if (target != null) {
            av_frame_free(target);
            target = null;
        }
        kind = null;
    }
}
