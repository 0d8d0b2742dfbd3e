package org.sideport.cli.standard;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.LeftOutCases;
import org.sideport.cli.console.TextTable;
import org.sideport.model.Plural;
import org.sideport.model.Rubric;
import org.sideport.stats.Outcome;
import org.sideport.workflow.CohortView;
import org.sideport.workflow.DecisionFigures;

/** A cohort as people and machines read it. */
final class CohortViews {

    private static final String CAUTION = "Formative. Small numbers mislead: read each mean with its n and the mix of"
            + " cases behind it. A difference between assessors can lie in the cases they were given.";

    private CohortViews() {}

    static Map<String, @Nullable Object> json(CohortView view) {
        List<Object> rows = new ArrayList<>();
        for (CohortView.Row row : view.rows()) {
            List<Object> cells = new ArrayList<>();
            for (int i = 0; i < row.competencies().size(); i++) {
                Map<String, @Nullable Object> cell = cell(row.competencies().get(i));
                cell.put("competency", view.competencies().get(i).id());
                cells.add(cell);
            }
            rows.add(Json.object(
                    "trainee", row.trainee(), "cases", row.cases(), "whole", cell(row.whole()), "competencies", cells));
        }
        CohortView.Agreement agreement = view.agreement();
        return Json.object(
                "rubric", view.rubric().id(),
                "rubric_version", view.rubric().version(),
                "last_cases", view.last(),
                "trainees", rows,
                "missing",
                        view.missing().stream()
                                .map(m -> Json.object(
                                        "case",
                                        m.caseCode(),
                                        "trainee",
                                        m.trainee(),
                                        "date",
                                        m.date().toString()))
                                .toList(),
                "open_work",
                        view.work().stream()
                                .map(w -> Json.object(
                                        "case", w.caseCode(),
                                        "trainee", w.trainee(),
                                        "assessor", w.assessor(),
                                        "due_on", day(w.dueOn()),
                                        "late", w.late()))
                                .toList(),
                "assessors",
                        view.assessors().stream()
                                .map(a -> Json.object(
                                        "assessor", a.code(),
                                        "marks", a.marks(),
                                        "trainees", a.trainees(),
                                        "shared_cases", a.shared(),
                                        "difference", a.difference(),
                                        "lower", a.lower(),
                                        "upper", a.upper()))
                                .toList(),
                "agreement",
                        agreement == null
                                ? null
                                : Json.object(
                                        "comparisons", agreement.comparisons(),
                                        "exact", agreement.exact(),
                                        "within_one_level", agreement.withinOne()),
                "planner", planner(view.planner()),
                "left_out", LeftOutCases.json(view.leftOut()),
                "caution", CAUTION);
    }

    private static @Nullable String day(@Nullable LocalDate day) {
        return day == null ? null : day.toString();
    }

    private static Map<String, @Nullable Object> cell(CohortView.Cell cell) {
        return Json.object(
                "n", cell.n(),
                "recent", cell.recent(),
                "mean_share", cell.mean(),
                "enough", cell.isEnough(),
                "lower", cell.lower(),
                "upper", cell.upper(),
                "last_date", day(cell.lastDate()));
    }

    private static Map<String, @Nullable Object> planner(Outcome<CohortView.Planner> outcome) {
        if (outcome instanceof Outcome.Refused<CohortView.Planner> refused) {
            return Json.object("refused", DecisionFigures.refusal(refused.refusal()));
        }
        CohortView.Planner planner = outcome.orElseThrow();
        return Json.object(
                "wish", planner.wish(),
                "minutes_each", planner.minutesEach(),
                "plans", DecisionFigures.more(planner.plans()),
                "study", DecisionFigures.study(planner.study()));
    }

    static void print(CohortView view, Console console) {
        List<String> heads = new ArrayList<>(List.of("trainee", ">cases", ">marked", ">whole", "limits", "last"));
        view.competencies().forEach(d -> heads.add(">" + d.id()));
        TextTable table = new TextTable(heads.toArray(new String[0]));
        for (CohortView.Row row : view.rows()) {
            CohortView.Cell whole = row.whole();
            List<String> cells = new ArrayList<>(List.of(
                    row.trainee(),
                    String.valueOf(row.cases()),
                    String.valueOf(whole.n()),
                    Words.percent(whole.mean()),
                    whole.lower() == null
                            ? "–"
                            : Words.number(100 * whole.lower(), 1) + " to " + Words.percent(whole.upper()),
                    whole.lastDate() == null ? "–" : whole.lastDate().toString()));
            row.competencies().forEach(c -> cells.add(Words.percent(c.mean())));
            table.row(cells.toArray(new String[0]));
        }
        table.print(console::say);
        console.say("Means over the latest " + Plural.of(view.last(), "marked case")
                + ", a case's assessors averaged first; 95 % limits by Student's t over those cases.");
        console.say(Plural.of(view.missing().size(), "case") + " without a signed mark"
                + (view.missing().isEmpty()
                        ? "."
                        : ": "
                                + view.missing().stream()
                                        .limit(20)
                                        .map(CohortView.Missing::caseCode)
                                        .collect(Collectors.joining(", "))
                                + (view.missing().size() > 20 ? " …" : "") + "."));
        long late = view.work().stream().filter(CohortView.Work::late).count();
        console.say(Plural.of(view.work().size(), "case") + " given and not done, " + late + " late.");
        TextTable assessors = new TextTable("assessor", ">marks", ">trainees", ">shared", ">less others", "limits");
        for (CohortView.Assessor a : view.assessors()) {
            assessors.row(
                    a.code(),
                    String.valueOf(a.marks()),
                    String.valueOf(a.trainees()),
                    String.valueOf(a.shared()),
                    Words.percent(a.difference()),
                    a.lower() == null ? "–" : Words.number(100 * a.lower(), 1) + " to " + Words.percent(a.upper()));
        }
        assessors.print(console::say);
        CohortView.Agreement agreement = view.agreement();
        if (agreement != null) {
            console.say("The same item of the same case by two assessors: equal in "
                    + Words.percent(agreement.exact()) + " of " + agreement.comparisons() + " comparisons"
                    + (agreement.withinOne() == null
                            ? "."
                            : ", within one level in " + Words.percent(agreement.withinOne()) + "."));
        }
        console.say(plan(view.rubric(), view.planner()));
        LeftOutCases.say(view.leftOut(), console);
        console.say(CAUTION);
    }

    private static String plan(Rubric rubric, Outcome<CohortView.Planner> outcome) {
        if (outcome instanceof Outcome.Refused<CohortView.Planner> refused) {
            return "How many cases a decision by " + rubric.id() + " needs cannot be said: "
                    + refused.refusal().why() + " — " + refused.refusal().remedy() + ".";
        }
        CohortView.Planner planner = outcome.orElseThrow();
        String wish = Words.number(planner.wish(), 2);
        if (planner.plans().isEmpty()) {
            return "No number of cases that was tried reaches " + wish + " with these assessors.";
        }
        return "To reach " + wish + " for a trainee: "
                + planner.plans().stream()
                        .map(p -> Plural.of(p.cases(), "case") + " × " + Plural.of(p.assessorsEach(), "assessor") + " ("
                                + Words.number(p.minutes(), 0) + " min)")
                        .collect(Collectors.joining(", or "))
                + "; assessors take turns.";
    }
}
