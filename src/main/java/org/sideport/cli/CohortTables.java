package org.sideport.cli;

import java.util.List;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.report.workbook.CohortOverview;
import org.sideport.report.workbook.WorkbookData;

/** The cohort as text or JSON. */
final class CohortTables {

    private CohortTables() {}

    static void print(Console console, WorkbookData data) {
        List<CohortOverview.Row> rows = CohortOverview.of(data);
        if (console.isJson()) {
            console.printJson(Json.object(
                    "cohort",
                    rows.stream()
                            .map(r -> Json.object(
                                    "trainee", r.trainee(),
                                    "cases", r.cases(),
                                    "rubric", r.rubric(),
                                    "assessed", r.assessed(),
                                    "share", r.share(),
                                    "recent_share", r.recentShare(),
                                    "recent", r.recent(),
                                    "cases_with_complication", r.casesWithComplication(),
                                    "operating_median_us",
                                            r.operatingUs() == null ? null : Math.round(r.operatingUs())))
                            .toList()));
            return;
        }
        TextTable table = new TextTable(
                "Trainee",
                ">Cases",
                ">Assessed",
                ">Share, all",
                ">Share, latest (n)",
                ">With any complication",
                ">Operating time, median");
        for (CohortOverview.Row r : rows) {
            Double operating = r.operatingUs();
            table.row(
                    r.trainee(),
                    String.valueOf(r.cases()),
                    String.valueOf(r.assessed()),
                    Words.percent(r.share()),
                    Words.percent(r.recentShare()) + " (" + r.recent() + ")",
                    String.valueOf(r.casesWithComplication()),
                    Words.time(operating == null ? null : (Long) Math.round(operating)));
        }
        console.say("");
        table.print(console::say);
        console.say("Share: of the applicable maximum of the rubric. In the order of the codes: this is no ranking.");
        console.say("Any complication: of every kind; cohort complications counts only the events that it names.");
        console.say("Not adjusted for difficulty; speed is not competence; formative use only.");
    }
}
