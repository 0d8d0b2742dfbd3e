package org.sideport.cli.stats;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.learning.CaseSeries;
import org.sideport.stats.learning.CasesToReference;
import org.sideport.stats.learning.ChangePoint;
import org.sideport.stats.learning.LearningFit;
import org.sideport.stats.learning.LearningModel;
import org.sideport.stats.learning.ModelComparison;
import org.sideport.stats.learning.OutlyingCases;

/** What {@link CurveCommand} says beyond the curve: outlying cases, change-points, cases to the reference. */
final class CurveFindings {

    /** Change-points are said to be shown at this p or below. */
    private static final double SHOWN = 0.05;

    private final ModelComparison comparison;
    private final LearningFit fit;
    private final Outcome<OutlyingCases> outlying;
    private final CurveAnswer.Wish wish;
    private final CaseSeries series;
    private final List<String> lines;
    private final List<String> warnings;
    private final Map<String, @Nullable Object> json;
    private final @Nullable CasesToReference cases;

    /** Adds to the lines, the warnings and the JSON. */
    CurveFindings(
            ModelComparison comparison,
            LearningFit fit,
            Outcome<OutlyingCases> outlying,
            CurveAnswer.Wish wish,
            List<String> lines,
            List<String> warnings,
            Map<String, @Nullable Object> json) {
        this.comparison = comparison;
        this.fit = fit;
        this.outlying = outlying;
        this.wish = wish;
        this.lines = lines;
        this.warnings = warnings;
        this.json = json;
        series = fit.series();
        cases = wish.reference() == null
                ? null
                : CasesToReference.of(fit, wish.reference(), wish.lowerIsBetter(), wish.bootstrap());
    }

    void add(List<Outcome<ChangePoint>> changes) {
        outliers();
        changePoints(changes);
        reference();
    }

    private void outliers() {
        lines.add("");
        if (outlying instanceof Outcome.Refused<OutlyingCases> refused) {
            warnings.add(
                    "Outlying cases were not looked for: " + refused.refusal().why() + ".");
            json.put("robust", null);
            json.put("outliers", null);
            return;
        }
        OutlyingCases found = outlying.orElseThrow();
        List<Object> named = new ArrayList<>();
        TextTable table = new TextTable("outlying case", ">value", ">expected", ">distance", ">weight");
        for (OutlyingCases.OutlyingCase one : found.outlying()) {
            table.row(
                    CurveAnswer.number(one.caseNumber()),
                    Figures.plain(one.value()),
                    Figures.plain(one.expected()),
                    Figures.plain(one.distance(), 2),
                    Figures.plain(one.weight()));
            named.add(Json.object(
                    "case_number", one.caseNumber(),
                    "value", one.value(),
                    "expected", one.expected(),
                    "distance", one.distance(),
                    "weight", one.weight()));
        }
        if (named.isEmpty()) {
            lines.add("No outlying cases (none farther than 3 robust scales from the curve).");
        } else {
            lines.addAll(Answer.lines(table));
            warnings.add(named.size() + (named.size() == 1 ? " outlying case" : " outlying cases")
                    + " kept in the least-squares fit; the column beside it shows the fit that weighs them down.");
            without(found);
        }
        List<Object> weights = new ArrayList<>();
        StringBuilder listed = new StringBuilder();
        for (int i = 0; i < series.size(); i++) {
            double weight = found.fit().weights()[i];
            weights.add(Json.object("case_number", series.caseNumber()[i], "weight", weight));
            listed.append(i == 0 ? "" : ", ")
                    .append(CurveAnswer.number(series.caseNumber()[i]))
                    .append(": ")
                    .append(Figures.plain(weight, 2));
        }
        if (wish.robust() != null) {
            lines.add("Weight of each case: " + listed);
        }
        json.put(
                "robust",
                Json.object(
                        "loss", found.fit().loss().name().toLowerCase(Locale.ROOT),
                        "scale", found.fit().scale(),
                        "weights", weights));
        json.put("outliers", named);
    }

    /** Outlying cases can decide which curve looks best; then that is said. */
    private void without(OutlyingCases found) {
        Set<Double> far = new HashSet<>();
        found.outlying().forEach(one -> far.add(one.caseNumber()));
        int[] kept = IntStream.range(0, series.size())
                .filter(i -> !far.contains(series.caseNumber()[i]))
                .toArray();
        Outcome<ModelComparison> again = CaseSeries.of(
                        Arrays.stream(kept)
                                .mapToDouble(i -> series.caseNumber()[i])
                                .toArray(),
                        Arrays.stream(kept).mapToDouble(i -> series.value()[i]).toArray(),
                        series.scale())
                .flatMap(rest -> ModelComparison.of(
                        rest, List.of(LearningModel.values()), wish.bootstrap().level()));
        if (again instanceof Outcome.Found<ModelComparison> other) {
            LearningModel best = other.value().best().model();
            json.put("model_without_outliers", CurveAnswer.name(best));
            if (best != comparison.best().model()) {
                warnings.add("Without the outlying " + (far.size() == 1 ? "case" : "cases") + " the "
                        + CurveAnswer.name(best) + " curve would be best by AICc; --model " + CurveAnswer.name(best)
                        + " shows it.");
            }
        }
    }

