package org.sideport.chart;

import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import javax.imageio.ImageIO;
import org.jfree.svg.SVGGraphics2D;

/** A chart as a picture, a drawing or its data. All in memory; nothing here writes a file. */
public final class ChartFiles {

    private ChartFiles() {}

    /**
     * The chart as pixels, for a screen.
     *
     * @param width in units of layout
     * @param height likewise
     * @param scale pixels for each unit: 2 where the screen is twice as fine
     * @return without transparency
     */
    public static BufferedImage picture(Chart chart, int width, int height, double scale, Look look, double textSize) {
        BufferedImage picture = new BufferedImage(
                Math.max(1, (int) Math.round(width * scale)),
                Math.max(1, (int) Math.round(height * scale)),
                BufferedImage.TYPE_INT_RGB);
        Graphics2D on = picture.createGraphics();
        try {
            on.scale(scale, scale);
            ChartRenderer.draw(chart, on, width, height, look, textSize);
        } finally {
            on.dispose();
        }
        return picture;
    }

    /** As {@link #picture}, as a PNG file. */
    public static byte[] png(Chart chart, int width, int height, double scale, Look look, double textSize) {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try {
            ImageIO.write(picture(chart, width, height, scale, look, textSize), "png", bytes);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return bytes.toByteArray();
    }

    /**
     * The chart as an SVG file with its sentence as the accessible text. Points, lines and bars of a layer stand in groups
     * {@code layer-0}, {@code layer-1} … in the order of the layers.
     */
    public static String svg(Chart chart, int width, int height, Look look, double textSize) {
        SVGGraphics2D on = new SVGGraphics2D(width, height);
        on.setDefsKeyPrefix(chart.id());
        ChartRenderer.draw(chart, on, width, height, look, textSize);
        return SvgText.described(on.getSVGElement(), chart);
    }

    /** The data of the chart as CSV, see {@link ChartCsv}. */
    public static String csv(Chart chart) {
        return ChartCsv.of(chart);
    }
}
