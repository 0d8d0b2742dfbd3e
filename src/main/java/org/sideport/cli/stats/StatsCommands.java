package org.sideport.cli.stats;

import java.util.List;
import org.sideport.cli.console.Console;

/** The commands under {@code sideport stats}. */
public final class StatsCommands {

    private StatsCommands() {}

    /** Command objects in the order of the help page. */
    /** Of a workspace's own marks, for the group {@code cohort}. */
    public static Object severityOfCohort(Console console) {
        return new CohortSeverityCommand(console);
    }

    public static List<Object> all(Console console) {
        return List.of(
                new IccCommand(console),
                new KappaCommand(console),
                new KrippendorffCommand(console),
                new CronbachCommand(console),
                new BlandAltmanCommand(console),
                new GStudyCommand(console),
                new DStudyCommand(console),
                new SeverityCommand(console),
                new CurveCommand(console),
                new MixedCommand(console),
                new CusumCommand(console),
                new ChartCommand(console),
                new ArlCommand(console),
                new CaseMixCommand(console),
                new CutScoreCommand(console),
                new SegmentsCommand(console),
                new QuantilesCommand(console),
                new CircleCommand(console),
                new EllipseCommand(console));
    }
}
