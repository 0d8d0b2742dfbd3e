package org.sideport.chart;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Rectangle2D;
import java.util.List;
import org.jfree.chart.ChartRenderingInfo;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.axis.ValueAxis;
import org.jfree.chart.block.BlockBorder;
import org.jfree.chart.plot.DatasetRenderingOrder;
import org.jfree.chart.plot.SeriesRenderingOrder;
import org.jfree.chart.title.LegendTitle;
import org.jfree.chart.title.TextTitle;
import org.jfree.chart.ui.HorizontalAlignment;
import org.jfree.chart.ui.RectangleEdge;
import org.jfree.chart.ui.RectangleInsets;

/** Draws charts, all alike, onto whatever takes Java's two-dimensional graphics. */
public final class ChartRenderer {

    private static final double TITLE = 1.15;
    private static final double SMALL = 0.85;

    private ChartRenderer() {}

    /**
     * @param on a picture, a drawing, a page
     * @param width in units of {@code on}
     * @param height likewise
     * @param textSize of ticks and legend, in the same units
     * @return where values lie: its left edge is the low end of the x axis, its lower edge the low end of the y axis
     */
    public static Rectangle2D draw(
            Chart chart, Graphics2D on, double width, double height, Look look, double textSize) {
        on.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        on.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        on.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
        ChartRenderingInfo info = new ChartRenderingInfo();
        made(chart, look, (float) textSize).draw(on, new Rectangle2D.Double(0, 0, width, height), info);
        return info.getPlotInfo().getDataArea();
    }

    private static JFreeChart made(Chart chart, Look look, float size) {
        Font font = new Font(Font.SANS_SERIF, Font.PLAIN, 1).deriveFont(size);
        Color text = new Color(look.text());
        Color grid = new Color(look.grid());
        LayeredPlot plot = new LayeredPlot(axis(chart.x(), font, text), axis(chart.y(), font, text));
        plot.setDatasetRenderingOrder(DatasetRenderingOrder.FORWARD);
        plot.setSeriesRenderingOrder(SeriesRenderingOrder.FORWARD);
        plot.setBackgroundPaint(null);
        plot.setOutlinePaint(grid);
        plot.setAxisOffset(RectangleInsets.ZERO_INSETS);
        plot.setDomainGridlinePaint(grid);
        plot.setRangeGridlinePaint(grid);
        plot.setDomainGridlineStroke(new BasicStroke(0.5f));
        plot.setRangeGridlineStroke(new BasicStroke(0.5f));
        LayerParts parts = new LayerParts(look, size);
        for (int i = 0; i < chart.layers().size(); i++) {
            plot.add(i, parts.of(chart.layers().get(i), chart.x(), chart.y()));
        }
        plot.setFixedLegendItems(parts.legend(chart.layers()));

        JFreeChart made = new JFreeChart(null, font, plot, false);
        made.setBackgroundPaint(new Color(look.background()));
        made.setPadding(new RectangleInsets(size / 2, size / 2, size / 2, size));
        if (!chart.title().isEmpty()) {
            made.setTitle(title(chart.title(), font.deriveFont(Font.BOLD, (float) (size * TITLE)), text));
        }
        if (!chart.note().isEmpty()) {
            TextTitle note = title(chart.note(), font.deriveFont((float) (size * SMALL)), text);
            note.setPosition(RectangleEdge.BOTTOM);
            made.addSubtitle(note);
        }
        if (chart.layers().size() > 1) {
            LegendTitle legend = new LegendTitle(plot);
            legend.setPosition(RectangleEdge.BOTTOM);
            legend.setHorizontalAlignment(HorizontalAlignment.LEFT);
            legend.setItemFont(font);
            legend.setItemPaint(text);
            // entries apart, and each line sample apart from its words
            legend.setLegendItemGraphicPadding(new RectangleInsets(2, size, 2, size / 3));
            legend.setBackgroundPaint(null);
            legend.setFrame(BlockBorder.NONE);
            made.addSubtitle(legend);
        }
        return made;
    }

    private static ValueAxis axis(Axis axis, Font font, Color text) {
        ValueAxis made = TickedAxes.of(axis);
        made.setLabel(printable(axis.title()));
        made.setLabelFont(font);
        made.setLabelPaint(text);
        made.setTickLabelFont(font);
        made.setTickLabelPaint(text);
        made.setAxisLinePaint(text);
        made.setTickMarkPaint(text);
        return made;
    }

    private static TextTitle title(String words, Font font, Color paint) {
        TextTitle title = new TextTitle(printable(words), font);
        title.setPaint(paint);
        title.setHorizontalAlignment(HorizontalAlignment.LEFT);
        title.setTextAlignment(HorizontalAlignment.LEFT);
        title.setPosition(RectangleEdge.TOP);
        return title;
    }

    /** Without what XML cannot hold (XML 1.0, section 2.2), which a drawing would then be no more. */
    static String printable(String words) {
        return words.codePoints()
                .map(c -> c == '\n' || (c >= 0x20 && c < 0xD800) || (c > 0xDFFF && c < 0xFFFE) || c > 0xFFFF ? c : ' ')
                .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
                .toString();
    }

    /** A stroke of an ink, in hairs of about a pixel at letters of 12. */
    static BasicStroke stroke(List<Float> dash, float width, float size) {
        float hair = size / 12;
        if (dash.isEmpty()) {
            return new BasicStroke(width * hair, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND);
        }
        float[] lengths = new float[dash.size()];
        for (int i = 0; i < lengths.length; i++) {
            lengths[i] = dash.get(i) * hair;
        }
        return new BasicStroke(width * hair, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 10, lengths, 0);
    }
}
