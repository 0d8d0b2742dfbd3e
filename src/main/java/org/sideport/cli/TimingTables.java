package org.sideport.cli;

import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
import java.util.function.UnaryOperator;
import org.sideport.cli.console.TextTable;
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
                    Words.time(p.activeUs()),
                    Words.time(p.spanUs()),
                    String.valueOf(p.episodes()),
                    String.valueOf(p.returns()),
                    Words.time(p.idleInsideUs()));
        }
        table.print(out);
        out.accept("  Operating time (first tag to last) " + Words.time(timing.operatingUs()) + ", of it idle "
                + Words.time(timing.idleUs()));
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
            Double geometricSd = d.geometricSd();
            String phase = row.phase().equals(SummaryRow.OPERATING) ? "Operating time" : name.apply(row.phase());
            String[] figures = {
                phase,
                String.valueOf(d.n()),
                Words.seconds(d.median()),
                Words.seconds(d.q1()) + "–" + Words.seconds(d.q3()),
                Words.seconds(d.p10()) + "–" + Words.seconds(d.p90()),
                Words.seconds(d.geometricMean()),
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
        out.accept("Speed is not competence: a timing alone never fails anyone.");
    }
}
