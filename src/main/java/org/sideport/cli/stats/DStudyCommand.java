package org.sideport.cli.stats;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.model.InputException;
import org.sideport.stats.Outcome;
import org.sideport.stats.gtheory.DStudy;
import org.sideport.stats.gtheory.Design;
import org.sideport.stats.gtheory.DesignSearch;
import org.sideport.stats.gtheory.GStudy;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "dstudy",
        description = {
            "How many cases and raters a dependable assessment needs (decision study): G (Eρ²) for ranking persons, Φ for"
                    + " decisions against a standard, and the cheapest size that reaches a wish.",
            "",
            "Reads a CSV file, one score a row: subject,score and one or more of rater,case,item. For example:",
            "  subject,case,rater,score",
            "  T03,C1,A1,3.5",
            "  sideport stats dstudy scores.csv --wish 0.80 --minutes 15",
            "  sideport stats dstudy scores.csv --nested case=subject    each person has cases of their own",
            "Or takes published components, in any unit, the person first; those not named are 0:",
            "  sideport stats dstudy --components person=77,case=0.5,rater=3.2,person:case=2.8,person:rater=2.3,"
                    + "case:rater=0,residual=14.2",
            ""
        })
final class DStudyCommand extends StatsCommand {

    @Parameters(paramLabel = "DATA.csv", arity = "0..1", description = "The scores; or else --components.")
    @Nullable
    Path file;

    @Option(
            names = "--components",
            paramLabel = "EFFECT=V",
            split = ",",
            description = "Published components of variance; facets that act together are joined by colons.")
    Map<String, Double> components = new LinkedHashMap<>();

    @Option(
            names = "--nested",
            paramLabel = "INNER=OUTER",
            description = {
                "What was nested in the study, such as rater=subject; needed with --components, and for data whose"
                        + " labels start anew. May be repeated."
            })
    Map<String, String> nested = new LinkedHashMap<>();

    @Option(
            names = "--different",
            paramLabel = "INNER=OUTER",
            description = {
                "What the planned assessment nests: rater=case plans other raters for each case, case=subject other cases"
                        + " for each person, rater=subject other raters for each person. May be repeated."
            })
    Map<String, String> different = new LinkedHashMap<>();

    @Option(
            names = "--fixed",
            paramLabel = "FACET",
            split = ",",
            description = "Facets whose levels are all there are, such as the items of the one rubric in use.")
    Set<String> fixed = new LinkedHashSet<>();

    @Option(
            names = "--wish",
            paramLabel = "W",
            defaultValue = "0.80",
            description = "Coefficient to reach; default: ${DEFAULT-VALUE}.")
    double wish = 0.8;

    @Option(
            names = "--coefficient",
            paramLabel = "G|PHI",
            defaultValue = "PHI",
            description = "Which one is to reach it; default: ${DEFAULT-VALUE}.")
    DesignSearch.Wish coefficient = DesignSearch.Wish.PHI;

    @Option(
            names = "--minutes",
            paramLabel = "MIN",
            defaultValue = "15",
            description = "Minutes of one rater for one case; default: ${DEFAULT-VALUE}.")
    double minutes = 15;

    @Option(
            names = "--case-minutes",
            paramLabel = "MIN",
            defaultValue = "0",
            description = "Minutes to prepare one case, whatever the number of raters; default: ${DEFAULT-VALUE}.")
    double caseMinutes;

    @Option(
            names = "--max-cases",
            paramLabel = "N",
            defaultValue = "12",
            description = "Most cases to try; default: ${DEFAULT-VALUE}.")
    int maxCases = 12;

    @Option(
            names = "--max-raters",
            paramLabel = "N",
            defaultValue = "4",
            description = "Most raters to try; default: ${DEFAULT-VALUE}.")
    int maxRaters = 4;

    @Option(
            names = "--number",
            paramLabel = "FACET=N",
            split = ",",
            description = "Number of a facet that is not to be searched, such as item=8; by default as in the data.")
    Map<String, Integer> numbers = new LinkedHashMap<>();

    @Option(names = "--cut", paramLabel = "X", description = "Cut score: pass at or above, in the score's unit.")
    @Nullable
    Double cut;

    @Option(names = "--mean", paramLabel = "X", description = "Mean of the scores, for --cut with --components.")
    @Nullable
    Double mean;

    @Option(
            names = "--repeats",
            description = "Several scores in one cell are repeats of the same thing; without it they are refused.")
    boolean repeats;

    DStudyCommand(Console console) {
        super(console);
    }

