package org.sideport.chart;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Shape;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import org.jfree.chart.LegendItem;
import org.jfree.chart.LegendItemCollection;
import org.jfree.chart.labels.ItemLabelAnchor;
import org.jfree.chart.labels.ItemLabelPosition;
import org.jfree.chart.renderer.xy.DeviationRenderer;
import org.jfree.chart.renderer.xy.StandardXYBarPainter;
import org.jfree.chart.renderer.xy.XYBarRenderer;
import org.jfree.chart.renderer.xy.XYErrorRenderer;
import org.jfree.chart.renderer.xy.XYItemRenderer;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.renderer.xy.XYStepRenderer;
import org.jfree.chart.ui.TextAnchor;
import org.jfree.chart.util.ShapeUtils;
import org.jfree.data.xy.XYBarDataset;
import org.jfree.data.xy.XYIntervalSeries;
import org.jfree.data.xy.XYIntervalSeriesCollection;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;
import org.jfree.data.xy.YIntervalSeries;
import org.jfree.data.xy.YIntervalSeriesCollection;

/** Layers in the words of the library. */
final class LayerParts {

    private static final int TRANSPARENT = 0x22000000;
    /** From more points on they are drawn smaller, so that a curve among them can be seen. */
    private static final int MANY = 80;

    private static final float CROWDED = 0.55f;
    private static final float SMALL = 0.85f;
    private static final int MOST_NAMES = 4;
    /** Names together are no longer than so many letters, but for a single one. */
    private static final int MOST_LETTERS = 18;
    /** Marks of one height nearer than this share of the largest abscissa have no room for a name between them. */
    private static final double CLOSE = 0.2;

    private static final BasicStroke NONE = new BasicStroke(0);

    private final Look look;
    private final float size;
    private final float mark;

    LayerParts(Look look, float size) {
        this.look = look;
        this.size = size;
        this.mark = size * 0.33f;
    }

    List<LayeredPlot.Part> of(Layer layer, Axis x, Axis y) {
        if (layer instanceof Layer.Band band) {
            return List.of(filled(band), edges(band));
        }
        if (layer instanceof Layer.Whiskers whiskers) {
            return List.of(whiskers(whiskers));
        }
        if (layer instanceof Layer.Level level) {
            return List.of(part(
                    layer.name(),
                    List.of(new Layer.At(x.low(), level.y()), new Layer.At(x.high(), level.y())),
                    line(layer)));
        }
        if (layer instanceof Layer.Bars bars) {
            XYBarRenderer renderer = new XYBarRenderer();
            renderer.setBarPainter(new StandardXYBarPainter());
            renderer.setShadowVisible(false);
            renderer.setDrawBarOutline(true);
            renderer.setBase(Math.min(Math.max(0, y.low()), y.high()));
            renderer.setSeriesPaint(0, color(layer.ink()));
            renderer.setSeriesOutlinePaint(0, new Color(look.text()));
            return List.of(
                    new LayeredPlot.Part(new XYBarDataset(series(bars.name(), bars.at()), bars.width()), renderer));
        }
        if (layer instanceof Layer.Boxes boxes) {
            return List.of(boxes(boxes));
        }
        if (layer instanceof Layer.Points points) {
            return List.of(part(points.name(), points.at(), marks(points)));
        }
        if (layer instanceof Layer.Steps) {
            XYStepRenderer renderer = new XYStepRenderer();
            renderer.setSeriesPaint(0, color(layer.ink()));
            renderer.setSeriesStroke(0, stroke(layer));
            return List.of(part(layer.name(), Places.of(layer), renderer));
        }
        return List.of(part(layer.name(), Places.of(layer), line(layer)));
    }

    LegendItemCollection legend(List<Layer> layers) {
        LegendItemCollection all = new LegendItemCollection();
        for (Layer layer : layers) {
            Layer.Points points = layer instanceof Layer.Points p ? p : null;
            boolean strip = layer instanceof Layer.Band || layer instanceof Layer.Boxes;
            boolean box = strip || layer instanceof Layer.Bars;
            Color color = color(layer.ink());
            all.add(new LegendItem(
                    ChartRenderer.printable(layer.name()),
                    null,
                    null,
                    null,
                    box || points != null,
                    points == null
                            ? new Rectangle2D.Double(-size / 2, -size / 3, size, size * 2 / 3)
                            : shape(points.mark(), mark),
                    points == null || isFilled(points.mark()),
                    strip ? seeThrough(layer.ink()) : color,
                    true,
                    color,
                    stroke(List.of(), 1.2f),
                    !box && points == null,
                    new Line2D.Double(-size, 0, size, 0),
                    box || points != null ? NONE : stroke(layer),
                    color));
        }
        return all;
    }

