package org.sideport.cli.stats;

import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.model.InputException;
import org.sideport.stats.Outcome;
import org.sideport.stats.learning.CaseSeries;
import org.sideport.stats.learning.ChangePoint;
import org.sideport.stats.learning.LearningFit;
import org.sideport.stats.learning.LearningModel;
import org.sideport.stats.learning.ModelComparison;
import org.sideport.stats.regression.RobustLoss;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** The learning curve of one trainee. */
@Command(
        name = "curve",
        description = {
            "The learning curve of one trainee: duration or score against the case number.",
            "",
            "Reads a CSV with the columns case_number, value and, if the file holds several trainees, subject (the"
                    + " trainee's code); one case a row, for instance:",
            "  subject,case_number,value",
            "  T03,17,742.5",
            "Case numbers count from 1; gaps are allowed. Rows without a value are left out and counted. At least 10"
                    + " cases with 6 different numbers are needed.",
            "",
            "Fits a constant, a power law (each doubling of the case number multiplies by the same factor), a log-linear"
                    + " curve (each doubling adds the same step) and an exponential with a plateau, and sets them side by"
                    + " side by AICc; within 2 of the best the data do not tell curves apart, and then it says so. Of"
                    + " durations the logarithms are fitted, so that errors are factors. Parameters have"
                    + " profile-likelihood limits. Looks for a change-point of level and of slope, with a test that"
                    + " counts the search. Names outlying cases with their weights in a fit that counts them less.",
            "",
            "Example: sideport stats curve times.csv --subject T03 --measure duration --reference 600",
            "Ends with 1 where the data do not allow a fit."
        })
final class CurveCommand extends StatsCommand {

    /** What the value is. */
    enum Measure {
        DURATION,
        SCORE
    }

    /** Which way is good. */
    enum Better {
        HIGHER,
        LOWER
    }

    /** Which curve the details are of. */
    enum Choice {
        AUTO,
        CONSTANT,
        POWER,
        EXPONENTIAL,
        LOG_LINEAR
    }

    @Parameters(paramLabel = "DATA.csv", description = "The file.")
    Path file = Path.of("");

    @Option(names = "--subject", paramLabel = "CODE", description = "The trainee. Default: the only one in the file.")
    @Nullable
    String subject;

    @Option(
            names = "--measure",
            paramLabel = "duration|score",
            defaultValue = "duration",
            description = "What the value is; a duration must be above 0. Default: ${DEFAULT-VALUE}.")
    Measure measure = Measure.DURATION;

    @Option(
            names = "--better",
            paramLabel = "higher|lower",
            description = "Which way improvement goes. Default: lower for a duration, higher for a score.")
    @Nullable
    Better better;

    @Option(
            names = "--reference",
            paramLabel = "VALUE",
            description = "Says from which case on the curve is as good as this value, in the unit of the values.")
    @Nullable
    Double reference;

    @Option(
            names = "--model",
            paramLabel = "auto|constant|power|exponential|log-linear",
            defaultValue = "auto",
            description = "The curve whose details are said; auto is the best by AICc. Default: ${DEFAULT-VALUE}.")
    String model = "auto";

    @Option(
            names = "--robust",
            paramLabel = "huber|bisquare",
            description =
                    "How outlying cases are weighed down; with this option the weight of each case is listed and the"
                            + " cases to the reference are said of that curve too. Outlying cases are always named."
                            + " Default: bisquare, which leaves far cases out.")
    @Nullable
    RobustLoss robust;

    @Mixin
    private ConfidenceOption confidence = new ConfidenceOption();

    @Mixin
    private ResamplingOptions resampling = new ResamplingOptions();

    CurveCommand(Console console) {
        super(console);
    }

    @Override
    Outcome<Answer> answer() {
        if (reference != null && (!Double.isFinite(reference) || measure == Measure.DURATION && reference <= 0)) {
            throw new InputException("there is no " + words(measure) + " " + reference, "--reference", "write a value");
        }
        Choice choice = choice();
        CurveCsv csv = CurveCsv.read(file, subject);
        CaseSeries.Scale scale = measure == Measure.DURATION ? CaseSeries.Scale.LOG : CaseSeries.Scale.PLAIN;
        boolean lower = better != null ? better == Better.LOWER : measure == Measure.DURATION;
        return CaseSeries.of(csv.caseNumber(), csv.value(), scale)
                .flatMap(series -> ModelComparison.of(series, List.of(LearningModel.values()), confidence.level())
                        .flatMap(comparison -> chosen(series, comparison, choice)
                                .map(fit -> {
                                    List<Outcome<ChangePoint>> changes = List.of(
                                            ChangePoint.of(
                                                    series,
                                                    ChangePoint.Shape.LEVELS,
                                                    resampling.resamples(),
                                                    resampling.seed(),
                                                    confidence.level()),
                                            ChangePoint.of(
                                                    series,
                                                    ChangePoint.Shape.LINES,
                                                    resampling.resamples(),
                                                    resampling.seed(),
                                                    confidence.level()));
                                    CurveAnswer.Wish wish = new CurveAnswer.Wish(
                                            words(measure),
                                            lower,
                                            reference,
                                            robust,
                                            resampling.bootstrap(confidence.level()),
                                            choice == Choice.AUTO);
                                    return new CurveAnswer(csv, comparison, fit, changes, wish).answer();
                                })));
    }

    private static String words(Measure measure) {
        return measure == Measure.DURATION ? "duration" : "score";
    }

    private Choice choice() {
        for (Choice choice : Choice.values()) {
            if (choice.name().equalsIgnoreCase(model.replace('-', '_'))) {
                return choice;
            }
        }
        throw new InputException(
                "there is no curve " + model, "--model", "write auto, constant, power, exponential or log-linear");
    }

    private Outcome<LearningFit> chosen(CaseSeries series, ModelComparison comparison, Choice choice) {
        return switch (choice) {
            case AUTO -> Outcome.of(comparison.best());
            case CONSTANT -> LearningFit.of(series, LearningModel.CONSTANT, confidence.level());
            case POWER -> LearningFit.of(series, LearningModel.POWER, confidence.level());
            case EXPONENTIAL -> LearningFit.of(series, LearningModel.EXPONENTIAL, confidence.level());
            case LOG_LINEAR -> LearningFit.of(series, LearningModel.LOG_LINEAR, confidence.level());
        };
    }
}
