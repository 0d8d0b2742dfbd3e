package org.sideport.media.text;

import java.nio.file.Path;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.sideport.media.MediaInput;

/**
 * How a file's coded pixels come on the screen.
 *
 * @param stretch width of a pixel to its height
 * @param rotation clockwise degrees, 0, 90, 180 or 270
 */
record Geometry(int codedWidth, int codedHeight, double stretch, int rotation) {

    static Geometry of(Path file) {
        try (MediaInput input = MediaInput.open(file)) {
            AVRational aspect = input.sampleAspect();
            return new Geometry(
                    input.video().codecpar().width(),
                    input.video().codecpar().height(),
                    aspect.num() / (double) aspect.den(),
                    input.rotation());
        }
    }

    /** A box of a small picture that shows all coded pixels, as display pixels that cover it. */
    Box displayed(Box small, int smallWidth, int smallHeight) {
        double across = codedWidth / (double) smallWidth;
        double down = codedHeight / (double) smallHeight;
        double left = small.left() * across;
        double right = small.right() * across;
        double top = small.top() * down;
        double bottom = small.bottom() * down;
        return switch (rotation) {
            case 90 -> box((codedHeight - bottom) / stretch, left, (codedHeight - top) / stretch, right);
            case 180 ->
                box(
                        (codedWidth - right) * stretch,
                        codedHeight - bottom,
                        (codedWidth - left) * stretch,
                        codedHeight - top);
            case 270 -> box(top / stretch, codedWidth - right, bottom / stretch, codedWidth - left);
            default -> box(left * stretch, top, right * stretch, bottom);
        };
    }

    private static Box box(double left, double top, double right, double bottom) {
        return new Box(
                Math.max(0, (int) Math.floor(left)), Math.max(0, (int) Math.floor(top)), (int) Math.ceil(right), (int)
                        Math.ceil(bottom));
    }
}
