package org.sideport.cli.stats;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.learning.CaseSeries;
import org.sideport.stats.learning.CasesToReference;
import org.sideport.stats.learning.ChangePoint;
import org.sideport.stats.learning.LearningFit;
import org.sideport.stats.learning.LearningModel;
import org.sideport.stats.learning.ModelComparison;
import org.sideport.stats.learning.OutlyingCases;
import org.sideport.stats.regression.RobustLoss;
import org.sideport.stats.resample.Bootstrap;

/** What {@link CurveCommand} says. */
final class CurveAnswer {

    /**
     * @param measure duration or score
     * @param robust {@code null} if no weighing down was asked for
     * @param chosenByCriterion whether the curve was not named by the person
     */
    record Wish(
            String measure,
            boolean lowerIsBetter,
            @Nullable Double reference,
            @Nullable RobustLoss robust,
            Bootstrap bootstrap,
            boolean chosenByCriterion) {}

    /** Change-points are said to be shown at this p or below. */
    private static final double SHOWN = 0.05;

    private final CurveCsv csv;
    private final ModelComparison comparison;
    private final LearningFit fit;
    private final List<Outcome<ChangePoint>> changes;
    private final Wish wish;
    private final CaseSeries series;
    private final List<Estimate> estimates;
    private final Outcome<OutlyingCases> outlying;
    private final @Nullable CasesToReference cases;
    private final List<String> lines = new ArrayList<>();
    private final List<String> warnings = new ArrayList<>();
    private final Map<String, @Nullable Object> json = new LinkedHashMap<>();

    CurveAnswer(
            CurveCsv csv, ModelComparison comparison, LearningFit fit, List<Outcome<ChangePoint>> changes, Wish wish) {
        this.csv = csv;
        this.comparison = comparison;
        this.fit = fit;
        this.changes = changes;
        this.wish = wish;
        series = fit.series();
        estimates = fit.estimates(wish.bootstrap().level());
        outlying = OutlyingCases.of(
                fit,
                wish.robust() == null ? RobustLoss.BISQUARE : wish.robust(),
                wish.bootstrap().level());
        cases = wish.reference() == null
                ? null
                : CasesToReference.of(fit, wish.reference(), wish.lowerIsBetter(), wish.bootstrap());
    }

    Answer answer() {
        json.put("subject", csv.subject());
        json.put("measure", wish.measure());
        json.put("scale", series.scale().name().toLowerCase(Locale.ROOT));
        json.put("n", series.size());
        json.put("rows_without_value", csv.withoutValue());
        json.put("first_case_number", series.caseNumber()[0]);
        json.put("last_case_number", series.last());
        String who = csv.subject() == null ? "" : " of " + csv.subject();
        lines.add(series.size() + " cases" + who + ", numbers " + number(series.caseNumber()[0]) + " to "
                + number(series.last()) + "; " + wish.measure()
                + (series.scale() == CaseSeries.Scale.LOG ? ", errors as factors" : ", errors as differences"));
        if (csv.withoutValue() > 0) {
            warnings.add(
                    csv.withoutValue() + (csv.withoutValue() == 1 ? " row" : " rows") + " without a value left out.");
        }
        if (csv.repeated()) {
            warnings.add("Some case numbers occur more than once; each row was taken as a case.");
        }
        models();
        parameters();
        outliers();
        changePoints();
        reference();
        return new Answer(json, lines, warnings, sentence());
    }

    private void models() {
        TextTable table = new TextTable("curve", ">AICc", ">difference", ">weight", ">residual SD", "");
        List<Object> all = new ArrayList<>();
        for (ModelComparison.Candidate candidate : comparison.candidates()) {
            LearningFit one = candidate.fit();
            boolean chosen = one.model() == fit.model();
            table.row(
                    name(one.model()),
                    Figures.plain(one.aicc(), 2),
                    Figures.plain(candidate.delta(), 2),
                    Figures.plain(candidate.weight()),
                    Figures.plain(one.fit().residualSd(), 4),
                    chosen ? wish.chosenByCriterion() ? "best by AICc" : "as asked for" : "");
            all.add(Json.object(
                    "model", name(one.model()),
                    "aicc", one.aicc(),
                    "delta", candidate.delta(),
                    "weight", candidate.weight(),
                    "residual_sd", one.fit().residualSd(),
                    "parameters", one.fit().parameters(),
                    "told_from_best", candidate.delta() >= ModelComparison.INDISTINCT));
        }
        lines.add("");
        lines.addAll(Answer.lines(table));
        json.put("model", name(fit.model()));
        json.put("models", all);
        json.put("model_choice", comparison.sentence());
        List<Object> failed = new ArrayList<>();
        for (ModelComparison.Failure failure : comparison.failed()) {
            failed.add(Json.object(
                    "model", name(failure.model()), "why", failure.refusal().why()));
            warnings.add("The " + name(failure.model()) + " curve could not be fitted: "
                    + failure.refusal().why() + ".");
        }
        json.put("models_failed", failed);
        lines.add(comparison.sentence());
    }

