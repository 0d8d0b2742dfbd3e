package org.sideport.chart;

import java.util.List;

/** Charts with every kind of layer. */
final class SampleCharts {

    static final Axis CASES = Axis.of("case number", "", 0, 20, Axis.Scale.LINEAR);
    static final Axis SECONDS = Axis.of("time", "s", 10, 1000, Axis.Scale.LOG);

    private SampleCharts() {}

    static Chart times() {
        return new Chart(
                "times",
                "Rhexis <T01> & others",
                CASES,
                SECONDS,
                List.of(
                        new Layer.Band(
                                "peers", Ink.OTHERS, List.of(new Layer.Range(2, 50, 200), new Layer.Range(18, 30, 90))),
                        new Layer.Level("published \"median\"", Ink.REFERENCE, 24.8),
                        new Layer.Curve("fit", Ink.FIT, List.of(new Layer.At(1, 400), new Layer.At(19, 80))),
                        new Layer.Points(
                                "own",
                                Ink.MAIN,
                                Mark.DISC,
                                List.of(
                                        new Layer.At(1, 500, "D-101"),
                                        new Layer.At(4, 100, "=1+1"),
                                        new Layer.At(16, 31.62277660168379, "D-103")))),
                "n = 3; a source that is long enough to need more than a single line in a small chart, so that it is"
                        + " wrapped",
                "Three cases.");
    }

    static Chart sums() {
        return new Chart(
                "sums",
                "Sums",
                CASES,
                Axis.of("sum", "", -2, 6, Axis.Scale.LINEAR),
                List.of(
                        new Layer.Bars("bars", Ink.OTHERS, 0.8, List.of(new Layer.At(3, 2), new Layer.At(5, 4))),
                        new Layer.Steps(
                                "steps",
                                Ink.MAIN,
                                List.of(new Layer.At(0, 0), new Layer.At(10, 3), new Layer.At(20, 3)))),
                "",
                "Sums go up.");
    }
}
