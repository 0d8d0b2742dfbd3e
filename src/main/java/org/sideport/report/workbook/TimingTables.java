package org.sideport.report.workbook;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Procedure;
import org.sideport.report.workbook.Column.Kind;
import org.sideport.stats.Distribution;
import org.sideport.timing.CaseTiming;
import org.sideport.timing.PhaseTiming;
import org.sideport.timing.SummaryRow;
import org.sideport.timing.Unsure;

/** The sheets "Timing" (phase by phase), "Case times" (whole cases) and "Timing summary" (over cases). */
final class TimingTables {

    private static final String UNSURE =
            "times of this row that are lower limits only, since the recording has an accepted cut there; blank if"
                    + " none";

    record PhaseRow(CaseTiming of, PhaseTiming phase) {}

    private final WorkbookData data;
    private final Lookup lookup;

    TimingTables(WorkbookData data, Lookup lookup) {
        this.data = data;
        this.lookup = lookup;
    }

    private <R> Tables<R> start(Function<R, CaseTiming> timing) {
        return new Tables<R>("computed from the tags")
                .add("Case", Kind.TEXT, "code of the case", r -> timing.apply(r).caseCode())
                .add(
                        "Date",
                        Kind.DATE,
                        "day of the operation",
                        r -> lookup.date(timing.apply(r).caseCode()))
                .add(
                        "Trainee",
                        Kind.TEXT,
                        "code of the person whose operation it is",
                        r -> lookup.trainee(timing.apply(r).caseCode()))
                .add(
                        "Annotator",
                        Kind.TEXT,
                        "code of the person who tagged",
                        r -> timing.apply(r).annotator())
                .add(
                        "Style",
                        Kind.TEXT,
                        "starts_only hides pauses inside phases: do not compare its times with those of start_and_end",
                        r -> timing.apply(r).style().id());
    }

    Table<PhaseRow> phases() {
        List<PhaseRow> rows = new ArrayList<>();
        data.timings().forEach(t -> t.phases().forEach(p -> rows.add(new PhaseRow(t, p))));
        Tables<PhaseRow> tables = start(PhaseRow::of);
        tables.add("Phase", Kind.TEXT, "id of the phase or step", r -> r.phase().phase())
                .add("Phase name", Kind.TEXT, "its name; blank if no procedure file knows it", r -> {
                    Procedure.Term term =
                            lookup.term(r.of().caseCode(), r.phase().phase());
                    return term == null ? null : term.name();
                })
                .add(
                        "Active",
                        Kind.CLOCK,
                        "time during which the phase was being done, h:mm:ss; blank if its end is not known",
                        r -> r.phase().activeUs())
                .add(
                        "Active (s)",
                        Kind.SECONDS,
                        "the same in seconds",
                        r -> Tables.seconds(r.phase().activeUs()))
                .add(
                        "Span (s)",
                        Kind.SECONDS,
                        "from its first start to its last end, whatever lay between",
                        r -> Tables.seconds(r.phase().spanUs()))
                .add(
                        "Episodes",
                        Kind.WHOLE,
                        "number of tagged stretches",
                        r -> r.phase().episodes())
                .add(
                        "Returns",
                        Kind.WHOLE,
                        "how often it was taken up again after another phase",
                        r -> r.phase().returns())
                .add(
                        "Idle inside (s)",
                        Kind.SECONDS,
                        "idle time with this phase on both sides of it",
                        r -> Tables.seconds(r.phase().idleInsideUs()))
                .add("Unsure", Kind.TEXT, UNSURE, r -> unsure(r.phase().unsure(), "span"));
        return tables.table("Timing", "One row for each phase of each case and annotator.", rows);
    }

    private static @Nullable String unsure(Unsure unsure, String span) {
        return unsure.any() ? String.join(", ", unsure.names(span)) : null;
    }

