package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_BGRA;
import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_YUV420P;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_alloc;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_free;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_get_buffer;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_make_writable;
import static org.bytedeco.ffmpeg.global.swscale.SWS_ACCURATE_RND;
import static org.bytedeco.ffmpeg.global.swscale.SWS_AREA;
import static org.bytedeco.ffmpeg.global.swscale.SWS_CS_ITU601;
import static org.bytedeco.ffmpeg.global.swscale.SWS_CS_ITU709;
import static org.bytedeco.ffmpeg.global.swscale.SWS_FULL_CHR_H_INP;
import static org.bytedeco.ffmpeg.global.swscale.sws_freeContext;
import static org.bytedeco.ffmpeg.global.swscale.sws_getCoefficients;
import static org.bytedeco.ffmpeg.global.swscale.sws_getContext;
import static org.bytedeco.ffmpeg.global.swscale.sws_scale;
import static org.bytedeco.ffmpeg.global.swscale.sws_setColorspaceDetails;

import java.io.IOException;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.ffmpeg.swscale.SwsContext;
import org.bytedeco.javacpp.DoublePointer;
import org.bytedeco.javacpp.IntPointer;
import org.bytedeco.javacpp.PointerPointer;

/** Turns pictures of {@code 0xAARRGGBB} integers into the encoder's 4:2:0 frame, which it owns. */
public final class VideoPicture implements AutoCloseable {

    private final int width;
    private final int height;
    private final SwsContext scaler;
    private final AVFrame frame = av_frame_alloc();
    private final IntPointer pixels;
    private final PointerPointer<IntPointer> planes;
    private final IntPointer strides;

    public VideoPicture(int width, int height) throws IOException {
        this.width = width;
        this.height = height;
        scaler = sws_getContext(
                width,
                height,
                AV_PIX_FMT_BGRA,
                width,
                height,
                AV_PIX_FMT_YUV420P,
                SWS_AREA | SWS_ACCURATE_RND | SWS_FULL_CHR_H_INP,
                null,
                null,
                (DoublePointer) null);
        IntPointer matrix = sws_getCoefficients(isHighDefinition(height) ? SWS_CS_ITU709 : SWS_CS_ITU601);
        sws_setColorspaceDetails(scaler, matrix, 1, matrix, 0, 0, 1 << 16, 1 << 16);
        frame.format(AV_PIX_FMT_YUV420P).width(width).height(height);
        VideoTrack.check(av_frame_get_buffer(frame, 0), "reserve a picture");
        // integers of this order are BGRA bytes on little-endian machines, the only ones FFmpeg's jars are built for
        pixels = new IntPointer((long) width * height);
        // the scaler reads four entries of each, however few planes there are
        planes = new PointerPointer<>(pixels, null, null, null);
        strides = new IntPointer(width * 4, 0, 0, 0);
    }

    public static boolean isHighDefinition(int height) {
        return height >= 720;
    }

    /** @param argb rows of {@code 0xAARRGGBB}, top first; the frame is valid until the next call */
    public AVFrame convert(int[] argb, long pts) throws IOException {
        if (argb.length != width * height) {
            throw new IllegalArgumentException(
                    "a picture of " + width + "x" + height + " needs " + width * height + " pixels: " + argb.length);
        }
        pixels.put(argb);
        VideoTrack.check(av_frame_make_writable(frame), "reserve a picture");
        VideoTrack.check(
                sws_scale(scaler, planes, strides, 0, height, frame.data(), frame.linesize()), "convert a picture");
        frame.pts(pts);
        return frame;
    }

    @Override
    public void close() {
        sws_freeContext(scaler);
        av_frame_free(frame);
        planes.close();
        strides.close();
        pixels.close();
    }
}
