package org.sideport.cli.stats;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;
import org.sideport.stats.agreement.AgreementSummary;
import org.sideport.stats.agreement.KrippendorffAlpha;
import org.sideport.stats.agreement.MeasurementLevel;
import org.sideport.stats.agreement.RatingMatrix;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code sideport stats krippendorff}. */
@Command(
        name = "krippendorff",
        description = {
            "Krippendorff's alpha: agreement of any number of raters, on any scale, with gaps.",
            "",
            "The CSV has one row for each score, with the columns subject,rater,score; a subject is one thing that is scored,"
                    + " usually one operation. Where a trainee has several, add a column case. For instance:",
            "  subject,rater,score",
            "  T03-case1,A1,4",
            "Name the scale: nominal (categories without order), ordinal (levels in order), interval (equal steps), ratio"
                    + " (a measurement with a true zero)."
        })
final class KrippendorffCommand extends StatsCommand {

    @Parameters(index = "0", paramLabel = "FILE", description = "CSV with the columns subject,rater,score")
    private Path file = Path.of("");

    @Option(
            names = "--scale",
            paramLabel = "SCALE",
            description = "What the scores are: nominal, ordinal, interval or ratio (default: ${DEFAULT-VALUE}).",
            defaultValue = "ordinal")
    private MeasurementLevel scale = MeasurementLevel.ORDINAL;

    @Mixin
    private ConfidenceOption confidence = new ConfidenceOption();

    @Mixin
    private ResamplingOptions resampling = new ResamplingOptions();

    KrippendorffCommand(Console console) {
        super(console);
    }

    @Override
    Outcome<Answer> answer() {
        return AgreementFigures.ratings(file).flatMap(this::answer);
    }

    private Outcome<Answer> answer(RatingMatrix table) {
        double[] values = table.values();
        return KrippendorffAlpha.of(values, table.counts(values), scale, resampling.bootstrap(confidence.level()))
                .flatMap(alpha -> AgreementSummary.of(table).map(summary -> answer(alpha, summary)));
    }

    private Answer answer(Estimate alpha, AgreementSummary summary) {
        Map<String, @Nullable Object> json = Json.object("scale", name());
        json.putAll(Figures.json(alpha));
        json.put("agreement", AgreementFigures.json(summary));
        List<String> lines = Stream.concat(
                        Stream.of("alpha (" + name() + ")  " + Figures.of(alpha), ""),
                        AgreementFigures.lines(summary).stream())
                .toList();
        List<String> warnings = Stream.concat(alpha.warnings().stream(), summary.rangeWarning(alpha.value()).stream())
                .toList();
        return new Answer(
                json,
                lines,
                warnings,
                "Krippendorff's alpha is " + Figures.of(alpha) + ", from the " + alpha.n()
                        + " subjects with two scores or more: 1 is full agreement, 0 what chance would give. Its author asks"
                        + " for .800, or .667 for tentative conclusions (Krippendorff 2011 and earlier); that is a"
                        + " convention, and agreement does not show that the scores are right.");
    }

    private String name() {
        return scale.name().toLowerCase(Locale.ROOT);
    }
}
