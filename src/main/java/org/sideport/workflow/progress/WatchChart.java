package org.sideport.workflow.progress;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.sideport.chart.Axis;
import org.sideport.chart.Chart;
import org.sideport.chart.Ink;
import org.sideport.chart.Layer;
import org.sideport.chart.Mark;
import org.sideport.model.Procedure;
import org.sideport.stats.monitoring.ChartPoint;
import org.sideport.workflow.ProgressView.Monitoring;
import org.sideport.workflow.ProgressView.OneCase;

/** Complications of one trainee, case by case. */
final class WatchChart {

    private WatchChart() {}

    static Chart of(
            ProgressWords words,
            String id,
            String title,
            Procedure procedure,
            List<OneCase> cases,
            Monitoring monitoring,
            String sentence) {
        List<ChartPoint> points = monitoring.chart().points();
        List<Layer> layers = new ArrayList<>();
        layers.add(new Layer.Curve(
                words.get("layer.limit"),
                Ink.FIT,
                points.stream()
                        .filter(p -> p.upper() != null)
                        .map(p -> new Layer.At(p.caseNumber(), upper(p)))
                        .toList()));
        List<Layer.At> sums = new ArrayList<>();
        sums.add(new Layer.At(points.get(0).caseNumber() - 1.0, 0));
        points.forEach(p -> sums.add(new Layer.At(p.caseNumber(), p.statistic())));
        layers.add(new Layer.Steps(words.get("layer.sum"), Ink.MAIN, sums));
        List<Layer.At> failures = points.stream()
                .filter(p -> p.observed() > 0)
                .map(p -> new Layer.At(
                        p.caseNumber(),
                        p.statistic(),
                        cases.get((int) p.caseNumber() - 1).code()))
                .toList();
        if (!failures.isEmpty()) {
            layers.add(new Layer.Points(words.get("layer.failure"), Ink.MAIN, Mark.CROSS, failures));
        }
        double top = points.stream()
                .mapToDouble(p -> Math.max(p.statistic(), upper(p)))
                .max()
                .orElse(1);
        return new Chart(
                id,
                title,
                Axis.of(words.get("axis.case"), "", 0, Math.max(1, cases.size()) + 1.0, Axis.Scale.LINEAR),
                Axis.of(words.get("axis.evidence"), "", 0, 1.15 * top, Axis.Scale.LINEAR),
                layers,
                words.get(
                        "watch.note",
                        monitoring.kinds().stream()
                                .map(kind -> procedure
                                        .findEvent(kind)
                                        .map(e -> e.name())
                                        .orElse(kind))
                                .collect(Collectors.joining(", ")),
                        words.percent(monitoring.design().pa()),
                        words.percent(monitoring.design().pi()),
                        words.plain(monitoring.design().h()),
                        monitoring.design().fewestCases(),
                        monitoring.within(),
                        words.percent(monitoring.adequate()),
                        words.percent(monitoring.inadequate())),
                sentence);
    }

    private static double upper(ChartPoint point) {
        Double upper = point.upper();
        return upper == null ? 0 : upper;
    }
}
