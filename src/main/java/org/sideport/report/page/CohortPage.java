package org.sideport.report.page;

import java.io.OutputStream;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** A cohort on paper. */
public final class CohortPage {

    private CohortPage() {}

    public record View(
            String title,
            String eyebrow,
            String heading,
            List<FeedbackView.Fact> facts,
            List<String> heads,
            List<List<String>> rows,
            String basis,
            String leftOut,
            List<List<String>> missing,
            List<List<String>> work,
            List<List<String>> assessors,
            String agreement,
            List<List<String>> plans,
            String plan,
            List<FeedbackView.ChartView> charts,
            String complications,
            List<String> cautions,
            String made,
            String program) {}

    public static void pdf(CohortReport report, PageWords words, OutputStream out) {
        Paper.write(
                FeedbackPage.paper("cohort", view(report, words), words),
                report.charts(),
                report.program(),
                words,
                out);
    }

    private static View view(CohortReport report, PageWords words) {
        List<String> heads = new ArrayList<>(List.of(
                words.get("fact.trainee"),
                words.get("cohort.marked"),
                words.get("cohort.last.date"),
                words.get("cohort.whole")));
        heads.addAll(report.competencies());
        CohortReport.Agreement agreement = report.agreement();
        return new View(
                words.get("cohort.heading"),
                words.get("cohort.eyebrow"),
                words.get("cohort.heading"),
                List.of(new FeedbackView.Fact(words.get("cohort.rubric"), report.rubric())),
                heads,
                report.rows().stream().map(r -> row(r, words)).toList(),
                words.get("cohort.basis", report.last()),
                leftOut(report.leftOut(), words),
                report.missing().stream()
                        .map(m -> List.of(m.caseCode(), m.trainee(), words.date(m.date())))
                        .toList(),
                report.work().stream()
                        .map(w -> List.of(
                                w.caseCode(),
                                w.trainee(),
                                w.assessor(),
                                date(w.dueOn(), words),
                                w.late() ? words.get("cohort.late") : ""))
                        .toList(),
                report.assessors().stream()
                        .map(a -> List.of(
                                a.code(),
                                Integer.toString(a.marks()),
                                Integer.toString(a.trainees()),
                                Integer.toString(a.shared()),
                                difference(a, words)))
                        .toList(),
                agreement == null
                        ? words.get("cohort.agreement.none")
                        : words.get(
                                "cohort.agreement",
                                agreement.comparisons(),
                                words.exactPercent(agreement.exact()),
                                share(agreement.withinOne(), words)),
                report.plans().stream()
                        .map(p -> List.of(
                                Integer.toString(p.cases()),
                                Integer.toString(p.assessorsEach()),
                                words.fixed(p.phi(), 2),
                                words.number(p.minutes(), 0)))
                        .toList(),
                report.planRefused().isEmpty()
                        ? words.get("cohort.plan", words.fixed(report.wish(), 2), words.number(report.minutesEach(), 0))
                        : words.get("cohort.plan.refused", report.planRefused()),
                report.charts().stream().map(c -> ChartViews.of(c, true)).toList(),
                report.complications(),
                words.cautions(),
                words.get("made.paper", words.moment(report.madeAt()), report.program()),
                report.program());
    }

    private static String leftOut(int cases, PageWords words) {
        return cases == 0 ? "" : words.get("leftOut", cases);
    }

    private static List<String> row(CohortReport.Row row, PageWords words) {
        List<String> cells = new ArrayList<>();
        cells.add(row.trainee());
        cells.add(words.get("points", row.whole().n(), row.cases()));
        cells.add(date(row.lastDate(), words));
        cells.add(cell(row.whole(), words));
        row.competencies().forEach(c -> cells.add(cell(c, words)));
        return cells;
    }

    private static String date(@Nullable LocalDate day, PageWords words) {
        return day == null ? words.get("usual.none") : day.toString();
    }

    private static String share(@Nullable Double share, PageWords words) {
        return share == null ? words.get("usual.none") : words.exactPercent(share);
    }

    private static String cell(CohortReport.Cell cell, PageWords words) {
        if (cell.mean() == null) {
            return words.get("usual.none");
        }
        return cell.lower() == null || cell.upper() == null
                ? words.get("cohort.cell.few", words.exactPercent(cell.mean()), cell.recent(), cell.n())
                : words.get(
                        "cohort.cell",
                        words.exactPercent(cell.mean()),
                        words.percent(cell.lower()),
                        words.percent(cell.upper()),
                        cell.recent(),
                        cell.n());
    }

    private static String difference(CohortReport.Assessor one, PageWords words) {
        if (one.difference() == null) {
            return words.get("usual.none");
        }
        String by = signed(one.difference(), words);
        return one.lower() == null || one.upper() == null
                ? by
                : words.get("cohort.difference", by, signed(one.lower(), words), signed(one.upper(), words));
    }

    /** In percentage points. */
    private static String signed(double share, PageWords words) {
        return words.fixed(100 * share, 1);
    }
}
