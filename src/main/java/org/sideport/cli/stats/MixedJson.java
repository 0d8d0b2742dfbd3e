package org.sideport.cli.stats;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.mixed.ExplainedVariance;
import org.sideport.stats.mixed.FixedEffect;
import org.sideport.stats.mixed.GrowthCurve;
import org.sideport.stats.mixed.MixedFit;
import org.sideport.stats.mixed.RandomEffects;
import org.sideport.stats.mixed.SlopeVarianceTest;
import org.sideport.stats.mixed.SubjectEffect;

/** The mixed model for machines. Model figures are on the scale of the model; {@code change} and values on people's. */
final class MixedJson {

    private final GrowthCurve curve;
    private final MixedFit fit;
    private final MixedScale scale;
    private final List<Double> at;

    MixedJson(GrowthCurve curve, MixedScale scale, List<Double> at) {
        this.curve = curve;
        this.fit = curve.fit();
        this.scale = scale;
        this.at = at;
    }

    Map<String, @Nullable Object> object() {
        Map<String, @Nullable Object> json = new LinkedHashMap<>();
        json.put("log_response", curve.design().logResponse());
        json.put("time", curve.design().time().name().toLowerCase(Locale.ROOT));
        json.put("criterion", fit.criterionName());
        json.put("criterion_value", fit.criterion());
        json.put("log_likelihood", fit.logLikelihood());
        json.put("aic", fit.aic());
        json.put("observations", fit.observations());
        json.put("subjects", fit.subjects());
        json.put(
                "fixed_effects",
                fit.fixedEffects().stream().map(MixedJson::effect).toList());
        json.put("slope_change", change());
        json.put("random_effects", random());
        json.put("icc", fit.intraclassCorrelation().value());
        ExplainedVariance explained = fit.explainedVariance();
        json.put("r2_marginal", explained.marginal());
        json.put("r2_conditional", explained.conditional());
        SlopeVarianceTest test = fit.slopeVarianceTest();
        json.put(
                curve.design().randomSlope() ? "slope_variance_test" : "intercept_variance_test",
                test == null
                        ? null
                        : Json.object(
                                "likelihood_ratio", test.ratio(),
                                "p", test.p(),
                                "p_conservative", test.pConservative(),
                                "method",
                                        "even mixture of chi-square with " + (test.randomColumns() - 1) + " and "
                                                + test.randomColumns() + " degrees of freedom"));
        json.put(
                "population",
                at.stream().map(n -> value(n, curve.population(n))).toList());
        json.put("trainees", fit.subjectEffects().stream().map(this::trainee).toList());
        return json;
    }

    static Map<String, @Nullable Object> effect(FixedEffect effect) {
        Map<String, @Nullable Object> json = new LinkedHashMap<>();
        json.put("name", effect.name());
        json.putAll(Figures.json(effect.estimate()));
        json.put("t", effect.t());
        json.put("df", effect.df());
        json.put("p", effect.p());
        return json;
    }

    private Map<String, @Nullable Object> change() {
        Estimate slope = curve.slope().estimate();
        Interval limits = scale.change(MixedScale.limits(slope));
        return Json.object(
                "unit",
                curve.design().logResponse() ? "share" : "value",
                "per",
                scale.changeUnit(),
                "estimate",
                scale.change(slope.value()),
                "lower",
                limits.lower(),
                "upper",
                limits.upper());
    }

    private Map<String, @Nullable Object> random() {
        RandomEffects random = fit.randomEffects();
        return Json.object(
                "sd",
                random.components().stream()
                        .map(c -> limited(Json.object("name", c.name(), "estimate", c.sd()), c.limits()))
                        .toList(),
                "correlations",
                random.correlations().stream()
                        .map(c -> limited(
                                Json.object("first", c.second(), "second", c.first(), "estimate", c.value()),
                                c.limits()))
                        .toList(),
                "residual_sd",
                limited(Json.object("estimate", random.residualSd()), random.residualLimits()),
                "limits_method",
                random.residualLimits() == null ? null : "profile likelihood (ML)",
                "singular",
                random.singular());
    }

    private static Map<String, @Nullable Object> limited(
            Map<String, @Nullable Object> json, @Nullable Interval limits) {
        json.put("lower", limits == null ? null : Figures.finite(limits.lower()));
        json.put("upper", limits == null ? null : Figures.finite(limits.upper()));
        return json;
    }

    private Map<String, @Nullable Object> value(double n, Estimate estimate) {
        return limited(
                Json.object("case_number", n, "value", scale.value(estimate.value())),
                scale.value(MixedScale.limits(estimate)));
    }

    private Map<String, @Nullable Object> trainee(SubjectEffect subject) {
        Map<String, @Nullable Object> json = Json.object("subject", subject.subject(), "n", subject.n());
        for (SubjectEffect.Deviation deviation : subject.deviations()) {
            boolean slope = deviation.name().equals(curve.design().time().column());
            json.put(
                    slope ? "slope" : "intercept",
                    Json.object(
                            "deviation",
                            deviation.blup(),
                            "conditional_sd",
                            deviation.conditionalSd(),
                            "own",
                            Figures.json(deviation.own()),
                            "shrinkage",
                            deviation.shrinkage()));
            if (slope) {
                Interval limits = scale.change(MixedScale.limits(deviation.own()));
                json.put(
                        "change",
                        limited(
                                Json.object(
                                        "per",
                                        scale.changeUnit(),
                                        "estimate",
                                        scale.change(deviation.own().value())),
                                limits));
            }
        }
        json.put(
                "at",
                at.stream()
                        .map(n -> {
                            Map<String, @Nullable Object> there = value(n, curve.own(subject.subject(), n));
                            Interval single =
                                    scale.value(MixedScale.limits(curve.ownObservation(subject.subject(), n)));
                            there.put("new_case_lower", single.lower());
                            there.put("new_case_upper", single.upper());
                            return there;
                        })
                        .toList());
        return json;
    }
}
