package org.sideport.cli.stats;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.model.InputException;
import org.sideport.stats.Outcome;
import org.sideport.stats.agreement.AgreementSummary;
import org.sideport.stats.agreement.CohenKappa;
import org.sideport.stats.agreement.FleissKappa;
import org.sideport.stats.agreement.GwetAgreement;
import org.sideport.stats.agreement.Kappa;
import org.sideport.stats.agreement.KappaWeights;
import org.sideport.stats.agreement.RatingMatrix;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code sideport stats kappa}. */
@Command(
        name = "kappa",
        description = {
            "Agreement on levels, corrected for chance: kappa of Cohen and Fleiss, and Gwet's coefficient.",
            "",
            "The CSV has one row for each score, a number, with the columns subject,rater,score; a subject is one thing that is"
                    + " scored, usually one item of one operation. Where a trainee has several, add a column case. For instance:",
            "  subject,rater,score",
            "  T03-case1-item4,A1,3",
            "With two raters Cohen's kappa is given, with any number Fleiss' kappa and Gwet's AC1 (AC2 with weights), and for"
                    + " each two raters the share of equal scores, within one level, and the mean difference. Levels in order want"
                    + " --weights linear or quadratic. Gaps are allowed."
        })
final class KappaCommand extends StatsCommand {

    @Parameters(index = "0", paramLabel = "FILE", description = "CSV with the columns subject,rater,score")
    private Path file = Path.of("");

    @Option(
            names = "--weights",
            paramLabel = "WEIGHTS",
            description = "How much a near miss counts: none, linear or quadratic (default: ${DEFAULT-VALUE}).",
            defaultValue = "none")
    private KappaWeights weights = KappaWeights.NONE;

    @Option(
            names = "--levels",
            paramLabel = "LEVEL",
            split = ",",
            description =
                    "All levels of the scale, for instance 2,3,4,5 (default: those that were given). Unused levels matter"
                            + " for weights and for Gwet's coefficient.")
    private List<Double> levels = List.of();

    @Mixin
    private ConfidenceOption confidence = new ConfidenceOption();

    KappaCommand(Console console) {
        super(console);
    }

    @Override
    Outcome<Answer> answer() {
        return AgreementFigures.ratings(file).flatMap(this::answer);
    }

    private Outcome<Answer> answer(RatingMatrix table) {
        double[] values = levels(table);
        double[][] agreement = weights.of(values);
        int[][] counts = table.counts(values);
        @Nullable Double step = values.length < 2 ? null : (Double) smallestGap(values);
        return AgreementFigures.summary(table, step)
                .flatMap(summary -> FleissKappa.of(counts, agreement, confidence.level())
                        .flatMap(fleiss -> GwetAgreement.of(counts, agreement, gwetName(), confidence.level())
                                .flatMap(gwet -> {
                                    if (table.raters().size() != 2) {
                                        return Outcome.of(answer(null, fleiss, gwet, values, summary));
                                    }
                                    return CohenKappa.of(table, values, weights, confidence.level())
                                            .map(cohen -> answer(cohen, fleiss, gwet, values, summary));
                                })));
    }

    /** Those named, or those met. */
    private double[] levels(RatingMatrix table) {
        double[] met = table.values();
        if (levels.isEmpty()) {
            return met;
        }
        TreeSet<Double> named = new TreeSet<>(levels);
        for (double value : met) {
            if (!named.contains(value)) {
                throw new InputException(
                        "the score " + plain(value) + " is none of the levels", file.toString(), "add it to --levels");
            }
        }
        return named.stream().mapToDouble(Double::doubleValue).toArray();
    }

    private static double smallestGap(double[] values) {
        double gap = Double.POSITIVE_INFINITY;
        for (int i = 1; i < values.length; i++) {
            gap = Math.min(gap, values[i] - values[i - 1]);
        }
        return gap;
    }

    private String gwetName() {
        return weights == KappaWeights.NONE ? "Gwet's AC1" : "Gwet's AC2";
    }

    private Answer answer(
            @Nullable Kappa cohen, FleissKappa.Result fleiss, Kappa gwet, double[] values, AgreementSummary summary) {
        Map<String, @Nullable Object> json = Json.object(
                "weights",
                weights.name().toLowerCase(Locale.ROOT),
                "levels",
                Arrays.stream(values).boxed().toList(),
                "cohen",
                cohen == null ? null : json(cohen),
                "fleiss",
                json(fleiss.kappa()),
                "fleiss_by_level",
                fleiss.categories(),
                "gwet",
                json(gwet),
                "agreement",
                AgreementFigures.json(summary));
        TextTable table = new TextTable("coefficient", ">estimate", "limits", ">se", ">observed", ">chance");
        if (cohen != null) {
            row(table, "Cohen's kappa", cohen);
        }
        row(table, "Fleiss' kappa", fleiss.kappa());
        row(table, gwetName(), gwet);
        List<String> lines = new ArrayList<>(Answer.lines(table));
        if (!fleiss.categories().isEmpty() && weights == KappaWeights.NONE && values.length > 2) {
            TextTable byLevel = new TextTable("level", ">kappa against all others");
            for (int k = 0; k < values.length; k++) {
                byLevel.row(plain(values[k]), Figures.plain(fleiss.categories().get(k)));
            }
            lines.add("");
            lines.addAll(Answer.lines(byLevel));
        }
        lines.add("");
        lines.addAll(AgreementFigures.lines(summary));
        Kappa main = cohen == null ? fleiss.kappa() : cohen;
        List<String> warnings = Stream.concat(
                        main.estimate().warnings().stream(),
                        summary.rangeWarning(main.estimate().value()).stream())
                .toList();
        return new Answer(json, lines, warnings, sentence(main, gwet, summary));
    }

    private static void row(TextTable table, String name, Kappa kappa) {
        var limits = kappa.estimate().limits();
        table.row(
                name,
                Figures.plain(kappa.estimate().value()),
                limits == null ? "–" : Figures.limits(limits),
                Figures.plain(kappa.estimate().se()),
                Figures.percent(kappa.observed()),
                Figures.percent(kappa.expected()));
    }

    private static Map<String, @Nullable Object> json(Kappa kappa) {
        Map<String, @Nullable Object> json = Json.object("observed", kappa.observed(), "expected", kappa.expected());
        json.putAll(Figures.json(kappa.estimate()));
        json.put("null_se", kappa.nullSe());
        return json;
    }

    private String sentence(Kappa main, Kappa gwet, AgreementSummary summary) {
        return "Raters gave the same level in " + Figures.percent(summary.exact()) + " of comparisons; "
                + (weights == KappaWeights.NONE ? "" : "counting near misses in part, ")
                + "agreement beyond chance is "
                + Figures.of(main.estimate()) + " on a scale where 0 is chance and 1 is full agreement ("
                + gwetName() + ", which stands up when nearly all scores are alike, is "
                + Figures.plain(gwet.estimate().value())
                + "). Bands such as \"good\" or \"moderate\" are conventions; agreement of raters does not show that the"
                + " scores are right, and says nothing about any one trainee.";
    }

    private static String plain(double value) {
        return value == Math.rint(value) ? String.valueOf((long) value) : String.valueOf(value);
    }
}
