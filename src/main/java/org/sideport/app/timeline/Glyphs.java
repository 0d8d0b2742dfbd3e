package org.sideport.app.timeline;

import java.util.EnumMap;
import java.util.Map;
import javafx.scene.image.Image;
import javafx.scene.image.PixelWriter;
import javafx.scene.image.WritableImage;
import javafx.scene.paint.Color;
import org.jspecify.annotations.Nullable;

/** The marks of points as small pictures of one colour: a thousand of them are drawn faster than as shapes. */
final class Glyphs {

    /** Pixels, width and height. */
    static final int SIZE = 13;

    private static final int SAMPLES = 5;

    private final Map<Lane.Mark, Image> images = new EnumMap<>(Lane.Mark.class);
    private @Nullable Color colour;

    Image of(Lane.Mark mark, Color now) {
        if (!now.equals(colour)) {
            images.clear();
            colour = now;
        }
        return images.computeIfAbsent(mark, m -> draw(m, now));
    }

    private static Image draw(Lane.Mark mark, Color colour) {
        WritableImage image = new WritableImage(SIZE, SIZE);
        PixelWriter out = image.getPixelWriter();
        for (int y = 0; y < SIZE; y++) {
            for (int x = 0; x < SIZE; x++) {
                int inside = 0;
                for (int s = 0; s < SAMPLES * SAMPLES; s++) {
                    int row = s / SAMPLES;
                    double px = (x + (s % SAMPLES + 0.5) / SAMPLES) / SIZE;
                    double py = (y + (row + 0.5) / SAMPLES) / SIZE;
                    inside += covers(mark, px, py) ? 1 : 0;
                }
                double share = (double) inside / (SAMPLES * SAMPLES);
                out.setColor(
                        x,
                        y,
                        new Color(colour.getRed(), colour.getGreen(), colour.getBlue(), colour.getOpacity() * share));
            }
        }
        return image;
    }

    /** Whether a mark covers a place in the unit square, y downwards; each has its moment at x = 0.5. */
    private static boolean covers(Lane.Mark mark, double x, double y) {
        return switch (mark) {
            case COMPLICATION -> Math.abs(x - 0.5) + Math.abs(y - 0.5) <= 0.48;
            case MOMENT -> y <= 0.55 ? x >= 0.12 && x <= 0.88 && y >= 0.04 : Math.abs(x - 0.5) <= (0.98 - y) * 0.9;
            case COMMENT -> {
                boolean bubble = y >= 0.1 && y <= 0.66 && x >= 0.04 && x <= 0.96;
                boolean tail = y > 0.66 && y <= 0.95 && x >= 0.36 && x <= 0.36 + (0.95 - y);
                yield bubble || tail;
            }
        };
    }
}
