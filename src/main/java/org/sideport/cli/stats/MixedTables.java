package org.sideport.cli.stats;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.TextTable;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.mixed.ExplainedVariance;
import org.sideport.stats.mixed.FixedEffect;
import org.sideport.stats.mixed.GrowthCurve;
import org.sideport.stats.mixed.MixedFit;
import org.sideport.stats.mixed.RandomEffects;
import org.sideport.stats.mixed.SlopeVarianceTest;
import org.sideport.stats.mixed.SubjectEffect;

/** The mixed model as aligned text. */
final class MixedTables {

    private final GrowthCurve curve;
    private final MixedFit fit;
    private final MixedScale scale;
    private final List<Double> at;

    MixedTables(GrowthCurve curve, MixedScale scale, List<Double> at) {
        this.curve = curve;
        this.fit = curve.fit();
        this.scale = scale;
        this.at = at;
    }

    List<String> lines() {
        List<String> lines = new ArrayList<>();
        lines.add(
                "Linear mixed model of " + (curve.design().logResponse() ? "the log of the value" : "the value") + ", "
                        + fit.observations() + " cases of " + fit.subjects() + " trainees, " + fit.criterionName()
                        + " criterion " + Figures.plain(fit.criterion()));
        lines.add("");
        lines.add("Fixed effects" + (curve.design().logResponse() ? " (on the log scale)" : ""));
        lines.addAll(fixed());
        lines.add("");
        lines.add("Variation between trainees");
        lines.addAll(random());
        lines.addAll(summary());
        lines.add("");
        lines.add("Expected value at case" + (curve.design().logResponse() ? " (geometric mean)" : ""));
        lines.addAll(population());
        lines.add("");
        lines.add("Trainees: own change " + scale.changeUnit() + ", drawn to the mean by the share shown");
        lines.addAll(trainees());
        return lines;
    }

    private List<String> fixed() {
        TextTable table = new TextTable("effect", ">estimate", ">SE", ">df", ">t", ">p", ">limits");
        for (FixedEffect effect : fit.fixedEffects()) {
            Estimate estimate = effect.estimate();
            table.row(
                    effect.name(),
                    Figures.plain(estimate.value(), 4),
                    Figures.plain(estimate.se(), 4),
                    Figures.plain(effect.df(), 1),
                    Figures.plain(effect.t()),
                    p(effect.p()),
                    limits(estimate.limits(), 4));
        }
        return Answer.lines(table);
    }

    private List<String> random() {
        TextTable table = new TextTable("component", ">SD", ">limits");
        RandomEffects random = fit.randomEffects();
        for (RandomEffects.Component component : random.components()) {
            table.row(component.name(), Figures.plain(component.sd(), 4), limits(component.limits(), 4));
        }
        table.row("residual", Figures.plain(random.residualSd(), 4), limits(random.residualLimits(), 4));
        for (RandomEffects.Correlation correlation : random.correlations()) {
            table.row("correlation", Figures.plain(correlation.value(), 4), limits(correlation.limits(), 4));
        }
        return Answer.lines(table);
    }

    private List<String> summary() {
        List<String> lines = new ArrayList<>();
        ExplainedVariance explained = fit.explainedVariance();
        lines.add("Explained variance: marginal " + Figures.percent(explained.marginal()) + ", conditional "
                + Figures.percent(explained.conditional()) + "; intraclass correlation "
                + Figures.plain(fit.intraclassCorrelation().value()));
        SlopeVarianceTest test = fit.slopeVarianceTest();
        if (test != null) {
            lines.add("Do trainees differ in their " + (curve.design().randomSlope() ? "slope" : "level")
                    + "? Likelihood ratio " + Figures.plain(test.ratio()) + ", p " + p(test.p())
                    + " (mixture of chi-squares)");
        }
        return lines;
    }

    private List<String> population() {
        TextTable table = new TextTable(">case", ">population", ">limits");
        for (double n : at) {
            Estimate estimate = curve.population(n);
            table.row(
                    caseNumber(n),
                    Figures.plain(scale.value(estimate.value())),
                    limits(scale.value(MixedScale.limits(estimate)), 3));
        }
        return Answer.lines(table);
    }

    private List<String> trainees() {
        boolean slope = curve.design().randomSlope();
        List<String> headers = new ArrayList<>(List.of("trainee", ">cases"));
        if (slope) {
            headers.addAll(List.of(">change", ">limits", ">drawn"));
        } else {
            headers.addAll(List.of(">level", ">limits", ">drawn"));
        }
        for (double n : at) {
            headers.add(">at " + caseNumber(n));
            headers.add(">limits");
        }
        TextTable table = new TextTable(headers.toArray(String[]::new));
        for (SubjectEffect subject : fit.subjectEffects()) {
            table.row(trainee(subject, slope).toArray(String[]::new));
        }
        return Answer.lines(table);
    }

    private List<String> trainee(SubjectEffect subject, boolean slope) {
        SubjectEffect.Deviation deviation = subject.deviations().get(slope ? 1 : 0);
        Estimate own = deviation.own();
        List<String> cells = new ArrayList<>(List.of(subject.subject(), String.valueOf(subject.n())));
        if (slope) {
            Interval limits = scale.change(MixedScale.limits(own));
            cells.add(scale.number(scale.change(own.value())));
            cells.add(scale.number(limits.lower()) + " to " + scale.number(limits.upper()));
        } else {
            cells.add(Figures.plain(scale.value(own.value())));
            cells.add(limits(scale.value(MixedScale.limits(own)), 3));
        }
        cells.add(Figures.plain(100 * deviation.shrinkage(), 0) + " %");
        for (double n : at) {
            Estimate there = curve.own(subject.subject(), n);
            cells.add(Figures.plain(scale.value(there.value())));
            cells.add(limits(scale.value(MixedScale.limits(there)), 3));
        }
        return cells;
    }

    static List<String> outliers(MixedCsv csv, double[] residuals, List<Integer> outliers) {
        TextTable table = new TextTable("trainee", ">case", ">value", ">residual");
        for (int i : outliers) {
            table.row(
                    csv.subject().levels().get(csv.subject().codes()[i]),
                    caseNumber(csv.caseNumber()[i]),
                    Figures.plain(csv.value()[i]),
                    Figures.plain(residuals[i], 2));
        }
        return Answer.lines(table);
    }

    private static String caseNumber(double n) {
        return Figures.plain(n, n == Math.rint(n) ? 0 : 2);
    }

    private static String p(double p) {
        return p < 0.0001 ? "<0.0001" : Figures.plain(p, 4);
    }

    private static String limits(@Nullable Interval limits, int decimals) {
        return limits == null
                ? "–"
                : Figures.plain(limits.lower(), decimals) + " to " + Figures.plain(limits.upper(), decimals);
    }
}
