package org.sideport.cli.stats;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.stats.Outcome;
import org.sideport.stats.agreement.AgreementSummary;
import org.sideport.stats.agreement.FTest;
import org.sideport.stats.agreement.Icc;
import org.sideport.stats.agreement.IccEstimate;
import org.sideport.stats.agreement.IccForm;
import org.sideport.stats.agreement.IccTable;
import org.sideport.stats.agreement.IncompleteIcc;
import org.sideport.stats.agreement.RatingMatrix;
import org.sideport.stats.agreement.TwoWayComponents;
import org.sideport.stats.agreement.TwoWayMeanSquares;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code sideport stats icc}. */
@Command(
        name = "icc",
        description = {
            "Intraclass correlations of scores: how well do raters agree?",
            "",
            "The CSV has one row for each score, with the columns subject,rater,score; a subject is one thing that is scored,"
                    + " usually one operation. Where a trainee has several, add a column case. For instance:",
            "  subject,rater,score",
            "  T03-case1,A1,78.5",
            "Shows all six forms of Shrout & Fleiss with limits, the variance components, and for each two raters the share of"
                    + " equal scores, within one level, and the mean difference. Decisions about persons rest on absolute"
                    + " agreement, ICC(2,1) or for the mean of k raters ICC(2,k); consistency, ICC(3,.), forgives severity."
        })
final class IccCommand extends StatsCommand {

    @Parameters(index = "0", paramLabel = "FILE", description = "CSV with the columns subject,rater,score")
    private Path file = Path.of("");

    @Option(
            names = "--complete-only",
            description =
                    "Use only the subjects that every rater has scored; without it gaps are bridged by estimating the"
                            + " variance components by restricted maximum likelihood.")
    private boolean completeOnly;

    @Mixin
    private ConfidenceOption confidence = new ConfidenceOption();

    @Option(
            names = "--step",
            paramLabel = "POINTS",
            description = "Distance of two neighbouring levels of the scale (default: the smallest met in the data).")
    private @Nullable Double step;

    @Mixin
    private ResamplingOptions resampling = new ResamplingOptions();

    IccCommand(Console console) {
        super(console);
    }

    @Override
    Outcome<Answer> answer() {
        AgreementFigures.checkStep(step);
        return AgreementFigures.ratings(file)
                .flatMap(table -> icc(table)
                        .flatMap(icc -> AgreementFigures.summary(completeOnly ? table.completeSubjects() : table, step)
                                .map(summary -> answer(icc, summary))));
    }

    private Outcome<IccTable> icc(RatingMatrix table) {
        if (completeOnly) {
            return Icc.ofCompleteSubjectsOnly(table, confidence.level());
        }
        return table.missingCells() == 0
                ? Icc.ofComplete(table, confidence.level())
                : IncompleteIcc.of(table, resampling.bootstrap(confidence.level()));
    }

    private static Answer answer(IccTable icc, AgreementSummary summary) {
        Map<String, @Nullable Object> json = Json.object(
                "subjects",
                icc.subjects(),
                "raters",
                icc.raters(),
                "scores",
                icc.scores(),
                "icc",
                icc.estimates().stream().map(IccCommand::json).toList(),
                "mean_squares",
                icc.meanSquares() == null ? null : json(icc.meanSquares()),
                "variance_components",
                icc.components() == null ? null : json(icc.components()),
                "agreement",
                AgreementFigures.json(summary));
        List<String> lines = new ArrayList<>();
        lines.add(icc.subjects() + " subjects, " + icc.raters() + " raters, " + icc.scores() + " scores");
        lines.add("");
        lines.addAll(table(icc));
        lines.add("");
        TwoWayComponents components = icc.components();
        if (components != null) {
            TextTable variance = new TextTable("source", ">variance", ">share");
            row(variance, "subjects", components.subject(), components);
            row(variance, "raters (severity)", components.rater(), components);
            row(variance, "residual", components.residual(), components);
            lines.addAll(Answer.lines(variance));
            lines.add("");
        }
        lines.addAll(AgreementFigures.lines(summary));
        IccEstimate first = icc.find(IccForm.ICC_2_1).orElseGet(() -> icc.get(IccForm.ICC_1_1));
        List<String> warnings = Stream.concat(
                        icc.warnings().stream(),
                        summary.rangeWarning(first.estimate().value()).stream())
                .toList();
        return new Answer(json, lines, warnings, sentence(icc));
    }

