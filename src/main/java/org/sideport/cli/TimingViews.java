package org.sideport.cli;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.stats.Distribution;
import org.sideport.timing.CaseTiming;
import org.sideport.timing.PhaseTiming;
import org.sideport.timing.SummaryRow;

/** Timings as JSON. */
final class TimingViews {

    private TimingViews() {}

    /** @param rolledUp the same case with steps added up under their phase, or {@code null} */
    static Map<String, @Nullable Object> of(CaseTiming timing, @Nullable CaseTiming rolledUp) {
        Map<String, @Nullable Object> view = Json.object(
                "case", timing.caseCode(),
                "annotator", timing.annotator().isEmpty() ? null : timing.annotator(),
                "style", timing.style().id(),
                "phases", phases(timing.phases()),
                "operating_us", timing.operatingUs(),
                "active_us", timing.activeUs(),
                "idle_us", timing.idleUs(),
                "idle_between_us", timing.idleBetweenUs(),
                "unsure", timing.unsure().names("operating"),
                "order", timing.order());
        if (rolledUp != null) {
            view.put("rolled_up", phases(rolledUp.phases()));
        }
        return view;
    }

    private static List<Map<String, @Nullable Object>> phases(List<PhaseTiming> phases) {
        return phases.stream()
                .map(p -> Json.object(
                        "phase", p.phase(),
                        "active_us", p.activeUs(),
                        "span_us", p.spanUs(),
                        "episodes", p.episodes(),
                        "returns", p.returns(),
                        "idle_inside_us", p.idleInsideUs(),
                        "unsure", p.unsure().names("span")))
                .toList();
    }

    static List<Map<String, @Nullable Object>> summary(List<SummaryRow> rows) {
        return rows.stream().map(TimingViews::summary).toList();
    }

    private static Map<String, @Nullable Object> summary(SummaryRow row) {
        Distribution d = row.activeUs();
        return Json.object(
                "group", row.group().isEmpty() ? null : row.group(),
                "phase", row.phase(),
                "n", row.n(),
                "n_unsure", row.unsure(),
                "mean_us", d == null ? null : rounded(d.mean()),
                "sd_us", d == null ? null : rounded(d.sd()),
                "median_us", d == null ? null : rounded(d.median()),
                "q1_us", d == null ? null : rounded(d.q1()),
                "q3_us", d == null ? null : rounded(d.q3()),
                "p10_us", d == null ? null : rounded(d.p10()),
                "p90_us", d == null ? null : rounded(d.p90()),
                "geometric_mean_us", d == null ? null : rounded(d.geometricMean()),
                "geometric_sd", d == null ? null : d.geometricSd());
    }

    private static @Nullable Long rounded(@Nullable Double value) {
        return value == null ? null : (Long) Math.round(value);
    }
}
