package org.sideport.report.page;

import org.sideport.chart.Chart;
import org.sideport.chart.ChartFiles;
import org.sideport.chart.Look;
import org.sideport.report.page.FeedbackView.ChartView;

/** Charts as drawings within a page; on paper they are drawn later, by their ids. */
final class ChartViews {

    private static final int WIDTH = 720;
    private static final int HEIGHT = 360;
    private static final double TEXT = 12;

    private ChartViews() {}

    static ChartView of(Chart chart, boolean paper) {
        return new ChartView(
                chart.id(),
                chart.title(),
                chart.sentence(),
                chart.note(),
                paper ? "" : drawing(chart, chart.id(), Look.LIGHT),
                paper ? "" : drawing(chart, chart.id() + "-dark", Look.DARK));
    }

    private static String drawing(Chart chart, String id, Look look) {
        Chart bare = new Chart(id, "", chart.x(), chart.y(), chart.layers(), "", chart.sentence());
        return InlineSvg.of(ChartFiles.svg(bare, WIDTH, HEIGHT, look, TEXT), chart.title());
    }
}
