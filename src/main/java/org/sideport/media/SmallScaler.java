package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avutil.AVCOL_RANGE_JPEG;
import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_YUV444P;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_alloc;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_free;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_get_buffer;
import static org.bytedeco.ffmpeg.global.swscale.SWS_CS_ITU601;
import static org.bytedeco.ffmpeg.global.swscale.SWS_FAST_BILINEAR;
import static org.bytedeco.ffmpeg.global.swscale.sws_freeContext;
import static org.bytedeco.ffmpeg.global.swscale.sws_getCoefficients;
import static org.bytedeco.ffmpeg.global.swscale.sws_getContext;
import static org.bytedeco.ffmpeg.global.swscale.sws_scale;
import static org.bytedeco.ffmpeg.global.swscale.sws_setColorspaceDetails;

import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.ffmpeg.swscale.SwsContext;
import org.bytedeco.ffmpeg.swscale.SwsFilter;
import org.bytedeco.javacpp.BytePointer;
import org.bytedeco.javacpp.DoublePointer;
import org.bytedeco.javacpp.IntPointer;
import org.jspecify.annotations.Nullable;

/** Turns decoded frames into small pictures of one size. Thread-confined; must be closed. */
public final class SmallScaler implements AutoCloseable {

    private static final int ONE = 1 << 16;

    private final int width;
    private final int height;
    private final int method;
    private final AVFrame target = av_frame_alloc();
    private @Nullable SwsContext scaler;
    private int sourceFormat = -1;
    private int sourceWidth;
    private int sourceHeight;
    private int sourceRange;

    public SmallScaler(int width, int height) {
        this(width, height, SWS_FAST_BILINEAR);
    }

    /** @param method of the scaling library: the quick one skips lines of a much larger picture */
    SmallScaler(int width, int height, int method) {
        this.method = method;
        this.width = width;
        this.height = height;
        target.format(AV_PIX_FMT_YUV444P);
        target.width(width);
        target.height(height);
        av_frame_get_buffer(target, 0);
    }

    int width() {
        return width;
    }

    public SmallPicture scale(AVFrame source) {
        SwsContext context = prepare(source);
        sws_scale(context, source.data(), source.linesize(), 0, source.height(), target.data(), target.linesize());
        return new SmallPicture(width, height, plane(0), plane(1), plane(2));
    }

    private byte[] plane(int number) {
        byte[] values = new byte[width * height];
        BytePointer data = target.data(number);
        int stride = target.linesize(number);
        for (int row = 0; row < height; row++) {
            data.position((long) row * stride).get(values, row * width, width);
        }
        data.position(0);
        return values;
    }

    private SwsContext prepare(AVFrame source) {
        SwsContext ready = scaler;
        if (ready != null
                && sourceFormat == source.format()
                && sourceWidth == source.width()
                && sourceHeight == source.height()
                && sourceRange == source.color_range()) {
            return ready;
        }
        free();
        SwsContext context = sws_getContext(
                source.width(),
                source.height(),
                source.format(),
                width,
                height,
                AV_PIX_FMT_YUV444P,
                method,
                (SwsFilter) null,
                (SwsFilter) null,
                (DoublePointer) null);
        if (context == null) {
            throw new IllegalStateException("no conversion from pixel format " + source.format());
        }
        int fullRange = source.color_range() == AVCOL_RANGE_JPEG ? 1 : 0;
        IntPointer matrix = sws_getCoefficients(SWS_CS_ITU601);
        sws_setColorspaceDetails(context, matrix, fullRange, matrix, 0, 0, ONE, ONE);
        scaler = context;
        sourceFormat = source.format();
        sourceWidth = source.width();
        sourceHeight = source.height();
        sourceRange = source.color_range();
        return context;
    }

    private void free() {
        if (scaler != null) {
            sws_freeContext(scaler);
            scaler = null;
        }
    }

    @Override
    public void close() {
        free();
        av_frame_free(target);
    }
}
