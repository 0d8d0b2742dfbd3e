package org.sideport.cli.standard;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.model.InputException;
import org.sideport.store.Workspace;
import org.sideport.timing.CsvTable;
import org.sideport.workflow.StandardRounds;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "judge",
        description = {
            "Keeps a judge's points: what a person who only just passes would get for each item. Points given before",
            "stay unless they are given anew. Other judges' points stay hidden until the round is closed.",
            "Example: sideport standard round judge --round phaco-competency --judge A1 --item side_port=3",
            "Example: sideport standard round judge --round phaco-competency --judge A1 POINTS.csv    (item,points)"
        })
final class RoundJudgeCommand implements Callable<Integer> {

    private final Console console;

    @Option(
            names = "--round",
            paramLabel = "R",
            required = true,
            description = "The rubric's id, for its newest round, or a round's id.")
    String round;

    @Option(names = "--judge", paramLabel = "A", required = true, description = "Code of the judge.")
    String judge;

    @Option(
            names = "--item",
            paramLabel = "ITEM=POINTS",
            split = ",",
            hideParamSyntax = true,
            description = "Points of an item; fractions are for \"some would get one more\". May be repeated.")
    Map<String, Double> items = new LinkedHashMap<>();

    @Parameters(paramLabel = "POINTS.csv", arity = "0..1", description = "Columns item and points.")
    @Nullable
    Path file;

    RoundJudgeCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        Map<String, Double> given = new LinkedHashMap<>();
        if (file != null) {
            read(file, given);
        }
        given.putAll(items);
        if (given.isEmpty()) {
            throw new InputException("no points are given", null, "write --item ITEM=POINTS, or name a file");
        }
        try (Workspace workspace = console.open()) {
            StandardRounds rounds = new StandardRounds(workspace, Day.clock());
            Map<String, Double> points =
                    new LinkedHashMap<>(rounds.sheet(round, judge).points());
            points.putAll(given);
            StandardRounds.Sheet sheet = rounds.judge(round, judge, points);
            if (console.isJson()) {
                console.printJson(RoundViews.json(sheet));
            } else {
                RoundViews.print(sheet, console);
            }
        }
        return 0;
    }

    private static void read(Path file, Map<String, Double> points) {
        for (CsvTable.Row row : CsvTable.read(file).rows()) {
            String item = row.required("item");
            String text = row.required("points");
            try {
                double value = Double.parseDouble(text);
                if (points.put(item, value) != null) {
                    throw row.fault("item " + item + " stands here a second time", "keep one of the rows");
                }
            } catch (NumberFormatException e) {
                throw row.fault("\"" + text + "\" is no number", "write for instance 3 or 2.5");
            }
        }
    }
}
