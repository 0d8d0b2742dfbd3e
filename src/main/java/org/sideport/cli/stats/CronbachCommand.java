package org.sideport.cli.stats;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.stats.Outcome;
import org.sideport.stats.agreement.CronbachAlpha;
import org.sideport.stats.agreement.RatingMatrix;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

/** {@code sideport stats cronbach}. */
@Command(
        name = "cronbach",
        description = {
            "Cronbach's alpha: do the items of a rubric rise and fall together?",
            "",
            "The CSV has one row for each item of each marking, with the columns subject,item,score, for instance:",
            "  subject,item,score",
            "  T03-case1-A1,capsulotomy,4",
            "Shows alpha with limits and, for each item, alpha without it. Subjects with a missing item are left out."
        })
final class CronbachCommand extends StatsCommand {

    @Parameters(index = "0", paramLabel = "FILE", description = "CSV with the columns subject,item,score")
    private Path file = Path.of("");

    @Mixin
    private ConfidenceOption confidence = new ConfidenceOption();

    CronbachCommand(Console console) {
        super(console);
    }

    @Override
    Outcome<Answer> answer() {
        return RatingMatrix.of(LongCsv.read(file, "score", List.of("subject", "item"), List.of()), "subject", "item")
                .flatMap(items -> CronbachAlpha.of(items, confidence.level()))
                .map(CronbachCommand::answer);
    }

    private static Answer answer(CronbachAlpha.Result result) {
        Map<String, @Nullable Object> json = Json.object();
        json.putAll(Figures.json(result.estimate()));
        json.put("items", result.items().stream().map(CronbachCommand::json).toList());
        TextTable table = new TextTable("item", ">mean", ">SD", ">with the rest", ">alpha without");
        result.items()
                .forEach(item -> table.row(
                        item.name(),
                        Figures.plain(item.mean(), 2),
                        Figures.plain(item.sd(), 2),
                        Figures.plain(item.restCorrelation(), 2),
                        Figures.plain(item.alphaWithout())));
        List<String> lines = new ArrayList<>();
        lines.add("alpha " + Figures.of(result.estimate()) + ", "
                + result.estimate().n() + " subjects, " + result.items().size() + " items");
        lines.add("");
        lines.addAll(Answer.lines(table));
        return new Answer(
                json,
                lines,
                result.estimate().warnings(),
                "The sum of these items has an alpha of " + Figures.of(result.estimate())
                        + ": how far another set of such items would rank the same subjects alike. It rises with the number"
                        + " of items, treats one rater's items as independent, and says nothing about agreement between"
                        + " raters; for that see icc and gstudy.");
    }

    private static Map<String, @Nullable Object> json(CronbachAlpha.Item item) {
        return Json.object(
                "item",
                item.name(),
                "mean",
                item.mean(),
                "sd",
                item.sd(),
                "rest_correlation",
                item.restCorrelation(),
                "alpha_without",
                item.alphaWithout());
    }
}
