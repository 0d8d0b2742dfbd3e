package org.sideport.chart;

import java.util.List;

/** The single places of layers that have some. */
final class Places {

    private Places() {}

    static List<Layer.At> of(Layer layer) {
        if (layer instanceof Layer.Points points) {
            return points.at();
        }
        if (layer instanceof Layer.Curve curve) {
            return curve.at();
        }
        if (layer instanceof Layer.Steps steps) {
            return steps.at();
        }
        return layer instanceof Layer.Bars bars ? bars.at() : List.of();
    }
}
