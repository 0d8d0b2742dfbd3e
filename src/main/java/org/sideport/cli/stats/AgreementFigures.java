package org.sideport.cli.stats;

import java.nio.file.Path;
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
import org.sideport.stats.data.Factor;
import org.sideport.stats.data.LongData;

/** What the commands on agreement have in common. */
final class AgreementFigures {

    private static final int MOST_PAIRS = 15;

    private AgreementFigures() {}

    /**
     * Scores of subjects by raters. Where there is a column case, what is scored is each case of a subject.
     *
     * @throws InputException for a file that cannot be read
     */
    static Outcome<RatingMatrix> ratings(Path file) {
        LongData data = LongCsv.read(file, "score", List.of("subject", "rater"), List.of("case"));
        Factor subject = data.factor("subject");
        Factor rater = data.factor("rater");
        Factor scored = data.find("case").map(which -> joined(subject, which)).orElse(subject);
        return RatingMatrix.of(new LongData(List.of(scored, rater), data.values()), "subject", "rater");
    }

    private static Factor joined(Factor subject, Factor which) {
        List<String> labels = new ArrayList<>();
        for (int i = 0; i < subject.codes().length; i++) {
            labels.add(subject.levels().get(subject.codes()[i]) + "-"
                    + which.levels().get(which.codes()[i]));
        }
        return Factor.of(subject.name(), labels);
    }

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
        boolean levels = summary.step() != null;
        TextTable table = levels
                ? new TextTable("raters", ">subjects", ">equal", ">within 1 level", ">first higher by")
                : new TextTable("raters", ">subjects", ">first higher by");
        for (PairAgreement pair :
                summary.pairs().subList(0, Math.min(MOST_PAIRS, summary.pairs().size()))) {
            String names = pair.first() + " − " + pair.second();
            String subjects = String.valueOf(pair.subjects());
            String difference = Figures.plain(pair.meanDifference());
            if (levels) {
                table.row(names, subjects, Figures.percent(pair.exact()), percent(pair.withinOneLevel()), difference);
            } else {
                table.row(names, subjects, difference);
            }
        }
        if (levels && summary.pairs().size() > 1) {
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
     * @throws InputException if it is no distance
     */
    static void checkStep(@Nullable Double step) {
        if (step != null && !(step > 0 && step < Double.POSITIVE_INFINITY)) {
            throw new InputException("a step of " + step + " is not above 0", "--step", "give for instance 1");
        }
    }

    static Outcome<AgreementSummary> summary(RatingMatrix table, @Nullable Double step) {
        return step == null ? AgreementSummary.of(table) : AgreementSummary.of(table, step);
    }
}
