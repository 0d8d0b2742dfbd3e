package org.sideport.media.trace;

import java.util.Locale;

/** What is measured at each moment. The order is that of the stored file. */
public enum TraceKind {
    /** mean brightness as coded, 16 (black) to 235 (white) */
    BRIGHTNESS,
    /** standard deviation of the brightness over the picture */
    CONTRAST,
    /** mean blue difference (Cb) as coded, 16 to 240, 128 is grey */
    BLUE,
    /** mean squared gradient of brightness (Tenengrad); see {@link Sharpness} */
    SHARPNESS,
    /** mean saturation of red in the middle of the picture, 0 to 1; see {@link PictureMeasures#redSaturation} */
    RED_SATURATION,
    /** mean absolute difference of brightness to the moment before, 0 to 219 */
    DIFFERENCE,
    /** mean change of mean brightness of blocks of 8 × 8, movement of the picture and change of light taken off */
    ACTIVITY,
    /** mean displacement of blocks with texture against that of the whole picture, hundredths of its width */
    MOTION,
    /** share of blocks with texture that are found nowhere near in the picture before, 0 to 1 */
    SCENE_CHANGE;

    /** As written in CSV headers and JSON: lower case. */
    public String id() {
        return name().toLowerCase(Locale.ROOT);
    }
}
