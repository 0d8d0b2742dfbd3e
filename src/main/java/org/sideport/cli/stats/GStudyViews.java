package org.sideport.cli.stats;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.model.InputException;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.data.Factor;
import org.sideport.stats.data.LongData;
import org.sideport.stats.gtheory.EffectVariance;
import org.sideport.stats.gtheory.GStudy;
import org.sideport.timing.CsvTable;

/** What {@code gstudy} and {@code dstudy} share: reading the data, showing components. */
final class GStudyViews {

    private static final String OBJECT = "subject";
    private static final List<String> FACETS = List.of("case", "item", "rater");

    private GStudyViews() {}

    static Outcome<GStudy> study(Path file, Map<String, String> nested, boolean repeats, GStudy.Method method) {
        CsvTable table = ColumnNames.read(file);
        LongData data = LongCsv.of(table, "score", List.of(OBJECT), FACETS);
        if (data.factors().size() < 2) {
            throw new InputException(
                    "there is no column rater, case or item", file + ", line 1", "add the ones that apply");
        }
        Map<String, Set<String>> within = new HashMap<>();
        nested.forEach((inner, outer) -> {
            Set<String> outers = names(outer);
            outers.add(OBJECT.equals(inner) ? "" : inner);
            for (String name : outers) {
                if (data.find(name).isEmpty()) {
                    throw new InputException(
                            "--nested " + inner + "=" + outer + ": there is no facet " + name,
                            file.toString(),
                            "the facets of this file are "
                                    + String.join(
                                            ", ",
                                            data.factors().stream()
                                                    .map(Factor::name)
                                                    .toList()));
                }
            }
            outers.remove(inner);
            within.put(inner, outers);
        });
        if (!repeats) {
            String twice = scoredTwice(data);
            if (twice != null) {
                List<String> unused = table.columns().stream()
                        .filter(column -> data.find(column).isEmpty() && !column.equals("score"))
                        .toList();
                return Outcome.refused(
                        Refusal.Reason.UNSUITABLE_DATA,
                        twice + (unused.isEmpty() ? "" : "; columns not used: " + String.join(", ", unused)),
                        (unused.isEmpty() ? "add a column case or item" : "rename the column")
                                + " that tells them apart"
                                + (unused.isEmpty() ? "" : " to case or item")
                                + ", or state by --repeats that they are repeats of the same thing");
            }
        }
        try {
            return GStudy.of(data, OBJECT, within, method).map(study -> warned(study, nested));
        } catch (IllegalArgumentException e) {
            throw new InputException(String.valueOf(e.getMessage()), file.toString(), "check --nested", e);
        }
    }

    /** Says which cell holds more than one score; {@code null} if none does. */
    private static @Nullable String scoredTwice(LongData data) {
        Map<List<Integer>, Integer> counts = new HashMap<>();
        for (int i = 0; i < data.size(); i++) {
            List<Integer> cell = new ArrayList<>();
            for (Factor factor : data.factors()) {
                cell.add(factor.codes()[i]);
            }
            counts.merge(cell, 1, Integer::sum);
        }
        return counts.entrySet().stream()
                .filter(cell -> cell.getValue() > 1)
                .min(Comparator.comparing(cell -> cell.getKey().toString()))
                .map(cell -> {
                    List<String> names = new ArrayList<>();
                    for (int f = 0; f < data.factors().size(); f++) {
                        Factor factor = data.factors().get(f);
                        names.add(factor.name() + " "
                                + factor.levels().get(cell.getKey().get(f)));
                    }
                    return "there are " + cell.getValue() + " scores of " + String.join(", ", names);
                })
                .orElse(null);
    }

    /** Labels such as op1, op2 that start anew with each person look like the same cases; only the user knows. */
    private static GStudy warned(GStudy study, Map<String, String> nested) {
        boolean crossed = study.design().names().contains("case")
                && study.design().facet("case").within().isEmpty()
                && !nested.containsKey("case");
        if (!crossed) {
            return study;
        }
        List<String> warnings = new ArrayList<>(study.warnings());
        warnings.add(
                "the " + study.levels().getOrDefault("case", 0) + " cases are taken as the same ones for every subject;"
                        + " if each has cases of their own, add --nested case=subject");
        return new GStudy(
                study.design(),
                study.lines(),
                study.levels(),
                study.n(),
                study.mean(),
                study.method(),
                study.criterion(),
                warnings);
    }

    /** Facet names joined by colons, in lower case. */
    static Set<String> names(String text) {
        Set<String> names = new LinkedHashSet<>();
        for (String name : text.toLowerCase(Locale.ROOT).split(":")) {
            names.add(name.strip());
        }
        return names;
    }

    static List<String> table(GStudy study) {
        TextTable table = new TextTable("Source of variance", ">Levels", ">Variance", ">SE", ">% of total", "");
        for (EffectVariance line : study.lines()) {
            table.row(
                    label(line),
                    line.levels() == 0 ? "–" : String.valueOf(line.levels()),
                    Figures.plain(line.variance(), 4),
                    Figures.plain(line.se(), 4),
                    Figures.plain(share(study, line), 1),
                    line.variance() < 0 ? "negative, counts as 0" : "");
        }
        return Answer.lines(table);
    }

    private static String label(EffectVariance line) {
        return line.effect().isResidual()
                ? "residual (" + line.effect().label() + ", rest)"
                : line.effect().label();
    }

    private static double share(GStudy study, EffectVariance line) {
        return study.total() > 0 ? 100 * line.used() / study.total() : 0;
    }

    static List<Map<String, @Nullable Object>> json(GStudy study) {
        List<Map<String, @Nullable Object>> lines = new ArrayList<>();
        for (EffectVariance line : study.lines()) {
            lines.add(Json.object(
                    "effect",
                    line.effect().name(),
                    "facets",
                    line.effect().facets(),
                    "levels",
                    line.levels() == 0 ? null : line.levels(),
                    "variance",
                    line.variance(),
                    "se",
                    line.se(),
                    "share",
                    share(study, line) / 100,
                    "negative",
                    line.variance() < 0));
        }
        return lines;
    }
}
