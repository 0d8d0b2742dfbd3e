package org.sideport.cli.stats;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.model.InputException;
import org.sideport.stats.Outcome;
import org.sideport.stats.agreement.AgreementSummary;
import org.sideport.stats.agreement.PairAgreement;
import org.sideport.stats.agreement.RatingMatrix;

/** What the commands on agreement have in common. */
final class AgreementFigures {

    private static final int MOST_PAIRS = 15;

    private AgreementFigures() {}

    static Map<String, @Nullable Object> json(AgreementSummary summary) {
        return Json.object(
                "comparisons",
                summary.comparisons(),
                "exact",
                summary.exact(),
                "within_one_level",
                summary.withinOneLevel(),
                "level_step",
                summary.step(),
                "commonest_score",
                summary.commonestScore(),
                "commonest_share",
                summary.commonestShare(),
                "pairs",
                summary.pairs().stream().map(AgreementFigures::json).toList());
    }

    private static Map<String, @Nullable Object> json(PairAgreement pair) {
        return Json.object(
                "first",
                pair.first(),
                "second",
                pair.second(),
                "subjects",
                pair.subjects(),
                "exact",
                pair.exact(),
                "within_one_level",
                pair.withinOneLevel(),
                "mean_difference",
                pair.meanDifference());
    }

    /** A table, one row for each two raters, and one for all. */
    static List<String> lines(AgreementSummary summary) {
        TextTable table = new TextTable("raters", ">subjects", ">equal", ">within 1 level", ">mean difference");
        summary.pairs().stream()
                .limit(MOST_PAIRS)
                .forEach(pair -> table.row(
                        pair.first() + " − " + pair.second(),
                        String.valueOf(pair.subjects()),
                        Figures.percent(pair.exact()),
                        percent(pair.withinOneLevel()),
                        Figures.plain(pair.meanDifference())));
        if (summary.pairs().size() > 1) {
            table.row(
                    "all pairs",
                    String.valueOf(summary.comparisons()),
                    Figures.percent(summary.exact()),
                    percent(summary.withinOneLevel()),
                    "");
        }
        List<String> lines = new ArrayList<>(Answer.lines(table));
        if (summary.pairs().size() > MOST_PAIRS) {
            lines.add("(the first " + MOST_PAIRS + " of " + summary.pairs().size() + " pairs; --json has all)");
        }
        return lines;
    }

    private static String percent(@Nullable Double share) {
        return share == null ? "–" : Figures.percent(share);
    }

    /**
     * @throws InputException if it is no proper level of confidence
     */
    static void checkConfidence(double confidence) {
        if (!(confidence > 0 && confidence < 1)) {
            throw new InputException(
                    "a confidence of " + confidence + " is not between 0 and 1",
                    "--confidence",
                    "give for instance 0.95");
        }
    }

    /**
     * @throws InputException if it is no distance
     */
    static void checkStep(@Nullable Double step) {
        if (step != null && !(step > 0 && step < Double.POSITIVE_INFINITY)) {
            throw new InputException("a step of " + step + " is not above 0", "--step", "give for instance 1");
        }
    }

    /**
     * @throws InputException if there are too few
     */
    static void checkResamples(int resamples) {
        if (resamples < 100) {
            throw new InputException(
                    resamples + " resamples are too few for limits",
                    "--resamples",
                    "give 100 or more, for instance 1000");
        }
    }

    static Outcome<AgreementSummary> summary(RatingMatrix table, @Nullable Double step) {
        return step == null ? AgreementSummary.of(table) : AgreementSummary.of(table, step);
    }
}