    private void parameters() {
        boolean robust = outlying instanceof Outcome.Found<OutlyingCases>;
        String loss = wish.robust() == null ? "bisquare" : wish.robust().name().toLowerCase(Locale.ROOT);
        TextTable table = new TextTable(name(fit.model()) + " curve", ">estimate", "limits", ">" + loss);
        List<Object> all = new ArrayList<>();
        double[] down = robust ? outlying.orElseThrow().fit().parameters() : new double[0];
        for (int j = 0; j < estimates.size(); j++) {
            Estimate estimate = estimates.get(j);
            String parameter = fit.model().parameters().get(j);
            table.row(
                    parameter.replace('_', ' '),
                    Figures.plain(estimate.value()),
                    estimate.limits() == null ? "–" : Figures.limits(estimate.limits()),
                    robust ? Figures.plain(down[j]) : "–");
            Map<String, @Nullable Object> one = new LinkedHashMap<>();
            one.put("name", parameter);
            one.putAll(Figures.json(estimate));
            one.put("robust_estimate", robust ? (Double) down[j] : null);
            all.add(one);
            estimate.warnings().forEach(warning -> warnings.add(parameter.replace('_', ' ') + ": " + warning));
            unbounded(parameter.replace('_', ' '), estimate.limits());
        }
        lines.add("");
        lines.addAll(Answer.lines(table));
        double last = series.last();
        lines.add("Expected at case 1: " + Figures.plain(fit.valueAt(1)) + "; at case " + number(last) + ": "
                + Figures.plain(fit.valueAt(last)));
        json.put("parameters", all);
        json.put("expected_first", fit.valueAt(1));
        json.put("expected_last", fit.valueAt(last));
    }

    private void unbounded(String parameter, @Nullable Interval limits) {
        if (limits != null && Double.isInfinite(limits.lower())) {
            warnings.add("The data set no lower limit to " + parameter + ".");
        }
        if (limits != null && Double.isInfinite(limits.upper())) {
            warnings.add("The data set no upper limit to " + parameter + ".");
        }
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
                    number(one.caseNumber()),
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
                    .append(number(series.caseNumber()[i]))
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
            json.put("model_without_outliers", name(best));
            if (best != comparison.best().model()) {
                warnings.add("Without the outlying " + (far.size() == 1 ? "case" : "cases") + " the " + name(best)
                        + " curve would be best by AICc; --model " + name(best) + " shows it.");
            }
        }
    }

    private void changePoints() {
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
                "beyond the data (last case " + number(cases.last()) + "); drawn on, case "
                        + Figures.plain(cases.cases(), 1);
            case NEVER -> "never on this curve";
        };
    }

    private String sentence() {
        double first = fit.valueAt(1);
        double last = fit.valueAt(series.last());
        boolean flat = fit.model() == LearningModel.CONSTANT
                || comparison.supported().stream().anyMatch(c -> c.fit().model() == LearningModel.CONSTANT);
        String change = flat
                ? "No change of the " + wish.measure() + " with the case number is shown"
                : "By the " + name(fit.model()) + " curve the " + wish.measure() + " goes from "
                        + Figures.plain(first, 2) + " at case 1 to " + Figures.plain(last, 2) + " at case "
                        + number(series.last()) + ", " + (last < first == wish.lowerIsBetter() ? "a" : "no")
                        + " change for the better";
        return change
                + "; this describes one trainee's cases for feedback: speed is not competence, later cases are often"
                + " harder ones, and case mix is not adjusted for.";
    }

    static String name(LearningModel model) {
        return model.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    private static String number(double value) {
        return value == Math.rint(value) ? Long.toString((long) value) : Figures.plain(value, 1);
    }
}
