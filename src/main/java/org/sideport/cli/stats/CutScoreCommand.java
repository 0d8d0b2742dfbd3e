package org.sideport.cli.stats;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.model.InputException;
import org.sideport.stats.Outcome;
import org.sideport.stats.resample.Bootstrap;
import org.sideport.stats.standard.Angoff;
import org.sideport.stats.standard.BorderlineGroup;
import org.sideport.stats.standard.BorderlineRegression;
import org.sideport.stats.standard.ContrastingGroups;
import org.sideport.stats.standard.NormalCrossing;
import org.sideport.stats.standard.NormalGroup;
import org.sideport.timing.CsvTable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "cutscore",
        description = {
            "Where the cut between passing and failing lies by the judgement of experts, and how sure it is.",
            "",
            "One row for each judgement or performance; columns by method:",
            "",
            "  --method angoff               judge,item,score    A1,rhexis,3",
            "     points that a person who only just passes would get for the item",
            "  --method borderline-group     score,grade         51,borderline",
            "     mean score of those graded --borderline",
            "  --method borderline-regression score,grade        51,2",
            "     score on the line at the grade --borderline; grades are numbers",
            "  --method contrasting-groups   score,group         31,novice",
            "     where the curves of --groups WEAKER,STRONGER cross",
            "",
            "A column subject, if there is one, shows whether a person occurs twice. Pass is",
            "at or above the cut. Limits are bootstrap limits (BCa) over judges for angoff,",
            "else over performances."
        })
final class CutScoreCommand extends StatsCommand {

    @Parameters(paramLabel = "DATA.csv", arity = "0..1", description = "The judgements; not needed with --summary.")
    @Nullable
    Path file;

    @Option(
            names = "--method",
            paramLabel = "NAME",
            required = true,
            description = "angoff, borderline-group, borderline-regression or contrasting-groups.")
    String method = "";

    @Option(
            names = "--borderline",
            paramLabel = "GRADE,...",
            split = ",",
            hideParamSyntax = true,
            description = "Grade of a borderline performance (borderline-group: all of these count; "
                    + "borderline-regression: a cut at each, 2.5 lies between 2 and 3).")
    String[] borderline = {};

    @Option(
            names = "--groups",
            paramLabel = "WEAKER,STRONGER",
            split = ",",
            hideParamSyntax = true,
            description = "contrasting-groups: the two values of the column group.")
    String[] groups = {};

    @Option(
            names = "--summary",
            paramLabel = "M1,SD1,M2,SD2",
            split = ",",
            hideParamSyntax = true,
            description = "contrasting-groups from published means and SDs of the weaker and the stronger group.")
    double[] summary = {};

    @Option(
            names = "--max",
            paramLabel = "POINTS",
            description = "Highest possible score, to show the cut in per cent too.")
    @Nullable
    Double max;

    @Mixin
    private ConfidenceOption confidence = new ConfidenceOption();

    @Mixin
    private ResamplingOptions resampling = new ResamplingOptions();

    CutScoreCommand(Console console) {
        super(console);
    }

    @Override
    Outcome<Answer> answer() {
        if (max != null && !(max > 0)) {
            throw new InputException("the highest score is not above 0", "--max", "write for instance 100");
        }
        Bootstrap bootstrap = resampling.bootstrap(confidence.level());
        CutScoreReport report = new CutScoreReport(max);
        return switch (method.toLowerCase(Locale.ROOT)) {
            case "angoff" -> angoff(bootstrap, report);
            case "borderline-group" -> group(bootstrap, report);
            case "borderline-regression" -> regression(bootstrap, report);
            case "contrasting-groups" -> summary.length > 0 ? published(report) : contrasting(bootstrap, report);
            default ->
                throw new InputException(
                        "there is no method " + method,
                        "--method",
                        "take angoff, borderline-group, borderline-regression or contrasting-groups");
        };
    }

    private Outcome<Answer> angoff(Bootstrap bootstrap, CutScoreReport report) {
        List<CsvTable.Row> rows = rows("judge", "item");
        List<String> judges = distinct(rows, "judge");
        List<String> items = distinct(rows, "item");
        double[][] points = new double[judges.size()][items.size()];
        for (double[] row : points) {
            Arrays.fill(row, Double.NaN);
        }
        for (CsvTable.Row row : rows) {
            int j = judges.indexOf(row.required("judge"));
            int i = items.indexOf(row.required("item"));
            if (!Double.isNaN(points[j][i])) {
                throw row.fault(
                        "judge " + judges.get(j) + " has judged " + items.get(i) + " already", "keep one of the rows");
            }
            points[j][i] = LongCsv.number(row, "score");
        }
        for (int j = 0; j < points.length; j++) {
            for (int i = 0; i < items.size(); i++) {
                if (Double.isNaN(points[j][i])) {
                    throw new InputException(
                            "judge " + judges.get(j) + " has not judged " + items.get(i),
                            String.valueOf(file),
                            "every judge must judge every item: fill it in, or leave out the judge or the item");
                }
            }
        }
        return Angoff.of(points, bootstrap).map(found -> report.angoff(found, judges));
    }

