package org.sideport.media.text;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.Rectangle;
import java.awt.RenderingHints;
import java.awt.geom.Area;
import java.awt.geom.Ellipse2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.sideport.media.VideoOptions;
import org.sideport.media.VideoWriter;

/** A moving eye under a microscope, a frame a second, with or without writing over it and things that look like it. */
final class DrawnScene {

    static final int WIDTH = 640;
    static final int HEIGHT = 360;
    static final int FRAMES = 16;

    private final Random random;
    private @Nullable String text;
    private int size;
    private int x;
    private int y;
    private Color colour = Color.WHITE;
    private boolean plate;
    private int from;
    private int to = FRAMES;
    private boolean ring;
    private boolean drape;
    private boolean lashes;
    private boolean still;
    private boolean reflections;
    private boolean counter;

    DrawnScene(long seed) {
        random = new Random(seed);
    }

    DrawnScene text(String words, int height, int left, int base) {
        text = words;
        size = height;
        x = left;
        y = base;
        return this;
    }

    DrawnScene colour(Color of, boolean onPlate) {
        colour = of;
        plate = onPlate;
        return this;
    }

    DrawnScene during(int first, int end) {
        from = first;
        to = end;
        return this;
    }

    DrawnScene ring() {
        ring = true;
        return this;
    }

    DrawnScene drape() {
        drape = true;
        return this;
    }

    DrawnScene lashes() {
        lashes = true;
        return this;
    }

    DrawnScene reflections() {
        reflections = true;
        return this;
    }

    DrawnScene still() {
        still = true;
        return this;
    }

    /** A clock that runs beside the writing. */
    DrawnScene counter() {
        counter = true;
        return this;
    }

    /** Where the writing is, by the font's own measure; {@code null} without. */
    @Nullable
    Rectangle place() {
        if (text == null) {
            return null;
        }
        Graphics2D g = new BufferedImage(8, 8, BufferedImage.TYPE_INT_RGB).createGraphics();
        Font font = new Font(Font.SANS_SERIF, Font.PLAIN, size);
        Rectangle bounds =
                font.createGlyphVector(g.getFontRenderContext(), text).getPixelBounds(g.getFontRenderContext(), x, y);
        g.dispose();
        return bounds;
    }

    Path write(Path file) throws IOException {
        VideoOptions options = VideoOptions.silent(WIDTH, HEIGHT, 1, 1, 20);
        try (VideoWriter writer = VideoWriter.open(file, options)) {
            for (int i = 0; i < FRAMES; i++) {
                writer.frame(picture(i), i);
            }
            writer.finish();
        }
        return file;
    }

    private BufferedImage picture(int number) {
        BufferedImage image = new BufferedImage(WIDTH, HEIGHT, BufferedImage.TYPE_INT_RGB);
        Graphics2D g = image.createGraphics();
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        Random moves = still ? new Random(4) : random;
        double dx = moves.nextGaussian() * 12;
        double dy = moves.nextGaussian() * 12;
        g.setColor(new Color(190, 120 + moves.nextInt(20), 100));
        g.fillRect(0, 0, WIDTH, HEIGHT);
        g.setColor(new Color(228, 220, 214));
        g.fill(new Ellipse2D.Double(120 + dx, 30 + dy, 400, 300));
        for (int i = 0; i < 30; i++) {
            // vessels on the white of the eye
            g.setColor(new Color(170, 60, 60));
            double angle = i * 0.21;
            g.draw(new java.awt.geom.QuadCurve2D.Double(
                    320 + dx + 120 * Math.cos(angle),
                    180 + dy + 120 * Math.sin(angle),
                    320 + dx + 150 * Math.cos(angle + 0.1),
                    180 + dy + 140 * Math.sin(angle + 0.1),
                    320 + dx + 190 * Math.cos(angle),
                    180 + dy + 150 * Math.sin(angle)));
        }
        g.setColor(new Color(90, 70, 50));
        g.fill(new Ellipse2D.Double(220 + dx, 80 + dy, 200, 200));
        g.setColor(new Color(150, 50, 30));
        g.fill(new Ellipse2D.Double(265 + dx, 125 + dy, 110, 110));
        g.setColor(Color.LIGHT_GRAY);
        g.setStroke(new BasicStroke(5));
        g.drawLine(640, 300, (int) (330 + 3 * dx), (int) (190 + 3 * dy));
        g.setStroke(new BasicStroke(1));
        if (reflections) {
            // the lamps of the microscope, which stay where they are
            g.setColor(Color.WHITE);
            g.fillOval(300, 150, 14, 9);
            g.fillOval(322, 152, 12, 9);
        }
        if (drape) {
            g.setColor(new Color(40, 90, 130));
            g.fillPolygon(new int[] {0, 640, 640, 0}, new int[] {330, 300, 360, 360}, 4);
            g.setColor(new Color(20, 60, 95));
            g.drawLine(0, 345, 640, 318);
        }
        if (lashes) {
            g.setColor(new Color(30, 20, 15));
            g.setStroke(new BasicStroke(2));
            for (int i = 0; i < 24; i++) {
                g.drawLine(180 + 12 * i, 22, 172 + 13 * i, 2 + i % 3 * 4);
            }
            g.setStroke(new BasicStroke(1));
        }
        if (ring) {
            Area dark = new Area(new Rectangle(0, 0, WIDTH, HEIGHT));
            dark.subtract(new Area(new Ellipse2D.Double(130, -10, 380, 380)));
            g.setColor(Color.BLACK);
            g.fill(dark);
        }
        Rectangle place = place();
        if (text != null && place != null && number >= from && number < to) {
            g.setFont(new Font(Font.SANS_SERIF, Font.PLAIN, size));
            if (plate) {
                g.setColor(Color.BLACK);
                g.fillRect(place.x - 4, place.y - 4, place.width + 8, place.height + 8);
            }
            g.setColor(colour);
            g.drawString(text, x, y);
            if (counter) {
                g.drawString(String.format("%02d", number), place.x + place.width + 10, y);
            }
        }
        g.dispose();
        return image;
    }
}
