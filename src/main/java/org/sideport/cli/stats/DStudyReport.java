package org.sideport.cli.stats;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.model.Plural;
import org.sideport.stats.Outcome;
import org.sideport.stats.gtheory.CutScore;
import org.sideport.stats.gtheory.DStudy;
import org.sideport.stats.gtheory.DesignSearch;
import org.sideport.stats.gtheory.DesignSearch.Option;
import org.sideport.stats.gtheory.DesignSearch.Wish;
import org.sideport.stats.gtheory.GStudy;

/**
 * What {@code dstudy} says.
 *
 * @param cut cut score, if one is given
 * @param mean overrides the study's mean
 */
record DStudyReport(
        GStudy study,
        DesignSearch search,
        Wish wish,
        double wished,
        @Nullable Double cut,
        @Nullable Double mean) {

    private static final String CAUTION =
            "Studies of simulated or chosen videos promise more than the theatre keeps, and components from few persons"
                    + " are uncertain: take the number as a minimum. Different cases, ideally seen by different raters,"
                    + " help most. Formative use; speed is not competence.";

    /** @param otherRaters the same sizes with other raters for each case; empty where that is no choice */
    Outcome<Answer> answer(List<Option> options, List<Option> otherRaters) {
        List<Option> reaching = DesignSearch.reaching(options, wish, wished);
        List<String> warnings = new ArrayList<>(study.warnings());
        List<String> lines = new ArrayList<>(GStudyViews.table(study));
        lines.add("");
        lines.add("Planned: " + search.template().design().describe() + fixedText());
        Double average = mean == null ? study.mean() : mean;
        boolean cutUsed = cut != null && average != null;
        if (cut != null && average == null) {
            warnings.add("the cut score is not used: with published components give the mean of the scores by --mean");
        }
        List<Map<String, @Nullable Object>> json = new ArrayList<>();
        TextTable table = cutUsed
                ? new TextTable(
                        "Size",
                        ">G",
                        ">Φ",
                        ">SEM rel.",
                        ">SEM abs.",
                        ">Minutes",
                        ">Φ(cut)",
                        ">Same decision",
                        ">Right decision")
                : new TextTable("Size", ">G", ">Φ", ">SEM rel.", ">SEM abs.", ">Minutes");
        for (Option option : options) {
            CutScore score = cut == null || average == null ? null : cutScore(option, average, cut);
            List<String> cells = cells(option);
            if (score != null) {
                cells.add(Figures.plain(score.phiLambda(), 4));
                cells.add(Figures.percent(score.consistency()));
                cells.add(Figures.percent(score.accuracy()));
            }
            table.row(cells.toArray(String[]::new));
            json.add(json(option, score));
        }
        lines.addAll(Answer.lines(table));
        lines.add(
                "G: how far persons are ranked alike again. Φ: how far they stand alike against a standard, severity of"
                        + " raters included. SEM: error of one person's mean, in score points. Minutes: of rating, for one person.");
        lines.add(
                "Thresholds in use (Downing 2004, Medical Education 38:1006): 0.70 formative, 0.80 moderate, 0.90 very high"
                        + " stakes. Negative components count as 0.");
        if (cutUsed) {
            lines.add("Φ(cut): Brennan & Kane 1977. Same and right decision: normal model.");
        }
        return Outcome.of(new Answer(
                Json.object(
                        "method",
                        study.method(),
                        "study_design",
                        study.design().describe(),
                        "planned_design",
                        search.template().design().describe(),
                        "fixed",
                        search.template().fixed().stream().sorted().toList(),
                        "counts_held",
                        held(),
                        "components",
                        GStudyViews.json(study),
                        "options",
                        json,
                        "wish",
                        wished,
                        "coefficient",
                        wish.name().toLowerCase(java.util.Locale.ROOT),
                        "reaching",
                        reaching.stream().map(o -> json(o, null)).toList()),
                lines,
                warnings,
                sentence(options, reaching) + other(otherRaters) + " " + CAUTION));
    }

    private CutScore cutScore(Option option, double average, double at) {
        int persons = study.levels().getOrDefault(study.design().object(), 0);
        // The mean was seen in the study, with the study's numbers.
        double variance = persons == 0 ? 0 : studied().meanVariance(study, persons);
        return CutScore.of(option.coefficients(), average, variance, at);
    }

    private DStudy studied() {
        Map<String, Integer> counts = new HashMap<>();
        for (String facet : study.design().names()) {
            if (!facet.equals(study.design().object())) {
                counts.put(facet, study.levelsWithin(facet));
            }
        }
        return new DStudy(study.design(), counts, search.template().fixed());
    }

    private Map<String, @Nullable Object> held() {
        Map<String, @Nullable Object> held = Json.object();
        search.template().counts().forEach((facet, count) -> {
            if (!search.most().containsKey(facet)) {
                held.put(facet, count);
            }
        });
        return held;
    }

    private String fixedText() {
        String heldText = held().entrySet().stream()
                .map(e -> e.getValue() + " of " + e.getKey())
                .collect(Collectors.joining(", "));
        String fixedNames = search.template().fixed().stream().sorted().collect(Collectors.joining(", "));
        return (heldText.isEmpty() ? "" : "; " + heldText) + (fixedNames.isEmpty() ? "" : "; fixed: " + fixedNames);
    }

    private static List<String> cells(Option option) {
        DStudy.Coefficients c = option.coefficients();
        return new ArrayList<>(List.of(
                size(option),
                Figures.plain(c.g(), 4),
                Figures.plain(c.phi(), 4),
                Figures.plain(c.semRelative(), 3),
                Figures.plain(c.semAbsolute(), 3),
                Figures.plain(option.minutes(), 0)));
    }

    /** {@code 3 cases × 2 raters}. */
    private static String size(Option option) {
        return option.counts().entrySet().stream()
                .sorted(Map.Entry.comparingByKey())
                .map(e -> Plural.of(e.getValue(), e.getKey()))
                .collect(Collectors.joining(" × "));
    }

    private static Map<String, @Nullable Object> json(Option option, @Nullable CutScore score) {
        DStudy.Coefficients c = option.coefficients();
        Map<String, @Nullable Object> json = Json.object(
                "counts",
                new java.util.TreeMap<>(option.counts()),
                "g",
                c.g(),
                "phi",
                c.phi(),
                "universe_variance",
                c.universe(),
                "relative_error_variance",
                c.relativeError(),
                "absolute_error_variance",
                c.absoluteError(),
                "sem_relative",
                c.semRelative(),
                "sem_absolute",
                c.semAbsolute(),
                "minutes",
                option.minutes());
        if (score != null) {
            json.put("phi_lambda", score.phiLambda());
            json.put("decision_consistency", score.consistency());
            json.put("decision_accuracy", score.accuracy());
            json.put("pass_rate", score.passRate());
        }
        return json;
    }

    private String sentence(List<Option> options, List<Option> reaching) {
        String name = wish == Wish.G ? "G" : "Φ";
        if (reaching.isEmpty()) {
            Option best = options.stream()
                    .max(java.util.Comparator.comparingDouble(o -> value(o)))
                    .orElseThrow();
            return "No size tried reaches " + name + " " + Figures.plain(wished, 2) + "; the best, " + size(best)
                    + ", has " + Figures.plain(value(best), 2) + ".";
        }
        String others = reaching.stream()
                .skip(1)
                .limit(3)
                .map(o -> size(o) + " (" + Figures.plain(o.minutes(), 0) + " min)")
                .collect(Collectors.joining("; "));
        return "To reach " + name + " " + Figures.plain(wished, 2) + " for a person, the cheapest is "
                + size(reaching.get(0)) + ": " + name + " " + Figures.plain(value(reaching.get(0)), 2) + ", "
                + Figures.plain(reaching.get(0).minutes(), 0) + " minutes of rating"
                + (others.isEmpty() ? "." : "; or " + others + ".");
    }

    /** What other raters for each case would bring. */
    private String other(List<Option> options) {
        List<Option> reaching = DesignSearch.reaching(options, wish, wished);
        if (reaching.isEmpty()) {
            return "";
        }
        Option best = reaching.get(0);
        return " With other raters for each case (--different rater=case) it is " + size(best) + " each: "
                + (wish == Wish.G ? "G " : "Φ ") + Figures.plain(value(best), 2) + ", "
                + Figures.plain(best.minutes(), 0) + " minutes.";
    }

    private double value(Option option) {
        return wish == Wish.G
                ? option.coefficients().g()
                : option.coefficients().phi();
    }
}