    private Outcome<Answer> group(Bootstrap bootstrap, CutScoreReport report) {
        List<CsvTable.Row> rows = rows("grade");
        if (borderline.length == 0) {
            throw new InputException(
                    "which grade is borderline is not said",
                    "--borderline",
                    "name one or more of " + String.join(", ", distinct(rows, "grade")));
        }
        Set<String> wanted = new HashSet<>();
        Arrays.stream(borderline).map(CutScoreCommand::plain).forEach(wanted::add);
        List<CsvTable.Row> chosen = rows.stream()
                .filter(row -> wanted.contains(plain(row.required("grade"))))
                .toList();
        List<String> repeats = repeats(chosen);
        return BorderlineGroup.of(scores(chosen), bootstrap)
                .map(found -> report.group(found, rows.size(), String.join(", ", borderline), repeats));
    }

    private Outcome<Answer> regression(Bootstrap bootstrap, CutScoreReport report) {
        List<CsvTable.Row> rows = rows("grade");
        if (borderline.length == 0) {
            throw new InputException(
                    "at which grade to read the cut is not said", "--borderline", "write for instance 2, or 2,2.5,3");
        }
        double[] at = Arrays.stream(borderline)
                .mapToDouble(text -> {
                    try {
                        return Double.parseDouble(text.strip());
                    } catch (NumberFormatException e) {
                        throw new InputException(
                                "the grade " + text + " is no number", "--borderline", "write for instance 2.5", e);
                    }
                })
                .toArray();
        double[] grades =
                rows.stream().mapToDouble(row -> LongCsv.number(row, "grade")).toArray();
        List<String> repeats = repeats(rows);
        return BorderlineRegression.of(grades, scores(rows))
                .map(found -> report.regression(found, at, bootstrap, repeats));
    }

    private Outcome<Answer> contrasting(Bootstrap bootstrap, CutScoreReport report) {
        List<CsvTable.Row> rows = rows("group");
        List<String> known = distinct(rows, "group");
        if (groups.length != 2 || !known.containsAll(List.of(groups)) || groups[0].equals(groups[1])) {
            throw new InputException(
                    groups.length == 0
                            ? "which group is the weaker and which the stronger is not said"
                            : "these are not two groups of the file: " + String.join(", ", groups),
                    "--groups",
                    "name two of " + String.join(", ", known) + ", the weaker first");
        }
        List<CsvTable.Row> weaker = of(rows, groups[0]);
        List<CsvTable.Row> stronger = of(rows, groups[1]);
        List<CsvTable.Row> both = new ArrayList<>(weaker);
        both.addAll(stronger);
        List<String> repeats = repeats(both);
        return ContrastingGroups.of(scores(weaker), scores(stronger), bootstrap)
                .map(found -> report.contrasting(found, groups, repeats));
    }

    private Outcome<Answer> published(CutScoreReport report) {
        if (summary.length != 4
                || !(summary[1] > 0)
                || !(summary[3] > 0)
                || !Double.isFinite(Arrays.stream(summary).sum())) {
            throw new InputException(
                    "mean and SD of two groups are needed, SDs above 0",
                    "--summary",
                    "write for instance 32.0,5.3,55.0,12.6, the weaker group first");
        }
        NormalGroup weaker = new NormalGroup(null, summary[0], summary[1]);
        NormalGroup stronger = new NormalGroup(null, summary[2], summary[3]);
        return NormalCrossing.of(weaker, stronger).map(found -> report.published(weaker, stronger, found));
    }

    /** Rows with a score; they must have these columns too. */
    private List<CsvTable.Row> rows(String... columns) {
        if (file == null) {
            throw new InputException("no file is named", "DATA.csv", "name it, or see --help");
        }
        CsvTable table = CsvTable.read(file);
        LongCsv.need(table, "score");
        Arrays.stream(columns).forEach(column -> LongCsv.need(table, column));
        List<CsvTable.Row> rows =
                table.rows().stream().filter(row -> row.orNull("score") != null).toList();
        if (rows.isEmpty()) {
            throw new InputException("no row has a score", file.toString(), "fill the column in");
        }
        return rows;
    }

    private static List<String> distinct(List<CsvTable.Row> rows, String column) {
        return rows.stream().map(row -> row.required(column)).distinct().toList();
    }

    private static List<CsvTable.Row> of(List<CsvTable.Row> rows, String group) {
        return rows.stream().filter(row -> row.required("group").equals(group)).toList();
    }

    private static double[] scores(List<CsvTable.Row> rows) {
        return rows.stream().mapToDouble(row -> LongCsv.number(row, "score")).toArray();
    }

    /** Spreadsheets write 2 as 2.0. */
    private static String plain(String grade) {
        return grade.strip().toLowerCase(Locale.ROOT).replaceFirst("(?<=\\d)\\.0+$", "");
    }

    /** A warning if a person occurs more than once: the limits take performances as independent. */
    private static List<String> repeats(List<CsvTable.Row> rows) {
        List<String> subjects = rows.stream()
                .map(row -> row.text("subject"))
                .filter(text -> !text.isEmpty())
                .toList();
        long persons = subjects.stream().distinct().count();
        return persons == subjects.size()
                ? List.of()
                : List.of(subjects.size() + " performances come from " + persons
                        + " subjects; the limits take them as independent and are too narrow.");
    }
}