    Table<CaseTiming> cases() {
        Tables<CaseTiming> tables = start(t -> t);
        tables.add(
                        "Operating time",
                        Kind.CLOCK,
                        "first tag's start to last tag's end, h:mm:ss: one of several meanings of the word; blank if"
                                + " that end is not known",
                        CaseTiming::operatingUs)
                .add("Operating time (s)", Kind.SECONDS, "the same in seconds", t -> Tables.seconds(t.operatingUs()))
                .add("Active (s)", Kind.SECONDS, "time in any phase", t -> Tables.seconds(t.activeUs()))
                .add("Idle (s)", Kind.SECONDS, "operating time less active time", t -> Tables.seconds(t.idleUs()))
                .add(
                        "Idle between phases (s)",
                        Kind.SECONDS,
                        "idle time with different phases on its two sides",
                        t -> Tables.seconds(t.idleBetweenUs()))
                .add(
                        "Order",
                        Kind.PROSE,
                        "ids of the phases in the order done, repeats in a row once",
                        t -> String.join(" > ", t.order()))
                .add("Unsure", Kind.TEXT, UNSURE, t -> unsure(t.unsure(), "operating time"));
        return tables.table("Case times", "One row for each case and annotator.", data.timings());
    }

    Table<SummaryRow> summary() {
        Tables<SummaryRow> tables = new Tables<>("computed from the tags");
        tables.add(data.summaryGroup(), Kind.TEXT, "the group of cases; blank for all cases", SummaryRow::group)
                .add("Phase", Kind.TEXT, "id of the phase or step, or operating_time", SummaryRow::phase)
                .add("Phase name", Kind.TEXT, "its name", r -> {
                    Procedure.Term term = lookup.term(r.phase());
                    return term != null
                            ? term.name()
                            : r.phase().equals(SummaryRow.OPERATING) ? "Operating time" : null;
                })
                .add("n", Kind.COUNT, "cases that have the phase and its time", SummaryRow::n)
                .restOn(SummaryRow::n)
                .add(
                        "Unsure (n)",
                        Kind.COUNT,
                        "cases left out because a cut of the recording lies in their time",
                        SummaryRow::unsure)
                .add("Median", Kind.CLOCK, "median of the active time, h:mm:ss", of(Distribution::median));
        seconds(tables, "Median (s)", "the same in seconds", Distribution::median);
        seconds(tables, "Lower quartile (s)", "quantile 0.25 of type 7", Distribution::q1);
        seconds(tables, "Upper quartile (s)", "quantile 0.75 of type 7", Distribution::q3);
        seconds(tables, "10 % (s)", "quantile 0.1 of type 7", Distribution::p10);
        seconds(tables, "90 % (s)", "quantile 0.9 of type 7", Distribution::p90);
        seconds(tables, "Mean (s)", "arithmetic mean", Distribution::mean);
        seconds(tables, "SD (s)", "sample standard deviation (n − 1); blank below two cases", Distribution::sd);
        seconds(
                tables,
                "Geometric mean (s)",
                "exp of the mean of the logs: durations are right-skewed; blank if a time is 0",
                Distribution::geometricMean);
        tables.add(
                "Geometric SD (factor)",
                Kind.FACTOR,
                "exp of the sample SD of the logs: about two thirds of the cases lie between the geometric mean divided"
                        + " by it and multiplied by it, if times are log-normal",
                of(Distribution::geometricSd));
        return tables.summary(
                "Timing summary",
                "Active time of each phase over cases, a row for each group and phase. Small n makes unsteady figures.",
                data.summary());
    }

    private static void seconds(
            Tables<SummaryRow> tables, String header, String meaning, Function<Distribution, @Nullable Double> us) {
        Function<SummaryRow, @Nullable Object> figure = of(us::apply);
        tables.add(header, Kind.SECONDS, meaning, r -> Tables.seconds((Number) figure.apply(r)));
    }

    /** A figure of the distribution; blank where there is none. */
    private static Function<SummaryRow, @Nullable Object> of(Function<Distribution, @Nullable Object> figure) {
        return row -> row.activeUs() == null ? null : figure.apply(row.activeUs());
    }
}
