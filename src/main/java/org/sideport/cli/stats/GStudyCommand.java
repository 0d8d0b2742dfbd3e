package org.sideport.cli.stats;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.stats.Outcome;
import org.sideport.stats.gtheory.EffectVariance;
import org.sideport.stats.gtheory.GStudy;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "gstudy",
        description = {
            "Where the differences between scores come from: persons, cases, raters, items and what they do together"
                    + " (generalisability study).",
            "",
            "Reads a CSV file, one score a row: subject,score and one or more of rater,case,item. For example:",
            "  subject,case,rater,score",
            "  T03,C1,A1,3.5",
            "Which facets are nested (each rater with one person only, other cases for each person) is found in the data where"
                    + " labels are unique (T03-op1); where they start anew with each person (op1, op2 …), say --nested"
                    + " case=subject. Missing combinations are no hindrance.",
            ""
        })
final class GStudyCommand extends StatsCommand {

    @Parameters(paramLabel = "DATA.csv", description = "The scores.")
    Path file = Path.of("");

    @Option(
            names = "--nested",
            paramLabel = "INNER=OUTER",
            description = {
                "For labels that start anew: --nested rater=subject says that rater 1 of one person is not rater 1 of"
                        + " the next. Several outer ones: rater=subject:case. May be repeated."
            })
    Map<String, String> nested = new LinkedHashMap<>();

    @Option(
            names = "--method",
            paramLabel = "M",
            defaultValue = "automatic",
            description = "automatic (mean squares if balanced, else REML), mean_squares or reml; default:"
                    + " ${DEFAULT-VALUE}.")
    GStudy.Method method = GStudy.Method.AUTOMATIC;

    @Option(
            names = "--repeats",
            description = "Several scores in one cell are repeats of the same thing; without it they are refused.")
    boolean repeats;

    GStudyCommand(Console console) {
        super(console);
    }

    @Override
    Outcome<Answer> answer() {
        return GStudyViews.study(file, nested, repeats, method).map(GStudyCommand::answer);
    }

    private static Answer answer(GStudy study) {
        String object = study.design().object();
        List<String> lines = new ArrayList<>();
        lines.add(
                "Design found: " + study.design().describe() + "; " + study.n() + " scores; method: " + study.method());
        lines.add("");
        lines.addAll(GStudyViews.table(study));
        double person = study.find(object).map(EffectVariance::used).orElse(0.0);
        double share = study.total() > 0 ? person / study.total() : 0;
        return new Answer(
                Json.object(
                        "design",
                        study.design().describe(),
                        "n",
                        study.n(),
                        "levels",
                        study.levels(),
                        "mean",
                        study.mean(),
                        "method",
                        study.method(),
                        "reml_criterion",
                        study.criterion(),
                        "components",
                        GStudyViews.json(study)),
                lines,
                study.warnings(),
                "Of the variance of a single score, " + Figures.percent(share) + " is lasting difference between"
                        + " persons; the rest is luck of the case, the rater and the moment. Figures from "
                        + study.levels().getOrDefault(object, 0)
                        + " persons are uncertain; use them to plan assessments, not to judge a person.");
    }
}