    private LayeredPlot.Part part(String name, List<Layer.At> at, XYItemRenderer renderer) {
        return new LayeredPlot.Part(series(name, at), renderer);
    }

    private static XYSeriesCollection series(String name, List<Layer.At> at) {
        XYSeries series = new XYSeries(name, false, true);
        at.forEach(one -> series.add(one.x(), one.y()));
        XYSeriesCollection all = new XYSeriesCollection();
        all.addSeries(series);
        return all;
    }

    private XYLineAndShapeRenderer line(Layer layer) {
        XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(true, false);
        renderer.setDrawSeriesLineAsPath(true);
        renderer.setSeriesPaint(0, color(layer.ink()));
        renderer.setSeriesStroke(0, stroke(layer));
        return renderer;
    }

    private XYLineAndShapeRenderer marks(Layer.Points points) {
        boolean named = points.named() && points.at().size() <= MANY;
        XYLineAndShapeRenderer renderer = named ? new Named(points.at()) : new XYLineAndShapeRenderer(false, true);
        renderer.setSeriesShape(0, shape(points.mark(), points.at().size() > MANY ? mark * CROWDED : mark));
        renderer.setSeriesShapesFilled(0, isFilled(points.mark()));
        renderer.setDrawOutlines(true);
        renderer.setSeriesPaint(0, color(points.ink()));
        renderer.setSeriesOutlineStroke(0, stroke(List.of(), 1.2f));
        if (named) {
            List<String> labels = labels(points.at());
            renderer.setSeriesItemLabelGenerator(0, (data, series, item) -> ChartRenderer.printable(labels.get(item)));
            renderer.setSeriesItemLabelFont(
                    0, new java.awt.Font(java.awt.Font.SANS_SERIF, java.awt.Font.PLAIN, 1).deriveFont(size * SMALL));
            renderer.setSeriesItemLabelPaint(0, new Color(look.text()));
            renderer.setSeriesItemLabelsVisible(0, true);
        }
        return renderer;
    }

    /** Names stand on the right of their marks, and above those that have another mark close by on the right. */
    private static final class Named extends XYLineAndShapeRenderer {
        private static final long serialVersionUID = 1;
        private static final ItemLabelPosition RIGHT =
                new ItemLabelPosition(ItemLabelAnchor.OUTSIDE3, TextAnchor.CENTER_LEFT);
        private static final ItemLabelPosition ABOVE =
                new ItemLabelPosition(ItemLabelAnchor.OUTSIDE12, TextAnchor.BOTTOM_RIGHT);
        private final transient List<Layer.At> at;
        private final double near;

        Named(List<Layer.At> at) {
            super(false, true);
            this.at = at;
            this.near = CLOSE * at.stream().mapToDouble(Layer.At::x).max().orElse(0);
        }

        @Override
        public ItemLabelPosition getPositiveItemLabelPosition(int row, int column) {
            Layer.At one = at.get(column);
            return at.stream().anyMatch(o -> o.x() > one.x() && o.x() - one.x() < near && o.y() == one.y())
                    ? ABOVE
                    : RIGHT;
        }
    }

    /** Of marks at one place the first carries the names of all, or of some and how many more. */
    private static List<String> labels(List<Layer.At> at) {
        List<String> labels = new ArrayList<>();
        for (int i = 0; i < at.size(); i++) {
            Layer.At one = at.get(i);
            List<String> same = at.stream()
                    .filter(o -> o.x() == one.x() && o.y() == one.y())
                    .map(Layer.At::label)
                    .toList();
            boolean first = at.stream().limit(i).noneMatch(o -> o.x() == one.x() && o.y() == one.y());
            int shown = shown(same);
            String more = same.size() > shown ? " +" + (same.size() - shown) : "";
            labels.add(first ? " " + String.join(", ", same.subList(0, shown)) + more : "");
        }
        return labels;
    }

    private static int shown(List<String> names) {
        int count = 1;
        int letters = names.get(0).length();
        while (count < Math.min(MOST_NAMES, names.size())
                && letters + names.get(count).length() <= MOST_LETTERS) {
            letters += names.get(count++).length();
        }
        return count;
    }

