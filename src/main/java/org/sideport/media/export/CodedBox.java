package org.sideport.media.export;

import org.jspecify.annotations.Nullable;
import org.sideport.media.export.SourceFiles.Part;
import org.sideport.model.MaskArea;

/**
 * A rectangle of coded pixels, before the picture is turned and stretched for display. Its edges are even, since chroma
 * has half the resolution; it covers at least what it stands for.
 *
 * @param right exclusive
 * @param bottom exclusive
 */
record CodedBox(int left, int top, int right, int bottom) {

    /**
     * @param codedWidth even pixels of the picture that is written
     * @return {@code null} if the area lies outside the picture
     */
    static @Nullable CodedBox of(MaskArea area, Part part, int codedWidth, int codedHeight) {
        boolean sideways = part.rotation() % 180 != 0;
        double stretch = part.aspectNum() / (double) part.aspectDen();
        // turned by a quarter, the picture's pixels are as high as they were wide
        double across = sideways ? stretch : 1 / stretch;
        int fullWidth = sideways ? part.height() : part.width();
        int fullHeight = sideways ? part.width() : part.height();
        double x0 = area.x() * across;
        double x1 = (area.x() + (double) area.width()) * across;
        double y0 = area.y();
        double y1 = area.y() + (double) area.height();
        double[] box =
                switch (part.rotation()) {
                    case 90 -> new double[] {y0, fullWidth - x1, y1, fullWidth - x0};
                    case 180 -> new double[] {fullWidth - x1, fullHeight - y1, fullWidth - x0, fullHeight - y0};
                    case 270 -> new double[] {fullHeight - y1, x0, fullHeight - y0, x1};
                    default -> new double[] {x0, y0, x1, y1};
                };
        int left = clamp((int) Math.floor(box[0] + 1e-6) & ~1, codedWidth);
        int top = clamp((int) Math.floor(box[1] + 1e-6) & ~1, codedHeight);
        int right = clamp((int) Math.ceil(box[2] - 1e-6) + 1 & ~1, codedWidth);
        int bottom = clamp((int) Math.ceil(box[3] - 1e-6) + 1 & ~1, codedHeight);
        return left < right && top < bottom ? new CodedBox(left, top, right, bottom) : null;
    }

    private static int clamp(int value, int most) {
        return Math.max(0, Math.min(most, value));
    }

    int width() {
        return right - left;
    }

    int height() {
        return bottom - top;
    }
}
