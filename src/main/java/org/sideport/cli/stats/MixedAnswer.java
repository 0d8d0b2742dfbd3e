package org.sideport.cli.stats;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.stats.Outcome;
import org.sideport.stats.mixed.ConditionalResiduals;
import org.sideport.stats.mixed.FixedEffect;
import org.sideport.stats.mixed.GrowthCurve;
import org.sideport.stats.mixed.GrowthDesign.Time;
import org.sideport.stats.mixed.MixedFit;
import org.sideport.stats.mixed.MixedModel;
import org.sideport.stats.mixed.MixedOptions;

/** What the mixed model says: puts tables, JSON, warnings and the sentence together. */
final class MixedAnswer {

    private final MixedCsv csv;
    private final GrowthCurve curve;
    private final MixedFit fit;
    private final boolean higherIsBetter;
    private final List<Double> at;
    private final MixedScale scale;
    private final double[] residuals;
    private final double bound;
    private final List<Integer> outliers;
    private final @Nullable Outcome<GrowthCurve> without;

    MixedAnswer(MixedCsv csv, GrowthCurve curve, MixedOptions options, boolean higherIsBetter, List<Double> at) {
        this.csv = csv;
        this.curve = curve;
        this.fit = curve.fit();
        this.higherIsBetter = higherIsBetter;
        this.at = at;
        this.scale = new MixedScale(curve.design());
        ConditionalResiduals checked = fit.residuals();
        this.residuals = checked.standardised();
        this.bound = checked.bound();
        this.outliers = checked.outliers();
        this.without = outliers.isEmpty() ? null : refit(options);
    }

    private Outcome<GrowthCurve> refit(MixedOptions options) {
        MixedCsv less = csv.without(new HashSet<>(outliers));
        MixedOptions plain = new MixedOptions(options.criterion(), options.level(), false);
        return curve.design()
                .data(less.subject(), less.caseNumber(), less.value(), less.covariates())
                .flatMap(data -> MixedModel.fit(data, plain))
                .map(other -> new GrowthCurve(curve.design(), other));
    }

    Answer answer() {
        MixedTables tables = new MixedTables(curve, scale, at);
        List<String> lines = new ArrayList<>(tables.lines());
        lines.addAll(outlierLines());
        return new Answer(json(), lines, warnings(), sentence());
    }

    private List<String> outlierLines() {
        if (outliers.isEmpty()) {
            return List.of();
        }
        List<String> lines = new ArrayList<>(
                List.of("", "Outlying cases (standardised residual beyond " + Figures.plain(bound, 1) + ")"));
        lines.addAll(MixedTables.outliers(csv, residuals, outliers));
        lines.add(withoutThem());
        return lines;
    }

    private String withoutThem() {
        String slope = "Slope with all cases " + scale.effect(curve.slope().estimate());
        if (without instanceof Outcome.Found<GrowthCurve> found) {
            return slope + "; without them "
                    + scale.effect(found.value().slope().estimate()) + ".";
        }
        return slope + "; without them no fit is possible.";
    }

    private List<String> warnings() {
        List<String> warnings = new ArrayList<>(fit.warnings());
        if (csv.withoutValue() > 0) {
            warnings.add(
                    csv.withoutValue() + " row" + (csv.withoutValue() == 1 ? "" : "s") + " without a value left out");
        }
        if (csv.repeated() > 0) {
            warnings.add(csv.repeated() + " row" + (csv.repeated() == 1 ? " repeats" : "s repeat")
                    + " a trainee's case number; each is taken as a case of its own");
        }
        if (!outliers.isEmpty()) {
            warnings.add(outliers.size() + " outlying case" + (outliers.size() == 1 ? "" : "s")
                    + " kept in the fit; compare the slope without them, and look the cases up before leaving any out");
        }
        if (csv.covariates().isEmpty()) {
            warnings.add("no covariate: harder cases are often given later, which hides improvement;"
                    + " add the case-mix columns you have with --covariates");
        }
        return warnings;
    }

    private String sentence() {
        FixedEffect slope = curve.slope();
        double b = slope.estimate().value();
        boolean better = higherIsBetter == b > 0;
        double lower = MixedScale.limits(slope.estimate()).lower();
        double upper = MixedScale.limits(slope.estimate()).upper();
        boolean clear = lower > 0 || upper < 0;
        String per = curve.design().time() == Time.LOG ? "per doubling of the number of cases" : "per 10 cases";
        String change = scale.change(slope.estimate());
        String who = "Across " + fit.subjects() + " trainees and " + fit.observations() + " cases ";
        String finding = clear
                ? who + (better ? "an improvement " : "a change for the worse ") + per + " is shown: "
                : who + "no improvement " + per + " is shown, and none is ruled out: ";
        String adjusted = csv.covariateNames().isEmpty()
                ? "not adjusted for case mix"
                : "adjusted for " + String.join(", ", csv.covariateNames());
        String caution = curve.design().logResponse()
                ? " Speed is not competence: a duration alone passes or fails no one."
                : " A score over time is not competence by itself.";
        return finding + change + ", " + adjusted
                + ". Each trainee's own slope is drawn towards the mean the more, the fewer cases there are, so trainees"
                + " with few cases look alike." + caution
                + " For formative use; decisions rest with the training body's rules and licensed judgement.";
    }

    private Map<String, @Nullable Object> json() {
        Map<String, @Nullable Object> json = new MixedJson(curve, scale, at).object();
        Set<Integer> inOrder = new TreeSet<>(outliers);
        json.put("outlier_bound", bound);
        json.put(
                "outliers",
                inOrder.stream()
                        .map(i -> Json.object(
                                "subject",
                                        csv.subject().levels().get(csv.subject().codes()[i]),
                                "case_number", csv.caseNumber()[i],
                                "value", csv.value()[i],
                                "standardised_residual", residuals[i]))
                        .toList());
        json.put("without_outliers", withoutJson());
        json.put("better", higherIsBetter ? "higher" : "lower");
        json.put("covariates", csv.covariateNames());
        json.put("rows_without_value", csv.withoutValue());
        return json;
    }

    private @Nullable Object withoutJson() {
        if (without instanceof Outcome.Found<GrowthCurve> found) {
            return Json.object(
                    "slope", MixedJson.effect(found.value().slope()),
                    "residual_sd", found.value().fit().randomEffects().residualSd(),
                    "observations", found.value().fit().observations());
        }
        if (without instanceof Outcome.Refused<GrowthCurve> refused) {
            return Json.object(
                    "refused",
                    Json.object(
                            "reason", refused.refusal().reason().name().toLowerCase(Locale.ROOT),
                            "why", refused.refusal().why(),
                            "remedy", refused.refusal().remedy()));
        }
        return null;
    }
}
