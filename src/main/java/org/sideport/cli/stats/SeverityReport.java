package org.sideport.cli.stats;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.rasch.Extreme;
import org.sideport.stats.rasch.Homogeneity;
import org.sideport.stats.rasch.ManyFacetRasch;
import org.sideport.stats.rasch.MeanSquares;
import org.sideport.stats.rasch.Measure;
import org.sideport.stats.rasch.Separation;
import org.sideport.stats.rasch.Step;

/** The measures of a many-facet Rasch analysis as people and machines read them. */
final class SeverityReport {

    private final ManyFacetRasch fit;
    private final boolean byCase;
    private final double level;

    SeverityReport(ManyFacetRasch fit, boolean byCase, double level) {
        this.fit = fit;
        this.byCase = byCase;
        this.level = level;
    }

    Answer answer() {
        List<String> lines = new ArrayList<>();
        lines.add(fit.n() + " marks at levels " + fit.lowest() + " to " + fit.highest() + ", " + fit.used()
                + " of them in the estimation; " + SeverityCommand.word(fit.model()) + " model, "
                + fit.estimation().label());
        table(lines, "Assessors, the most severe first", "assessor", "severity", fit.assessors());
        Separation separation = fit.assessorSeparation();
        Homogeneity alike = fit.assessorsAlike();
        if (alike != null) {
            lines.add("All equally severe? chi-square " + Figures.plain(alike.chiSquare(), 2) + ", df " + alike.df()
                    + ", p " + p(alike.p())
                    + (separation == null
                            ? ""
                            : "; spread that is no error: " + Figures.percent(separation.reliability())));
        }
        table(lines, byCase ? "Cases of trainees" : "Trainees", byCase ? "case" : "trainee", "ability", fit.trainees());
        Separation trainees = fit.traineeSeparation();
        if (trainees != null) {
            lines.add("Reliability " + Figures.plain(trainees.reliability()) + ", separation "
                    + Figures.plain(trainees.separation(), 2) + ", levels of skill told apart "
                    + Figures.plain(trainees.strata(), 1));
        }
        table(lines, "Items, the most difficult first", "item", "difficulty", fit.items());
        steps(lines);
        return new Answer(json(), lines, fit.warnings(), sentence());
    }

    private static String p(double p) {
        return p < .0005 ? "< 0.001" : Figures.plain(p);
    }

    private static double sortKey(Measure measure) {
        Estimate logits = measure.logits();
        return logits == null ? Double.NEGATIVE_INFINITY : logits.value();
    }

    private void table(List<String> lines, String title, String facet, String measured, List<Measure> measures) {
        TextTable table = new TextTable(
                facet,
                ">" + measured,
                ">SE",
                ">" + Figures.plain(100 * level, level * 100 % 1 == 0 ? 0 : 1) + " % limits",
                ">infit",
                ">z",
                ">outfit",
                ">z",
                ">fair average",
                ">mean level",
                ">n",
                "note");
        measures.stream()
                .sorted(Comparator.comparingDouble(SeverityReport::sortKey).reversed())
                .forEach(m -> {
                    Estimate logits = m.logits();
                    MeanSquares squares = m.fit();
                    Estimate fair = m.fairAverage();
                    Interval limits = logits == null ? null : logits.limits();
                    table.row(
                            m.label(),
                            logits == null ? "–" : Figures.plain(logits.value(), 2),
                            logits == null ? "–" : Figures.plain(logits.se(), 2),
                            limits == null
                                    ? "–"
                                    : Figures.plain(limits.lower(), 2) + " to " + Figures.plain(limits.upper(), 2),
                            squares == null ? "–" : Figures.plain(squares.infit(), 2),
                            squares == null ? "–" : Figures.plain(squares.infitZ(), 1),
                            squares == null ? "–" : Figures.plain(squares.outfit(), 2),
                            squares == null ? "–" : Figures.plain(squares.outfitZ(), 1),
                            fair == null ? "–" : Figures.plain(fair.value(), 2),
                            Figures.plain(m.meanLevel(), 2),
                            Integer.toString(m.n()),
                            note(m.extreme()));
                });
        lines.add("");
        lines.add(title);
        lines.addAll(Answer.lines(table));
    }

    private static String note(Extreme extreme) {
        return switch (extreme) {
            case NONE -> "";
            case ALL_TOP -> "only top marks";
            case ALL_BOTTOM -> "only bottom marks";
            case CONSTANT -> "one level only";
            case INDIRECT -> "no direct tie";
        };
    }

