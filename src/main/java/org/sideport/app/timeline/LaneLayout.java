package org.sideport.app.timeline;

import java.util.List;

/** Where each lane lies, from the top of the first; pixels. Immutable. */
final class LaneLayout {

    static final double GAP = 3;
    private static final double POINTS = 18;
    /** Height of a row of a band, as a share of one of spans. */
    static final double BAND = 0.9;

    private static final double CURVE = 24;
    private static final double PICTURES = 40;

    private final double[] tops;
    private final double[] heights;
    private final double rowHeight;
    private final double total;

    /**
     * @param rows how many rows of stacked spans each lane has
     * @param rowHeight of one row of spans
     */
    LaneLayout(List<Lane> lanes, int[] rows, double rowHeight) {
        this.rowHeight = rowHeight;
        tops = new double[lanes.size()];
        heights = new double[lanes.size()];
        double y = 0;
        for (int i = 0; i < tops.length; i++) {
            tops[i] = y;
            heights[i] = height(lanes.get(i), rows[i]);
            y += heights[i] + GAP;
        }
        total = y;
    }

    private double height(Lane lane, int rows) {
        if (lane instanceof Lane.Spans) {
            return rows * rowHeight;
        }
        if (lane instanceof Lane.Points) {
            return POINTS;
        }
        if (lane instanceof Lane.Curve) {
            return CURVE;
        }
        return lane instanceof Lane.Pictures ? PICTURES : rows * rowHeight * BAND;
    }

    int size() {
        return tops.length;
    }

    double top(int lane) {
        return tops[lane];
    }

    double height(int lane) {
        return heights[lane];
    }

    double rowHeight() {
        return rowHeight;
    }

    double total() {
        return total;
    }

    /** The lane at a height, the space below it included; -1 where there is none. */
    int laneAt(double y) {
        for (int i = 0; i < tops.length; i++) {
            if (y >= tops[i] && y < tops[i] + heights[i] + GAP) {
                return i;
            }
        }
        return -1;
    }

    /** The row of a lane of spans at a height. */
    int rowAt(int lane, double y) {
        int rows = Math.max(1, (int) Math.round(heights[lane] / rowHeight));
        return Math.max(0, Math.min(rows - 1, (int) ((y - tops[lane]) / rowHeight)));
    }
}
