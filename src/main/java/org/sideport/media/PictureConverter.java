package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avutil.AVCOL_RANGE_JPEG;
import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_BGRA;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_alloc;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_free;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_get_buffer;
import static org.bytedeco.ffmpeg.global.swscale.SWS_ACCURATE_RND;
import static org.bytedeco.ffmpeg.global.swscale.SWS_BICUBIC;
import static org.bytedeco.ffmpeg.global.swscale.SWS_CS_ITU601;
import static org.bytedeco.ffmpeg.global.swscale.SWS_FULL_CHR_H_INT;
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

/** Turns decoded frames into upright BGRA pictures. Thread-confined; must be closed. */
final class PictureConverter implements AutoCloseable {

    private static final int ONE = 1 << 16;

    private final double sampleAspect;
    private final int rotation;
    private @Nullable SwsContext scaler;
    private @Nullable AVFrame target;
    private int sourceFormat = -1;

    /**
     * @param sampleAspect width of a pixel to its height
     * @param rotation clockwise degrees: 0, 90, 180 or 270
     */
    PictureConverter(double sampleAspect, int rotation) {
        this.sampleAspect = sampleAspect;
        this.rotation = rotation;
    }

    FramePicture convert(AVFrame source) {
        int width = source.width();
        int height = source.height();
        AVFrame picture = prepare(source, width, height);
        sws_scale(scaler, source.data(), source.linesize(), 0, height, picture.data(), picture.linesize());
        byte[] coded = new byte[width * height * 4];
        int stride = picture.linesize(0);
        BytePointer data = picture.data(0);
        for (int row = 0; row < height; row++) {
            data.position((long) row * stride).get(coded, row * width * 4, width * 4);
        }
        data.position(0);
        boolean sideways = rotation % 180 != 0;
        double aspect = width * sampleAspect / height;
        return new FramePicture(
                sideways ? height : width,
                sideways ? width : height,
                sideways ? 1 / aspect : aspect,
                rotation == 0 ? coded : turned(coded, width, height));
    }

    private AVFrame prepare(AVFrame source, int width, int height) {
        AVFrame ready = target;
        if (ready != null && sourceFormat == source.format() && ready.width() == width && ready.height() == height) {
            return ready;
        }
        close();
        SwsContext context = sws_getContext(
                width,
                height,
                source.format(),
                width,
                height,
                AV_PIX_FMT_BGRA,
                SWS_BICUBIC | SWS_ACCURATE_RND | SWS_FULL_CHR_H_INT,
                (SwsFilter) null,
                (SwsFilter) null,
                (DoublePointer) null);
        if (context == null) {
            throw new IllegalStateException("no conversion from pixel format " + source.format());
        }
        IntPointer matrix = ColourMatrix.of(source);
        int fullRange = source.color_range() == AVCOL_RANGE_JPEG ? 1 : 0;
        sws_setColorspaceDetails(context, matrix, fullRange, sws_getCoefficients(SWS_CS_ITU601), 1, 0, ONE, ONE);
        AVFrame fresh = av_frame_alloc();
        fresh.format(AV_PIX_FMT_BGRA);
        fresh.width(width);
        fresh.height(height);
        av_frame_get_buffer(fresh, 0);
        scaler = context;
        target = fresh;
        sourceFormat = source.format();
        return fresh;
    }

    private byte[] turned(byte[] coded, int width, int height) {
        byte[] upright = new byte[coded.length];
        int newWidth = rotation % 180 == 0 ? width : height;
        for (int y = 0; y < height; y++) {
            for (int x = 0; x < width; x++) {
                int toX = rotation == 90 ? height - 1 - y : rotation == 180 ? width - 1 - x : y;
                int toY = rotation == 90 ? x : rotation == 180 ? height - 1 - y : width - 1 - x;
                System.arraycopy(coded, (y * width + x) * 4, upright, (toY * newWidth + toX) * 4, 4);
            }
        }
        return upright;
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
    }
}