    private void steps(List<String> lines) {
        if (fit.steps().isEmpty()) {
            return;
        }
        TextTable table = new TextTable("item", ">step", ">deviation", ">SE", ">n at upper level");
        for (Step step : fit.steps()) {
            table.row(
                    step.item(),
                    step.from() + " to " + step.to(),
                    Figures.plain(step.deviation().value(), 2),
                    Figures.plain(step.deviation().se(), 2),
                    Integer.toString(step.n()));
        }
        lines.add("");
        lines.add("Steps from level to level, from the item's difficulty");
        lines.addAll(Answer.lines(table));
    }

    private String sentence() {
        String caution =
                " Severity is a habit to talk about, not a fault: use it for training assessors and for planning"
                        + " who marks whom, and let no trainee pass or fail on a corrected figure alone.";
        List<Measure> usual = fit.assessors().stream()
                .filter(m -> m.extreme() == Extreme.NONE && m.fairAverage() != null && m.logits() != null)
                .sorted(Comparator.comparingDouble(SeverityReport::sortKey))
                .toList();
        Homogeneity alike = fit.assessorsAlike();
        if (alike == null || usual.size() < 2) {
            return "With one assessor that can be compared, severity and difficulty are not told apart." + caution;
        }
        Measure lenient = usual.get(0);
        Measure severe = usual.get(usual.size() - 1);
        return String.format(
                        Locale.ROOT,
                        "From the same work of a trainee of mean ability, %s, the most severe assessor, would on"
                                + " average give level %s and %s, the most lenient, level %s; ",
                        severe.label(),
                        fair(severe),
                        lenient.label(),
                        fair(lenient))
                + (alike.p() < .05
                        ? "differences of this size are hardly chance."
                        : "differences of this size may well be chance.")
                + caution;
    }

    private static String fair(Measure measure) {
        Estimate fair = measure.fairAverage();
        return Figures.plain(fair == null ? null : (Double) fair.value(), 2);
    }

    private Map<String, @Nullable Object> json() {
        Homogeneity alike = fit.assessorsAlike();
        return Json.object(
                "model",
                SeverityCommand.word(fit.model()).replace('-', '_'),
                "estimation",
                SeverityCommand.word(fit.estimation()).replace('-', '_'),
                "n",
                fit.n(),
                "n_used",
                fit.used(),
                "lowest_level",
                fit.lowest(),
                "highest_level",
                fit.highest(),
                "conditional_log_likelihood",
                fit.logLikelihood(),
                "assessors",
                fit.assessors().stream()
                        .map(m -> json("assessor", "severity", m))
                        .toList(),
                "trainees",
                fit.trainees().stream().map(m -> json("trainee", "ability", m)).toList(),
                "items",
                fit.items().stream().map(m -> json("item", "difficulty", m)).toList(),
                "steps",
                fit.steps().stream()
                        .map(s -> Json.object(
                                "item",
                                s.item(),
                                "from",
                                s.from(),
                                "to",
                                s.to(),
                                "deviation",
                                Figures.json(s.deviation())))
                        .toList(),
                "separation",
                Json.object(
                        "assessors",
                        json(fit.assessorSeparation()),
                        "trainees",
                        json(fit.traineeSeparation()),
                        "items",
                        json(fit.itemSeparation())),
                "equal_severity_test",
                alike == null ? null : Json.object("chi_square", alike.chiSquare(), "df", alike.df(), "p", alike.p()));
    }

    private static Map<String, @Nullable Object> json(String facet, String measured, Measure m) {
        Estimate logits = m.logits();
        Estimate fair = m.fairAverage();
        MeanSquares squares = m.fit();
        return Json.object(
                facet,
                m.label(),
                "n",
                m.n(),
                "mean_level",
                m.meanLevel(),
                "extreme",
                m.extreme() == Extreme.NONE ? null : m.extreme().name().toLowerCase(Locale.ROOT),
                measured,
                logits == null ? null : Figures.json(logits),
                "fair_average",
                fair == null ? null : Figures.json(fair),
                "infit",
                squares == null ? null : squares.infit(),
                "infit_z",
                squares == null ? null : squares.infitZ(),
                "outfit",
                squares == null ? null : squares.outfit(),
                "outfit_z",
                squares == null ? null : squares.outfitZ());
    }

    private static @Nullable Map<String, @Nullable Object> json(@Nullable Separation s) {
        return s == null
                ? null
                : Json.object(
                        "n",
                        s.n(),
                        "sd",
                        s.sd(),
                        "error",
                        s.error(),
                        "reliability",
                        s.reliability(),
                        "separation",
                        s.separation(),
                        "strata",
                        s.strata());
    }
}
