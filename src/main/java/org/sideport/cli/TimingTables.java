package org.sideport.cli;

import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
import java.util.function.UnaryOperator;
import org.sideport.cli.console.TextTable;
import org.sideport.model.Plural;
import org.sideport.model.TaggingStyle;
import org.sideport.stats.Distribution;
import org.sideport.timing.CaseTiming;
import org.sideport.timing.PhaseTiming;
import org.sideport.timing.SummaryRow;

/** Timings as text tables. */
final class TimingTables {

    private TimingTables() {}

    static void printCase(CaseTiming timing, UnaryOperator<String> name, Consumer<String> out) {
        out.accept("Case " + timing.caseCode()
                + (timing.annotator().isEmpty() ? "" : ", tagged by " + timing.annotator())
                + (timing.style() == TaggingStyle.STARTS_ONLY
                        ? " (starts only: pauses are hidden inside phases)"
                        : ""));
        TextTable table = new TextTable("  Phase", ">Active", ">Span", ">Episodes", ">Returns", ">Idle inside");
        for (PhaseTiming p : timing.phases()) {
            table.row(
                    "  " + name.apply(p.phase()),
                    Words.time(p.activeUs(), p.unsure().active()),
                    Words.time(p.spanUs(), p.unsure().span()),
                    String.valueOf(p.episodes()),
                    String.valueOf(p.returns()),
                    Words.time(p.idleInsideUs(), p.unsure().idle()));
        }
        table.print(out);
        out.accept("  Operating time (first tag to last) "
                + Words.time(timing.operatingUs(), timing.unsure().span()) + ", of it idle "
                + Words.time(timing.idleUs(), timing.unsure().idle()));
        if (timing.unsure().any()) {
            out.accept("  ≥ at least: the recording has a cut there, so the true time may be longer.");
        }
        if (timing.operatingUs() == null && !timing.phases().isEmpty()) {
            out.accept("  The last phase has no end and there is no recording to take it from: its time is unknown.");
        }
    }

    static void printSummary(List<SummaryRow> rows, UnaryOperator<String> name, Consumer<String> out) {
        boolean grouped = rows.stream().anyMatch(r -> !r.group().isEmpty());
        out.accept("Active time in seconds over cases (quantiles of type 7)");
        TextTable table = grouped
                ? new TextTable("Group", "Phase", ">n", ">Median", ">Quartiles", ">10–90 %", ">Log mean", ">×/÷ SD")
                : new TextTable("Phase", ">n", ">Median", ">Quartiles", ">10–90 %", ">Log mean", ">×/÷ SD");
        for (SummaryRow row : rows) {
            Distribution d = row.activeUs();
            Double geometricSd = d == null ? null : d.geometricSd();
            String phase = row.phase().equals(SummaryRow.OPERATING) ? "Operating time" : name.apply(row.phase());
            String[] figures = {
                phase,
                String.valueOf(row.n()),
                d == null ? "–" : Words.seconds(d.median()),
                d == null ? "–" : Words.seconds(d.q1()) + "–" + Words.seconds(d.q3()),
                d == null ? "–" : Words.seconds(d.p10()) + "–" + Words.seconds(d.p90()),
                d == null ? "–" : Words.seconds(d.geometricMean()),
                geometricSd == null ? "–" : String.format(Locale.ROOT, "%.2f", geometricSd)
            };
            if (grouped) {
                String[] with = new String[figures.length + 1];
                with[0] = row.group();
                System.arraycopy(figures, 0, with, 1, figures.length);
                table.row(with);
            } else {
                table.row(figures);
            }
        }
        table.print(out);
        int unsure = rows.stream().mapToInt(SummaryRow::unsure).sum();
        if (unsure > 0) {
            out.accept("Left out, since a cut of the recording lies in them: " + Plural.of(unsure, "time") + ".");
        }
        out.accept("Speed is not competence: a timing alone never fails anyone.");
    }
}
