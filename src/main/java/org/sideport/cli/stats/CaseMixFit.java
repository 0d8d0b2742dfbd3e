package org.sideport.cli.stats;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.model.InputException;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.casemix.CaseOutcomes;
import org.sideport.stats.casemix.Coefficient;
import org.sideport.stats.casemix.ConcordanceStatistic;
import org.sideport.stats.casemix.LogisticFit;
import org.sideport.stats.casemix.LogisticMethod;
import org.sideport.stats.casemix.LogisticRegression;
import org.sideport.stats.casemix.RiskCalibration;
import org.sideport.stats.casemix.Term;
import org.sideport.stats.data.Factor;
import org.sideport.timing.CsvTable;

/** A logistic model of a table of cases, and how well it agrees with them. */
record CaseMixFit(CsvTable table, String outcome, double level) {

    Outcome<Answer> answer(List<String> factors, Map<String, String> references, boolean firth) {
        LongCsv.need(table, outcome);
        factors.forEach(name -> LongCsv.need(table, name));
        if (factors.contains(outcome)) {
            throw new InputException("the outcome " + outcome + " cannot be a factor too", "--factors", "leave it out");
        }
        if (factors.stream().distinct().count() < factors.size()) {
            throw new InputException("a factor is named twice", "--factors", "name each once");
        }
        references.keySet().stream().filter(name -> !factors.contains(name)).forEach(name -> {
            throw new InputException(name + " is not among the factors", "--reference", "name it in --factors too");
        });
        List<CsvTable.Row> rows = table.rows().stream()
                .filter(row ->
                        row.orNull(outcome) != null && factors.stream().allMatch(name -> row.orNull(name) != null))
                .toList();
        if (rows.isEmpty()) {
            throw new InputException(
                    "no row has the outcome and all factors", table.file().toString(), "fill the columns in");
        }
        CaseOutcomes data = new CaseOutcomes(
                rows.stream().mapToDouble(row -> outcome(row, outcome)).toArray(), terms(rows, factors, references));
        return new LogisticRegression(firth ? LogisticMethod.FIRTH : LogisticMethod.MAXIMUM_LIKELIHOOD, level, true)
                .fit(data)
                .map(fit -> answer(data, fit, rows));
    }

    private static List<Term> terms(List<CsvTable.Row> rows, List<String> factors, Map<String, String> references) {
        List<Term> terms = new ArrayList<>();
        for (String name : factors) {
            Factor factor =
                    Factor.of(name, rows.stream().map(row -> row.required(name)).toList());
            @Nullable String reference = references.get(name);
            if (reference != null && !factor.levels().contains(reference)) {
                throw new InputException(
                        "no case has the level " + reference + " of " + name,
                        "--reference",
                        "take one of " + String.join(", ", factor.levels()));
            }
            terms.addAll(reference == null ? Term.of(factor) : Term.indicators(factor, reference));
        }
        return terms;
    }

    /** 0 or 1. */
    static double outcome(CsvTable.Row row, String column) {
        double value = LongCsv.number(row, column);
        if (value != 0 && value != 1) {
            throw row.fault(
                    "the " + column + " is " + row.text(column) + ", neither 0 nor 1",
                    "write 1 where it happened and 0 where not");
        }
        return value;
    }

    private Answer answer(CaseOutcomes data, LogisticFit fit, List<CsvTable.Row> rows) {
        RiskCalibration calibration = RiskCalibration.of(fit.risk(), data.outcome(), true, level);
        Estimate concordance =
                ConcordanceStatistic.of(fit.risk(), data.outcome(), level).orElseThrow();
        List<String> warnings = new ArrayList<>(fit.warnings());
        int left = table.rows().size() - rows.size();
        if (left > 0) {
            warnings.add(left + " rows lack the outcome or a factor and were left out.");
        }
        warnings.addAll(calibration.warnings());
        List<Object> coefficients = new ArrayList<>();
        TextTable text = new TextTable("term", ">log odds", ">SE", ">odds ratio", ">lower", ">upper", ">p");
        for (Coefficient c : fit.coefficients()) {
            Interval limits = c.oddsRatioLimits();
            @Nullable Double ratio = c.pLikelihoodRatio();
            text.row(
                    c.name(),
                    Figures.plain(c.estimate()),
                    Figures.plain(c.se()),
                    Figures.plain(c.oddsRatio()),
                    Figures.plain(limits.lower()),
                    Figures.plain(limits.upper()),
                    p(ratio == null ? c.pWald() : ratio));
            coefficients.add(json(c));
        }
        List<String> lines = new ArrayList<>(Answer.lines(text));
        lines.add("");
        lines.add(fit.method().words() + "; " + fit.n() + " cases, " + fit.events() + " with the event; deviance "
                + Figures.plain(fit.deviance()) + " (without factors " + Figures.plain(fit.nullDeviance()) + ")");
        lines.add("Limits and p by the likelihood ratio. c-statistic " + Figures.of(concordance) + ".");
        lines.add("");
        lines.addAll(calibrationLines(calibration));
        List<Object> risks = new ArrayList<>();
        for (int i = 0; i < rows.size(); i++) {
            risks.add(Json.object("case", rows.get(i).orNull("case"), "risk", fit.risk()[i]));
        }
        return new Answer(
                Json.object(
                        "method",
                        fit.method().words(),
                        "n",
                        fit.n(),
                        "events",
                        fit.events(),
                        "coefficients",
                        coefficients,
                        "deviance",
                        fit.deviance(),
                        "null_deviance",
                        fit.nullDeviance(),
                        "log_likelihood",
                        fit.logLikelihood(),
                        "aic",
                        fit.aic(),
                        "separation",
                        fit.separation().kind().name().toLowerCase(java.util.Locale.ROOT),
                        "c_statistic",
                        Figures.json(concordance),
                        "calibration",
                        calibrationJson(calibration),
                        "risks",
                        risks),
                lines,
                warnings,
                "An odds ratio says how the odds of the event went with a factor in these cases, not that the factor"
                        + " caused it; adjusting for case mix lessens differences in difficulty and never removes"
                        + " them, so what follows for a person is for the local credentialing body to decide.");
    }

