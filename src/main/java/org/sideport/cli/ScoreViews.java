package org.sideport.cli;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.model.Plural;
import org.sideport.model.Rubric;
import org.sideport.rubric.Score;

/** Scores as JSON and in words. */
final class ScoreViews {

    private ScoreViews() {}

    static Map<String, @Nullable Object> of(Score score) {
        Map<String, Object> excused = new LinkedHashMap<>();
        score.excused().forEach((reason, n) -> excused.put(reason.id(), n));
        Score.Verdict verdict = score.verdict();
        return Json.object(
                "rubric",
                score.rubric(),
                "version",
                score.rubricVersion(),
                "items",
                score.items(),
                "applicable_items",
                score.marked(),
                "not_applicable",
                excused,
                "missing",
                score.missing(),
                "complete",
                score.complete(),
                "points",
                score.points(),
                "maximum",
                score.maximum(),
                "share",
                score.share(),
                "domains",
                score.domains().stream()
                        .map(d -> Json.object(
                                "domain", d.domain(),
                                "items", d.items(),
                                "applicable_items", d.marked(),
                                "points", d.points(),
                                "maximum", d.maximum(),
                                "share", d.share()))
                        .toList(),
                "critical_failures",
                score.criticalFailures(),
                "verdict",
                verdict == null ? null : verdict.name().toLowerCase(Locale.ROOT));
    }

    static void print(Rubric rubric, Score score, Consumer<String> out) {
        out.accept(rubric.title() + " (" + score.rubric() + " " + score.rubricVersion() + ")");
        out.accept("  " + Words.percent(score.share()) + " of the applicable maximum (weighted); " + score.points()
                + " of " + score.maximum() + " points on " + score.marked() + " of "
                + Plural.of(score.items(), "item"));
        score.excused()
                .forEach((reason, n) -> out.accept("  " + n + " " + reason.id().replace('_', ' ')));
        for (Score.DomainScore d : score.domains()) {
            String title = rubric.domains().stream()
                    .filter(known -> known.id().equals(d.domain()))
                    .map(Rubric.Domain::title)
                    .findFirst()
                    .orElse(d.domain());
            out.accept("  " + title + ": " + Words.percent(d.share()) + " on " + d.marked() + " of "
                    + Plural.of(d.items(), "item"));
        }
        if (!score.criticalFailures().isEmpty()) {
            out.accept("  Below the critical minimum: " + titles(rubric, score.criticalFailures()));
        }
        if (!score.complete()) {
            out.accept("  Not complete, so there is no verdict. Missing: " + titles(rubric, score.missing()));
        } else if (score.verdict() == null) {
            out.accept("  No pass standard has been agreed for this rubric, so there is no verdict.");
        } else {
            out.accept("  Agreed standard: " + (score.verdict() == Score.Verdict.MET ? "met" : "not met"));
        }
        out.accept("  Formative: local regulations, the credentialing body and licensed judgement decide.");
    }

    private static String titles(Rubric rubric, List<String> items) {
        return String.join(
                "; ",
                items.stream()
                        .map(id -> rubric.item(id).map(Rubric.Item::title).orElse(id))
                        .toList());
    }
}
