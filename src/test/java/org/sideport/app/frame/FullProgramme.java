package org.sideport.app.frame;

import java.time.Clock;
import java.time.Duration;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.sideport.model.Assignment.Purpose;
import org.sideport.model.Hidden;
import org.sideport.model.Rating;
import org.sideport.player.DemoRecordings;
import org.sideport.stats.Outcome;
import org.sideport.store.Workspace;
import org.sideport.timing.CsvTable;
import org.sideport.workflow.CutBasis;
import org.sideport.workflow.CutProposal;
import org.sideport.workflow.Decisions;
import org.sideport.workflow.ImportRecording;
import org.sideport.workflow.LoadRatings;
import org.sideport.workflow.NewCase;
import org.sideport.workflow.StandardRounds;
import org.sideport.workflow.Standards;
import org.sideport.workflow.TagExchange;
import org.sideport.workflow.assign.Assignments;
import org.sideport.workflow.assign.CalibrationSet;

/** The demo's invented cohort with its marks, and of everything that a programme keeps at least one. */
final class FullProgramme {

    private static final String RUBRIC = "phaco-competency";

    private FullProgramme() {}

    static void fill(Workspace workspace) {
        Clock clock = Clock.systemUTC();
        LocalDate today = LocalDate.now(clock);
        ImportRecording cases = new ImportRecording(workspace);
        for (CsvTable.Row row :
                CsvTable.read(DemoRecordings.file("cohort-cases.csv")).rows()) {
            Map<String, String> descriptors = new LinkedHashMap<>(row.cells());
            descriptors.keySet().removeAll(List.of("case", "trainee", "date", "procedure"));
            cases.addCase(
                    new NewCase(
                            row.required("case"),
                            row.required("trainee"),
                            LocalDate.parse(row.required("date")),
                            row.required("procedure"),
                            descriptors),
                    null);
        }
        new LoadRatings(workspace).load(DemoRecordings.file("cohort-ratings.csv"));
        for (String tags : List.of("cohort-phases.csv", "cohort-events.csv")) {
            new TagExchange(workspace).importCsv(DemoRecordings.file(tags), null, false);
        }
        Assignments assignments = new Assignments(workspace, clock);
        // given some days ago, so that they are late by now
        new Assignments(workspace, Clock.offset(clock, Duration.ofDays(-4)))
                .give(
                        List.of("D-101", "D-102"),
                        "A8",
                        new Assignments.Terms(Purpose.FIRST, Hidden.ALL, today.minusDays(3)));
        assignments.give(
                List.of("D-107"), "A9", new Assignments.Terms(Purpose.SECOND, java.util.Set.of(), today.plusDays(9)));
        Standards standards = new Standards(workspace, clock);
        if (standards.propose(RUBRIC, null, new CutBasis.Given(0.7)) instanceof Outcome.Found<CutProposal> found) {
            standards.agree(found.value(), List.of("A1", "A2"), today, "until judges have met");
        }
        new StandardRounds(workspace, clock).open(RUBRIC, List.of("A1", "A2", "A3"), "first round");
        Rating marks =
                workspace.read(stores -> stores.ratings().ofCase("D-110").get(0).rating());
        new CalibrationSet(workspace, clock).setReference("D-110", marks, "A1, A2", "meeting in March");
        new Decisions(workspace, clock)
                .record(
                        Decisions.Question.of("T01", RUBRIC),
                        "Goes on with supervision; looked at again after ten cases.",
                        List.of("A1", "A3"),
                        today,
                        null);
    }
}
