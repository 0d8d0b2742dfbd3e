package org.sideport.player;

import org.sideport.model.Segment;

/**
 * The size at which a segment's picture is asked for and how wide it is to be shown.
 *
 * @param width pixels after rotation
 * @param height pixels after rotation
 * @param aspect width to height on the screen, the shape of the pixels counted in
 */
public record DisplaySize(int width, int height, double aspect) {

    public static DisplaySize of(Segment segment) {
        boolean turned = segment.rotation() == 90 || segment.rotation() == 270;
        double pixel = pixelAspect(segment.sampleAspect());
        double coded = segment.width() * pixel / segment.height();
        return turned
                ? new DisplaySize(segment.height(), segment.width(), 1 / coded)
                : new DisplaySize(segment.width(), segment.height(), coded);
    }

    private static double pixelAspect(String text) {
        int colon = text.indexOf(':');
        if (colon < 0) {
            return 1.0;
        }
        try {
            double across = Double.parseDouble(text.substring(0, colon));
            double down = Double.parseDouble(text.substring(colon + 1));
            return across > 0 && down > 0 ? across / down : 1.0;
        } catch (NumberFormatException unknown) {
            return 1.0;
        }
    }
}
