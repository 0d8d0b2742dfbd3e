package org.sideport.app.timeline;

import javafx.scene.canvas.GraphicsContext;
import javafx.scene.image.PixelWriter;
import javafx.scene.image.WritableImage;
import javafx.scene.paint.Color;
import org.jspecify.annotations.Nullable;

/** Quiet diagonal lines, made once as a picture and copied from: cheaper than many slanted strokes. */
final class Hatch {

    private static final int WIDTH = 512;
    private static final int HEIGHT = 64;

    private final int step;
    private @Nullable WritableImage image;
    private @Nullable Color colour;

    /** @param step pixels from line to line */
    Hatch(int step) {
        this.step = step;
    }

    void fill(GraphicsContext gc, Color now, double x, double y, double width, double height) {
        WritableImage from = image(now);
        double right = x + width;
        for (double at = x; at < right; ) {
            // the pattern stands still on the screen, so that neighbours fit together
            double offset = at % step;
            double part = Math.min(right - at, WIDTH - step);
            gc.drawImage(from, offset, 0, part, Math.min(HEIGHT, height), at, y, part, Math.min(HEIGHT, height));
            at += part;
        }
    }

    private WritableImage image(Color now) {
        WritableImage known = image;
        if (known == null || !now.equals(colour)) {
            known = new WritableImage(WIDTH, HEIGHT);
            PixelWriter out = known.getPixelWriter();
            for (int row = 0; row < HEIGHT; row++) {
                for (int column = 0; column < WIDTH; column++) {
                    if ((column + row) % step == 0) {
                        out.setColor(column, row, now);
                    }
                }
            }
            image = known;
            colour = now;
        }
        return known;
    }
}