    private void changePoints(List<Outcome<ChangePoint>> changes) {
        lines.add("");
        List<Object> all = new ArrayList<>();
        double best = comparison.best().aicc();
        for (Outcome<ChangePoint> outcome : changes) {
            if (outcome instanceof Outcome.Refused<ChangePoint> refused) {
                lines.add("No change-point: " + refused.refusal().why() + ".");
                continue;
            }
            ChangePoint change = outcome.orElseThrow();
            boolean levels = change.shape() == ChangePoint.Shape.LEVELS;
            Interval limits = change.limits();
            lines.add((levels ? "Change of level at case " : "Change of slope at case ")
                    + Figures.plain(change.at(), levels ? 0 : 1) + " (" + Figures.plain(100 * limits.level(), 0) + " % "
                    + Figures.plain(limits.lower(), 1) + " to " + Figures.plain(limits.upper(), 1) + "), "
                    + Figures.plain(change.before(), levels ? 3 : 5) + " before, "
                    + Figures.plain(change.after(), levels ? 3 : 5) + " after; p = " + Figures.plain(change.p(), 4)
                    + " against " + (levels ? "one level" : "one line") + "; AICc "
                    + Figures.plain(change.aicc(), 2) + ": "
                    + (change.p() > SHOWN
                            ? "no change is shown."
                            : "against smooth curves: " + against(change.aicc() - best)));
            all.add(Json.object(
                    "shape", levels ? "levels" : "lines",
                    "case_number", change.at(),
                    "lower", limits.lower(),
                    "upper", limits.upper(),
                    "level", limits.level(),
                    "before", change.before(),
                    "after", change.after(),
                    "f", change.f(),
                    "p", change.p(),
                    "aicc", change.aicc(),
                    "better_than_curves", change.p() <= SHOWN && change.aicc() <= best - ModelComparison.INDISTINCT));
        }
        json.put("change_points", all);
    }

    private static String against(double difference) {
        if (difference >= ModelComparison.INDISTINCT) {
            return "the best of them describes the data better.";
        }
        return difference > -ModelComparison.INDISTINCT
                ? "the best of them describes the data as well."
                : "better than every one of them.";
    }

    private void reference() {
        if (cases == null) {
            json.put("reference", null);
            return;
        }
        @Nullable Interval limits = cases.limits();
        lines.add("");
        lines.add("Cases to the reference " + Figures.plain(cases.reference()) + ": " + reached(cases)
                + (limits == null ? "" : " (" + when(limits) + ")"));
        warnings.addAll(cases.warnings());
        @Nullable Double robust = null;
        if (wish.robust() != null && outlying instanceof Outcome.Found<OutlyingCases> found) {
            LearningModel model = fit.model();
            robust = CasesToReference.pointOf(
                    model, found.value().fit().parameters(), cases.reference(), wish.lowerIsBetter());
            lines.add("With outlying cases weighed down: "
                    + (robust == null ? "never on this curve" : "case " + Figures.plain(robust, 1)));
        }
        json.put(
                "reference",
                Json.object(
                        "value",
                        cases.reference(),
                        "reach",
                        cases.reach().name().toLowerCase(Locale.ROOT),
                        "cases",
                        cases.cases(),
                        "lower",
                        limits == null ? null : Figures.finite(limits.lower()),
                        "upper",
                        limits == null ? null : Figures.finite(limits.upper()),
                        "level",
                        limits == null ? null : limits.level(),
                        "robust_cases",
                        robust));
    }

    private static String when(Interval limits) {
        String level = Figures.plain(100 * limits.level(), 0) + " % ";
        if (Double.isInfinite(limits.lower())) {
            return level + "limits: never";
        }
        return level + Figures.plain(limits.lower(), 1) + " to "
                + (Double.isInfinite(limits.upper()) ? "never" : Figures.plain(limits.upper(), 1));
    }

    private static String reached(CasesToReference cases) {
        return switch (cases.reach()) {
            case FROM_THE_FIRST -> "the curve is there from the first case on";
            case WITHIN_THE_DATA -> "case " + Figures.plain(cases.cases(), 1);
            case BEYOND_THE_DATA ->
                "beyond the data (last case " + CurveAnswer.number(cases.last()) + "); drawn on, case "
                        + Figures.plain(cases.cases(), 1);
            case NEVER -> "never on this curve";
        };
    }
}
