package org.sideport.cli.assign;

import java.util.List;
import org.sideport.cli.console.Console;

/** The commands of {@code assign}, {@code adjudicate} and {@code calibrate}, and two of {@code rate}. */
public final class AssignCommands {

    private AssignCommands() {}

    public static List<Object> assign(Console console) {
        return List.of(
                new AssignAddCommand(console),
                new AssignDrawCommand(console),
                new AssignListCommand(console),
                new AssignMineCommand(console),
                new AssignWithdrawCommand(console),
                new AssignRulesCommand(console));
    }

    public static List<Object> rate(Console console) {
        return List.of(new RateGapCommand(console), new RateCalibrationCommand(console));
    }

    public static List<Object> adjudicate(Console console) {
        return List.of(
                new AdjudicateListCommand(console),
                new AdjudicateStandCommand(console),
                new AdjudicateAgreeCommand(console));
    }

    public static List<Object> calibrate(Console console) {
        return List.of(new CalibrateReferenceCommand(console), new CalibrateReportCommand(console));
    }
}
