package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_BGRA;
import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_FLAG_RGB;
import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_GBRP;
import static org.bytedeco.ffmpeg.global.avutil.av_pix_fmt_desc_get;
import static org.bytedeco.ffmpeg.global.swscale.SWS_ACCURATE_RND;
import static org.bytedeco.ffmpeg.global.swscale.SWS_AREA;
import static org.bytedeco.ffmpeg.global.swscale.SWS_BICUBIC;
import static org.bytedeco.ffmpeg.global.swscale.SWS_FULL_CHR_H_INT;
import static org.bytedeco.ffmpeg.global.swscale.SWS_POINT;

import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.javacpp.BytePointer;

/**
 * Turns decoded frames into upright BGRA pictures. Thread-confined; must be closed.
 *
 * <p>Full pictures go by way of planes of red, green and blue: the library's exact sums with full chroma are several
 * times quicker there than into packed pixels, and the same to the last bit.
 */
final class PictureConverter implements AutoCloseable {

    private static final int EXACT = SWS_BICUBIC | SWS_ACCURATE_RND | SWS_FULL_CHR_H_INT;

    private final double sampleAspect;
    private final int rotation;
    private final ScalerStage planes = new ScalerStage(AV_PIX_FMT_GBRP, EXACT);
    private final ScalerStage packed = new ScalerStage(AV_PIX_FMT_BGRA, SWS_POINT);
    private final ScalerStage direct = new ScalerStage(AV_PIX_FMT_BGRA, EXACT);
    private final ScalerStage small = new ScalerStage(AV_PIX_FMT_BGRA, SWS_AREA);

    /**
     * @param sampleAspect width of a pixel to its height
     * @param rotation clockwise degrees: 0, 90, 180 or 270
     */
    PictureConverter(double sampleAspect, int rotation) {
        this.sampleAspect = sampleAspect;
        this.rotation = rotation;
    }

    /** The whole picture in exact colours. */
    FramePicture convert(AVFrame source) {
        int width = source.width();
        int height = source.height();
        boolean isRgb = (av_pix_fmt_desc_get(source.format()).flags() & AV_PIX_FMT_FLAG_RGB) != 0;
        AVFrame picture = isRgb
                ? direct.scale(source, width, height)
                : packed.scale(planes.scale(source, width, height), width, height);
        return upright(picture, width * sampleAspect / height);
    }

    /**
     * A smaller picture, quickly.
     *
     * @param maxWidth pixels across as coded; the picture is no larger than the frame
     * @param frameHeight rows of the whole frame, of which {@code source} may be one field
     */
    FramePicture convert(AVFrame source, int maxWidth, int frameHeight) {
        int width = Math.min(maxWidth, source.width());
        int height = Math.max(1, (int) Math.round((double) frameHeight * width / source.width()));
        return upright(small.scale(source, width, height), source.width() * sampleAspect / frameHeight);
    }

    private FramePicture upright(AVFrame picture, double aspect) {
        int width = picture.width();
        int height = picture.height();
        byte[] coded = new byte[width * height * 4];
        int stride = picture.linesize(0);
        BytePointer data = picture.data(0);
        if (stride == width * 4) {
            data.get(coded);
        } else {
            for (int row = 0; row < height; row++) {
                data.position((long) row * stride).get(coded, row * width * 4, width * 4);
            }
        }
        boolean sideways = rotation % 180 != 0;
        return new FramePicture(
                sideways ? height : width,
                sideways ? width : height,
                sideways ? 1 / aspect : aspect,
                rotation == 0 ? coded : turned(coded, width, height));
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
        planes.close();
        packed.close();
        direct.close();
        small.close();
    }
}