    private static Map<String, @Nullable Object> json(TwoWayMeanSquares ms) {
        return Json.object(
                "between_subjects",
                ms.betweenSubjects(),
                "within_subjects",
                ms.withinSubjects(),
                "between_raters",
                ms.betweenRaters(),
                "error",
                ms.error());
    }

    private static Map<String, @Nullable Object> json(TwoWayComponents components) {
        return Json.object(
                "subject",
                components.subject(),
                "rater",
                components.rater(),
                "residual",
                components.residual(),
                "raters_per_subject",
                components.ratersPerSubject());
    }

    private static void row(TextTable table, String name, double component, TwoWayComponents all) {
        table.row(name, Figures.plain(component, 4), Figures.percent(all.share(component)));
    }

    private static List<String> table(IccTable icc) {
        boolean tests = icc.meanSquares() != null;
        TextTable table = tests
                ? new TextTable("form", "also", ">estimate", "limits", ">F", ">df", ">p", "what")
                : new TextTable("form", "also", ">estimate", "limits", "what");
        for (IccEstimate each : icc.estimates()) {
            FTest test = each.test();
            var limits = each.estimate().limits();
            List<String> cells = new ArrayList<>(List.of(
                    each.form().shroutFleiss(),
                    each.form().mcGrawWong(),
                    Figures.plain(each.estimate().value()),
                    limits == null ? "–" : Figures.limits(limits)));
            if (tests) {
                cells.add(test == null ? "–" : Figures.plain(test.f(), 2));
                cells.add(test == null ? "–" : Math.round(test.df1()) + ", " + Math.round(test.df2()));
                cells.add(test == null ? "–" : Figures.plain(test.p(), 4));
            }
            cells.add(each.form().meaning());
            table.row(cells.toArray(String[]::new));
        }
        return Answer.lines(table);
    }

    private static Map<String, @Nullable Object> json(IccEstimate each) {
        FTest test = each.test();
        Map<String, @Nullable Object> json = Json.object(
                "form", each.form().shroutFleiss(), "mcgraw_wong", each.form().mcGrawWong());
        json.putAll(Figures.json(each.estimate()));
        json.put("f", test == null ? null : test.f());
        json.put("df1", test == null ? null : test.df1());
        json.put("df2", test == null ? null : test.df2());
        json.put("p", test == null ? null : test.p());
        return json;
    }

    private static String sentence(IccTable icc) {
        String caution =
                " These figures judge the scoring in this sample, not any trainee, and high agreement does not show"
                        + " that the scores are right.";
        if (icc.find(IccForm.ICC_2_1).isEmpty()) {
            return "One rater's score has ICC(1,1) "
                    + Figures.of(icc.get(IccForm.ICC_1_1).estimate())
                    + "; let raters share subjects to see how severe each one is." + caution;
        }
        return "For decisions read the absolute agreement: one rater's score has ICC(2,1) "
                + Figures.of(icc.get(IccForm.ICC_2_1).estimate()) + ", the mean of k raters ICC(2,k) "
                + icc.find(IccForm.ICC_2_K)
                        .map(each -> Figures.of(each.estimate()))
                        .orElse("–")
                + ". Consistency, ICC(3,1) "
                + Figures.plain(icc.get(IccForm.ICC_3_1).estimate().value())
                + ", ignores how severe a rater is and stands only beside it." + caution;
    }
}
