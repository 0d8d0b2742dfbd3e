package org.sideport.cli.stats;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.model.InputException;
import org.sideport.stats.Outcome;
import org.sideport.stats.mixed.Criterion;
import org.sideport.stats.mixed.GrowthCurve;
import org.sideport.stats.mixed.GrowthDesign;
import org.sideport.stats.mixed.MixedData;
import org.sideport.stats.mixed.MixedModel;
import org.sideport.stats.mixed.MixedOptions;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Learning over all trainees at once: a linear mixed model. */
@Command(
        name = "mixed",
        description = {
            "Learning across trainees: a linear mixed model in which each trainee has a level and a slope of their own.",
            "",
            "Reads a CSV with the columns subject, case_number, value (one case a row; subject is the trainee's code) and"
                    + " any covariate columns, for instance:",
            "  subject,case_number,value,grade",
            "  T03,17,742.5,3",
            "A covariate whose cells are all numbers is taken as a number; any other is a category, compared with the first"
                    + " of its values in alphabetical order. Rows without a value are left out and counted.",
            "",
            "Says the fixed effects with Satterthwaite limits, how much trainees differ (SD and correlation with"
                    + " profile-likelihood limits), each trainee's own slope with limits and how far it is drawn to the"
                    + " mean, explained variance, a test of whether slopes differ, and outlying cases with the fit without"
                    + " them. Ends with 1 where the data do not allow a fit.",
            "",
            "Example: sideport stats mixed times.csv --kind duration --covariates grade --at 50"
        })
final class MixedCommand extends StatsCommand {

    /** What the value is. */
    enum Kind {
        DURATION,
        SCORE
    }

    /** Which way is good. */
    enum Better {
        HIGHER,
        LOWER
    }

    @Parameters(paramLabel = "DATA.csv", description = "The file.")
    Path file;

    @Option(
            names = "--kind",
            paramLabel = "duration|score",
            defaultValue = "score",
            description =
                    "duration: the logarithm of the value is modelled, effects are per cent; score: the value as it"
                            + " is. Default: ${DEFAULT-VALUE}.")
    Kind kind;

    @Option(
            names = "--time",
            paramLabel = "linear|log",
            description =
                    "Scale of the case number: linear, a change per case; log, a change per doubling of the number"
                            + " of cases. Default: log for a duration, linear for a score.")
    GrowthDesign.@Nullable Time time;

    @Option(
            names = "--better",
            paramLabel = "higher|lower",
            description = "Which way improvement goes. Default: lower for a duration, higher for a score.")
    @Nullable
    Better better;

    @Option(
            names = "--covariates",
            paramLabel = "a,b",
            split = ",",
            description = "Columns to adjust for, for instance the difficulty of the case.")
    List<String> covariates = new ArrayList<>();

    @Option(
            names = "--slope",
            negatable = true,
            defaultValue = "true",
            fallbackValue = "true",
            description = "Whether trainees may differ in their slope, not in their level only. Default: they may.")
    boolean slope;

    @Option(
            names = "--criterion",
            paramLabel = "reml|ml",
            defaultValue = "reml",
            description = "Restricted or full maximum likelihood. Default: ${DEFAULT-VALUE}.")
    Criterion criterion;

    @Mixin
    private ConfidenceOption confidence = new ConfidenceOption();

    @Option(
            names = "--at",
            paramLabel = "N",
            split = ",",
            description = "Case numbers at which the expected value is said, for the population and for each trainee."
                    + " Default: the last case number that every trainee has reached.")
    List<Double> at = new ArrayList<>();

    @Option(
            names = "--profile",
            negatable = true,
            defaultValue = "true",
            fallbackValue = "true",
            description =
                    "Whether SDs and correlation get profile-likelihood limits, which cost some dozen further fits."
                            + " Default: they do.")
    boolean profile;

    @SuppressWarnings("NullAway.Init")
    MixedCommand(Console console) {
        super(console);
    }

    @Override
    Outcome<Answer> answer() {
        MixedCsv csv = MixedCsv.read(file, names());
        GrowthDesign.Time scale =
                time != null ? time : kind == Kind.DURATION ? GrowthDesign.Time.LOG : GrowthDesign.Time.LINEAR;
        GrowthDesign design = new GrowthDesign(scale, kind == Kind.DURATION, slope);
        for (double wanted : at) {
            if (!Double.isFinite(wanted) || scale == GrowthDesign.Time.LOG && wanted < 1) {
                throw new InputException("there is no case number " + wanted, "--at", "write a case number from 1");
            }
        }
        Better good = better != null ? better : kind == Kind.DURATION ? Better.LOWER : Better.HIGHER;
        MixedOptions options = new MixedOptions(criterion, confidence.level(), profile);
        Outcome<MixedData> data = design.data(csv.subject(), csv.caseNumber(), csv.value(), csv.covariates());
        return data.flatMap(d -> MixedModel.fit(d, options)).map(fit -> {
            List<Double> cases = at.isEmpty() ? List.of(csv.lastOfAll()) : at;
            MixedAnswer answer = new MixedAnswer(
                    csv,
                    new GrowthCurve(design, fit),
                    options,
                    good == Better.HIGHER,
                    List.copyOf(new TreeSet<>(cases)));
            return answer.answer();
        });
    }

    private List<String> names() {
        return covariates.stream()
                .map(name -> name.strip().toLowerCase(Locale.ROOT))
                .filter(name -> !name.isEmpty())
                .distinct()
                .toList();
    }
}