    private static String p(@Nullable Double p) {
        return p != null && p < 0.001 ? "< 0.001" : Figures.plain(p);
    }

    private static Map<String, @Nullable Object> json(Coefficient c) {
        @Nullable Interval profile = c.profile();
        return Json.object(
                "factor",
                c.factor(),
                "level",
                c.level(),
                "estimate",
                c.estimate(),
                "se",
                c.se(),
                "z",
                c.z(),
                "p_wald",
                c.pWald(),
                "wald_lower",
                c.wald().lower(),
                "wald_upper",
                c.wald().upper(),
                "profile_lower",
                profile == null ? null : profile.lower(),
                "profile_upper",
                profile == null ? null : profile.upper(),
                "likelihood_ratio",
                c.likelihoodRatio(),
                "p_likelihood_ratio",
                c.pLikelihoodRatio(),
                "odds_ratio",
                c.oddsRatio(),
                "odds_ratio_lower",
                Figures.finite(c.oddsRatioLimits().lower()),
                "odds_ratio_upper",
                Figures.finite(c.oddsRatioLimits().upper()),
                "level_of_limits",
                c.wald().level());
    }

    static List<String> calibrationLines(RiskCalibration found) {
        List<String> lines = new ArrayList<>();
        TextTable table = new TextTable("risk from", "to", ">cases", ">observed", ">expected");
        found.groups()
                .forEach(g -> table.row(
                        Figures.percent(g.from()),
                        Figures.percent(g.to()),
                        Integer.toString(g.n()),
                        Integer.toString(g.observed()),
                        Figures.plain(g.expected(), 2)));
        lines.addAll(Answer.lines(table));
        lines.add("Observed " + found.events().observed() + ", expected "
                + Figures.plain(found.events().expected(), 2) + "; ratio "
                + Figures.of(found.events().ratio())
                + "; chance of so many or more "
                + Figures.plain(found.events().atLeast()) + ", of so few or fewer "
                + Figures.plain(found.events().atMost()));
        if (found.hosmerLemeshow() != null) {
            lines.add("Hosmer-Lemeshow chi-square " + Figures.plain(found.hosmerLemeshow(), 2) + " on "
                    + found.degreesOfFreedom() + " degrees of freedom, p " + p(found.p()));
        }
        @Nullable Coefficient slope = found.slope();
        @Nullable Coefficient large = found.inTheLarge();
        lines.add("Brier score " + Figures.plain(found.brier(), 4) + "; calibration in the large "
                + (large == null ? "–" : Figures.plain(large.estimate()) + " (" + Figures.limits(large.wald()) + ")")
                + ", slope "
                + (slope == null ? "–" : Figures.plain(slope.estimate()) + " (" + Figures.limits(slope.wald()) + ")"));
        return lines;
    }

    static Map<String, @Nullable Object> calibrationJson(RiskCalibration found) {
        List<Object> groups = new ArrayList<>();
        found.groups()
                .forEach(g -> groups.add(Json.object(
                        "from",
                        g.from(),
                        "to",
                        g.to(),
                        "n",
                        g.n(),
                        "observed",
                        g.observed(),
                        "expected",
                        g.expected())));
        return Json.object(
                "observed",
                found.events().observed(),
                "expected",
                found.events().expected(),
                "sd",
                found.events().sd(),
                "p_at_least",
                found.events().atLeast(),
                "p_at_most",
                found.events().atMost(),
                "observed_to_expected",
                Figures.json(found.events().ratio()),
                "groups",
                groups,
                "hosmer_lemeshow",
                found.hosmerLemeshow(),
                "degrees_of_freedom",
                found.degreesOfFreedom(),
                "p",
                found.p(),
                "brier",
                found.brier(),
                "in_the_large",
                brief(found.inTheLarge()),
                "slope",
                brief(found.slope()));
    }

    private static @Nullable Map<String, @Nullable Object> brief(@Nullable Coefficient c) {
        return c == null
                ? null
                : Json.object(
                        "estimate",
                        c.estimate(),
                        "se",
                        c.se(),
                        "lower",
                        c.wald().lower(),
                        "upper",
                        c.wald().upper(),
                        "level",
                        c.wald().level());
    }
}
