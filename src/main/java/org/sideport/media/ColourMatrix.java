package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avutil.AVCOL_SPC_UNSPECIFIED;
import static org.bytedeco.ffmpeg.global.swscale.SWS_CS_ITU601;
import static org.bytedeco.ffmpeg.global.swscale.SWS_CS_ITU709;
import static org.bytedeco.ffmpeg.global.swscale.sws_getCoefficients;

import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.javacpp.IntPointer;

/** How luminance and colour differences of a picture become red, green and blue. */
public final class ColourMatrix {

    private static final int HD_HEIGHT = 720;

    private ColourMatrix() {}

    /** As the picture says; where it says nothing, BT.709 from 720 lines on and BT.601 below, as players assume. */
    public static IntPointer of(AVFrame picture) {
        int space = picture.colorspace();
        if (space == AVCOL_SPC_UNSPECIFIED) {
            space = picture.height() >= HD_HEIGHT ? SWS_CS_ITU709 : SWS_CS_ITU601;
        }
        return sws_getCoefficients(space);
    }
}
