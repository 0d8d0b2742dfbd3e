package org.sideport.cli.stats;

import java.nio.file.Path;
import java.util.ArrayList;
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
import org.sideport.stats.data.LongData;
import org.sideport.stats.gtheory.EffectVariance;
import org.sideport.stats.gtheory.GStudy;

/** What {@code gstudy} and {@code dstudy} share: reading the data, showing components. */
final class GStudyViews {

    private static final String OBJECT = "subject";
    private static final List<String> FACETS = List.of("case", "item", "rater");

    private GStudyViews() {}

    static Outcome<GStudy> study(Path file, Map<String, String> nested, GStudy.Method method) {
        LongData data = LongCsv.read(file, "score", List.of(OBJECT), FACETS);
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
                            "--nested " + inner + "=" + outer + ": it names no column of facets",
                            file.toString(),
                            "write for instance --nested rater=subject");
                }
            }
            outers.remove(inner);
            within.put(inner, outers);
        });
        try {
            return GStudy.of(data, OBJECT, within, method);
        } catch (IllegalArgumentException e) {
            throw new InputException(String.valueOf(e.getMessage()), file.toString(), "check --nested", e);
        }
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