    @Override
    Outcome<Answer> answer() {
        if ((file == null) == components.isEmpty()) {
            throw new InputException(
                    "give either a CSV file or --components", null, "see sideport stats dstudy --help");
        }
        if (!(wish > 0 && wish < 1)) {
            throw new InputException("--wish " + wish + " is not between 0 and 1", null, "write for instance 0.80");
        }
        if (!(minutes >= 0 && caseMinutes >= 0) || maxCases < 1 || maxRaters < 1) {
            throw new InputException(
                    "minutes must not be negative, and --max-cases and --max-raters at least 1", null, null);
        }
        Outcome<GStudy> study = file == null
                ? Outcome.of(published())
                : GStudyViews.study(file, nested, repeats, GStudy.Method.AUTOMATIC);
        return study.flatMap(this::plan);
    }

    private GStudy published() {
        Map<Set<String>, Double> byFacets = new LinkedHashMap<>();
        Set<String> names = new LinkedHashSet<>();
        components.keySet().stream()
                .filter(key -> !key.equalsIgnoreCase("residual"))
                .forEach(key -> names.addAll(GStudyViews.names(key)));
        nested.forEach((inner, outer) -> {
            names.addAll(GStudyViews.names(outer));
            names.add(inner.toLowerCase(Locale.ROOT));
        });
        components.forEach((key, value) -> {
            Set<String> facets =
                    key.equalsIgnoreCase("residual") ? Set.copyOf(names) : Set.copyOf(GStudyViews.names(key));
            byFacets.merge(facets, value, Double::sum);
        });
        try {
            Design design = Design.crossed(names.toArray(String[]::new));
            for (Map.Entry<String, String> entry : nested.entrySet()) {
                design = design.nest(entry.getKey().toLowerCase(Locale.ROOT), GStudyViews.names(entry.getValue()));
            }
            return GStudy.published(design, byFacets, mean);
        } catch (IllegalArgumentException e) {
            throw new InputException(
                    String.valueOf(e.getMessage()),
                    "--components",
                    "name the person first, for instance person=77,rater=3.2,residual=20",
                    e);
        }
    }

    private Outcome<Answer> plan(GStudy study) {
        DesignSearch search = search(study, different);
        Outcome<List<DesignSearch.Option>> otherRaters = otherRaters(study);
        return search.all(study)
                .flatMap(options -> new DStudyReport(study, search, coefficient, wish, cut, mean)
                        .answer(
                                options,
                                otherRaters instanceof Outcome.Found<List<DesignSearch.Option>> f
                                        ? f.value()
                                        : List.of()));
    }

    /** The same sizes with other raters for each case, where that is a choice that the user has not made. */
    private Outcome<List<DesignSearch.Option>> otherRaters(GStudy study) {
        Design design = study.design();
        boolean choice = different.isEmpty()
                && fixed.isEmpty()
                && design.names().containsAll(List.of("case", "rater"))
                && !design.facet("rater").within().contains("case");
        return choice ? search(study, Map.of("rater", "case")).all(study) : Outcome.of(List.of());
    }

    private DesignSearch search(GStudy study, Map<String, String> planned) {
        try {
            Design design = study.design();
            for (Map.Entry<String, String> entry : planned.entrySet()) {
                String inner = entry.getKey().toLowerCase(Locale.ROOT);
                Set<String> outer = new LinkedHashSet<>(design.facet(inner).within());
                outer.addAll(GStudyViews.names(entry.getValue()));
                design = design.nest(inner, outer);
            }
            Map<String, Integer> counts = new LinkedHashMap<>();
            Map<String, Integer> most = new LinkedHashMap<>();
            List<String> unlimited = new ArrayList<>();
            for (String facet : design.names()) {
                if (facet.equals(design.object())) {
                    continue;
                }
                Integer number = numbers.get(facet);
                counts.put(facet, number == null ? 1 : number);
                if (number == null && facet.equals("item")) {
                    counts.put(facet, study.levels().getOrDefault(facet, 1));
                } else if (number == null) {
                    most.put(facet, facet.equals("rater") ? maxRaters : maxCases);
                    unlimited.add(facet);
                }
            }
            if (most.isEmpty()) {
                String first = counts.keySet().iterator().next();
                most.put(first, counts.getOrDefault(first, 1));
            }
            String caseFacet = unlimited.stream()
                    .filter(f -> !f.equals("rater"))
                    .findFirst()
                    .orElse("case");
            Set<String> fixedNames =
                    fixed.stream().map(f -> f.toLowerCase(Locale.ROOT)).collect(Collectors.toSet());
            return new DesignSearch(
                    new DStudy(design, counts, fixedNames),
                    most,
                    new DesignSearch.Cost(minutes, caseMinutes, caseFacet));
        } catch (IllegalArgumentException e) {
            throw new InputException(
                    String.valueOf(e.getMessage()),
                    null,
                    "check --different, --fixed and --number: the facets are "
                            + String.join(", ", study.design().names()),
                    e);
        }
    }
}
