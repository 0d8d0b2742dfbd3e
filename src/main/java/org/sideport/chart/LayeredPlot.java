package org.sideport.chart;

import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import org.jfree.chart.axis.ValueAxis;
import org.jfree.chart.plot.CrosshairState;
import org.jfree.chart.plot.PlotRenderingInfo;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYItemRenderer;
import org.jfree.data.xy.XYDataset;
import org.jfree.svg.SVGGraphics2D;
import org.jfree.svg.SVGHints;
import org.jspecify.annotations.Nullable;

/** A plot in whose drawings each layer is a group that can be found again. */
final class LayeredPlot extends XYPlot {

    private static final long serialVersionUID = 1;

    /** What the library draws of a layer in one go. */
    record Part(XYDataset data, XYItemRenderer renderer) {}

    private final transient List<String> groups = new ArrayList<>();

    LayeredPlot(ValueAxis x, ValueAxis y) {
        super(null, x, y, null);
    }

    void add(int layer, List<Part> parts) {
        for (int i = 0; i < parts.size(); i++) {
            int index = groups.size();
            groups.add("layer-" + layer + (i == 0 ? "" : "-" + i));
            setDataset(index, parts.get(i).data());
            setRenderer(index, parts.get(i).renderer());
        }
    }

    @Override
    public boolean render(
            Graphics2D on,
            Rectangle2D area,
            int index,
            @Nullable PlotRenderingInfo info,
            @Nullable CrosshairState crosshair) {
        if (!(on instanceof SVGGraphics2D)) {
            return super.render(on, area, index, info, crosshair);
        }
        on.setRenderingHint(SVGHints.KEY_BEGIN_GROUP, groups.get(index));
        boolean found = super.render(on, area, index, info, crosshair);
        on.setRenderingHint(SVGHints.KEY_END_GROUP, groups.get(index));
        return found;
    }
}