    private LayeredPlot.Part whiskers(Layer.Whiskers whiskers) {
        YIntervalSeries series = new YIntervalSeries(whiskers.name(), false, true);
        for (Layer.Stretch one : whiskers.at()) {
            series.add(one.x(), one.low(), one.low(), one.high());
        }
        YIntervalSeriesCollection data = new YIntervalSeriesCollection();
        data.addSeries(series);
        XYErrorRenderer renderer = new XYErrorRenderer();
        renderer.setDrawXError(false);
        renderer.setDefaultShapesVisible(false);
        renderer.setErrorPaint(color(whiskers.ink()));
        renderer.setErrorStroke(stroke(whiskers));
        renderer.setCapLength(size * SMALL);
        return new LayeredPlot.Part(data, renderer);
    }

    private LayeredPlot.Part filled(Layer.Band band) {
        YIntervalSeries series = new YIntervalSeries(band.name(), false, true);
        for (Layer.Range range : band.ranges()) {
            series.add(range.x(), range.low(), range.low(), range.high());
        }
        YIntervalSeriesCollection data = new YIntervalSeriesCollection();
        data.addSeries(series);
        DeviationRenderer renderer = new DeviationRenderer(false, false);
        renderer.setAlpha((TRANSPARENT >>> 24) / 255f);
        renderer.setSeriesFillPaint(0, color(band.ink()));
        return new LayeredPlot.Part(data, renderer);
    }

    private LayeredPlot.Part boxes(Layer.Boxes boxes) {
        XYIntervalSeries series = new XYIntervalSeries(boxes.name(), false, true);
        double half = boxes.width() / 2;
        for (Layer.Range range : boxes.ranges()) {
            series.add(range.x(), range.x() - half, range.x() + half, range.low(), range.low(), range.high());
        }
        XYIntervalSeriesCollection data = new XYIntervalSeriesCollection();
        data.addSeries(series);
        XYBarRenderer renderer = new XYBarRenderer();
        renderer.setUseYInterval(true);
        renderer.setBarPainter(new StandardXYBarPainter());
        renderer.setShadowVisible(false);
        renderer.setDrawBarOutline(true);
        renderer.setSeriesPaint(0, seeThrough(boxes.ink()));
        renderer.setSeriesOutlinePaint(0, color(boxes.ink()));
        renderer.setSeriesOutlineStroke(0, stroke(boxes.ink().dash(), 1));
        return new LayeredPlot.Part(data, renderer);
    }

    private LayeredPlot.Part edges(Layer.Band band) {
        XYSeriesCollection data = new XYSeriesCollection();
        XYSeries low = new XYSeries("low", false, true);
        XYSeries high = new XYSeries("high", false, true);
        for (Layer.Range range : band.ranges()) {
            low.add(range.x(), range.low());
            high.add(range.x(), range.high());
        }
        data.addSeries(low);
        data.addSeries(high);
        XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(true, false);
        renderer.setDrawSeriesLineAsPath(true);
        for (int i = 0; i < 2; i++) {
            renderer.setSeriesPaint(i, color(band.ink()));
            renderer.setSeriesStroke(i, stroke(band.ink().dash(), 1));
        }
        return new LayeredPlot.Part(data, renderer);
    }

    private BasicStroke stroke(Layer layer) {
        return stroke(layer.ink().dash(), layer.ink() == Ink.FIT ? 2.2f : 1.6f);
    }

    private BasicStroke stroke(List<Float> dash, float width) {
        return ChartRenderer.stroke(dash, width, size);
    }

    private Color color(Ink ink) {
        return new Color(ink.rgb(look));
    }

    private Color seeThrough(Ink ink) {
        return new Color(ink.rgb(look) | TRANSPARENT, true);
    }

    private static boolean isFilled(Mark mark) {
        return mark != Mark.RING && mark != Mark.CROSS;
    }

    /** Round the place of the value. */
    private static Shape shape(Mark shape, float mark) {
        return switch (shape) {
            case DISC, RING -> new Ellipse2D.Double(-mark, -mark, 2 * mark, 2 * mark);
            case TRIANGLE -> ShapeUtils.createUpTriangle(mark * 1.2f);
            case SQUARE -> new Rectangle2D.Double(-mark, -mark, 2 * mark, 2 * mark);
            case DIAMOND -> ShapeUtils.createDiamond(mark * 1.3f);
            case CROSS -> ShapeUtils.createDiagonalCross(mark, 0.6f);
        };
    }
}
