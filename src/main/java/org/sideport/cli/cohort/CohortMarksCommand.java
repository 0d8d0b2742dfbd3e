package org.sideport.cli.cohort;

import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Day;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.model.MediaTime;
import org.sideport.model.Plural;
import org.sideport.store.Workspace;
import org.sideport.workflow.CellMarks;
import org.sideport.workflow.FollowCohort;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
        name = "marks",
        sortOptions = false,
        description = {
            "The signed marks behind a cell of cohort show: of one trainee, of a domain, an item or all, the latest"
                    + " case",
            "first, with the moments of the recording that they rest on.",
            "Example: sideport cohort marks --trainee T01 --competency capsule --json"
        })
final class CohortMarksCommand implements Callable<Integer> {

    private final Console console;

    @Option(
            names = "--rubric",
            paramLabel = "R",
            defaultValue = "",
            description = "Id of the rubric; by default the one with most signed marks.")
    String rubric = "";

    @Option(names = "--rubric-version", paramLabel = "V", description = "By default the one in use now.")
    @Nullable
    String version;

    @Option(names = "--trainee", paramLabel = "T", required = true, description = "Code of the trainee.")
    String trainee = "";

    @Option(names = "--competency", paramLabel = "ID", description = "A domain or an item; by default all.")
    @Nullable
    String competency;

    CohortMarksCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        try (Workspace workspace = console.open()) {
            CellMarks cell = new FollowCohort(workspace, Day.clock()).marks(rubric, version, trainee, competency);
            if (console.isJson()) {
                console.printJson(Json.object(
                        "rubric",
                        cell.rubric().id(),
                        "rubric_version",
                        cell.rubric().version(),
                        "trainee",
                        trainee,
                        "competency",
                        competency,
                        "marks",
                        cell.marks().stream().map(CohortMarksCommand::json).toList(),
                        "withheld",
                        cell.withheld()));
            } else {
                TextTable table = new TextTable("case", "date", "assessor", ">share %", "points");
                cell.marks()
                        .forEach(m -> table.row(
                                m.caseCode(),
                                m.date().toString(),
                                m.assessor(),
                                String.format(java.util.Locale.ROOT, "%.1f", 100 * m.share()),
                                String.join(
                                        ", ",
                                        m.items().stream()
                                                .map(i -> i.item() + " " + (i.points() == null ? "–" : i.points()))
                                                .toList())));
                table.print(console::say);
                if (cell.withheld() > 0) {
                    console.say(Plural.of(cell.withheld(), "mark") + " not listed: of cases that you have still to mark"
                            + " yourself.");
                }
            }
        }
        return 0;
    }

    private static Object json(CellMarks.OneMark mark) {
        List<Object> items = new java.util.ArrayList<>();
        for (CellMarks.OneItem item : mark.items()) {
            items.add(Json.object(
                    "item", item.item(),
                    "points", item.points(),
                    "most", item.most(),
                    "comment", item.comment(),
                    "moments_us", item.moments().stream().map(MediaTime::micros).toList()));
        }
        return Json.object(
                "case", mark.caseCode(),
                "date", mark.date().toString(),
                "assessor", mark.assessor(),
                "blind", mark.blind(),
                "share", mark.share(),
                "items", items);
    }
}
