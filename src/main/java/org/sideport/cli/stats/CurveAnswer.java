package org.sideport.cli.stats;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.learning.CaseSeries;
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

    private final CurveCsv csv;
    private final ModelComparison comparison;
    private final LearningFit fit;
    private final List<Outcome<ChangePoint>> changes;
    private final Wish wish;
    private final CaseSeries series;
    private final List<Estimate> estimates;
    private final Outcome<OutlyingCases> outlying;
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
        new CurveFindings(comparison, fit, outlying, wish, lines, warnings, json).add(changes);
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

    static String number(double value) {
        return value == Math.rint(value) ? Long.toString((long) value) : Figures.plain(value, 1);
    }
}
