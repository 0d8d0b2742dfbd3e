package org.sideport.report.workbook;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.sideport.report.workbook.Column.Kind;
import org.sideport.report.workbook.UnitFigures.CaseShare;
import org.sideport.report.workbook.UnitFigures.Competency;
import org.sideport.report.workbook.UnitFigures.Group;

/** The sheets "Cohort matrix" (trainees by competencies), "Competencies" (the same, a row each) and "Case shares". */
final class CompetencyTables {

    private static final String SOURCE = "as on the Programme screen and in: sideport cohort show";
    private static final String RECENT = "cs_group,{Group},cs_from_end,\"<=\"&last_k";
    private static final String CHOSEN = "(cs_group={Group})*(cs_from_end<=last_k)";

    /** One trainee by one rubric: the competencies by id. */
    record MatrixRow(String trainee, String rubric, String version, Map<String, Competency> cells) {}

    private final UnitFigures figures;
    private final Cells cells;

    CompetencyTables(UnitFigures figures, Cells cells) {
        this.figures = figures;
        this.cells = cells;
    }

    Table<MatrixRow> matrix() {
        Map<String, MatrixRow> rows = new TreeMap<>();
        Map<String, String> titles = new LinkedHashMap<>();
        for (Competency one : figures.competencies()) {
            Group group = one.group();
            titles.putIfAbsent(group.competency(), group.title());
            rows.computeIfAbsent(
                            group.rubric() + " " + group.version() + " " + group.trainee(),
                            key -> new MatrixRow(
                                    group.trainee(), group.rubric(), group.version(), new LinkedHashMap<>()))
                    .cells()
                    .put(group.competency(), one);
        }
        Tables<MatrixRow> tables = new Tables<>(SOURCE);
        tables.add("Trainee", Kind.TEXT, "code of the trainee", MatrixRow::trainee)
                .add("Rubric", Kind.TEXT, "id of the rubric", MatrixRow::rubric)
                .add("Version", Kind.TEXT, "version of the rubric", MatrixRow::version)
                .add(
                        "Cases (n)",
                        Kind.COUNT,
                        "all cases of the trainee, marked or not",
                        r -> r.cells().values().stream()
                                .findFirst()
                                .map(Competency::cases)
                                .orElse(null));
        titles.forEach((id, title) -> columns(tables, id, title));
        return tables.summary(
                "Cohort matrix",
                "One row for each trainee and rubric; for each competency the marked cases, the mean of the last k of"
                        + " them (k stands on Settings), the 95 % limits of that mean and the day of the last one. Rows"
                        + " are in the order of codes: this is no ranking.",
                List.copyOf(rows.values()));
    }

    private void columns(Tables<MatrixRow> tables, String id, String title) {
        String what = id.equals(UnitFigures.WHOLE) ? "all items" : "the items of competency " + id;
        tables.restOn(null)
                .add(title + ": marked (n)", Kind.COUNT, "cases with a mark of " + what, r -> of(r, id, Competency::n))
                .formula(r -> seen(r, id, "cm_marked"))
                .restOn(r -> recent(r, id))
                .add(
                        title + ": mean, last k",
                        Kind.SHARE,
                        "mean share over the last k marked cases, of " + what,
                        r -> of(r, id, Competency::mean))
                .formula(r -> seen(r, id, "cm_mean"))
                .bars()
                .add(
                        title + ": lower",
                        Kind.SHARE,
                        "lower 95 % limit of that mean by Student's t; blank below three cases or if all are equal",
                        r -> of(r, id, Competency::lower))
                .formula(r -> seen(r, id, "cm_lower"))
                .add(title + ": upper", Kind.SHARE, "upper limit, likewise", r -> of(r, id, Competency::upper))
                .formula(r -> seen(r, id, "cm_upper"))
                .add(
                        title + ": last",
                        Kind.DATE,
                        "day of the latest case with such a mark",
                        r -> of(r, id, Competency::lastDate))
                .formula(r -> seen(r, id, "cm_last"));
    }

    private static int recent(MatrixRow row, String id) {
        Competency cell = row.cells().get(id);
        return cell == null ? 0 : cell.recent();
    }

    private static @Nullable Object of(MatrixRow row, String id, Function<Competency, @Nullable Object> figure) {
        Competency cell = row.cells().get(id);
        return cell == null ? null : figure.apply(cell);
    }

    /** What the sheet "Competencies" says, found by the number of the group; "" & "" keeps a blank blank. */
    private static @Nullable String seen(MatrixRow row, String id, String name) {
        Competency cell = row.cells().get(id);
        return cell == null ? null : "INDEX(" + name + ",MATCH(" + cell.group().number() + ",cm_group,0))";
    }

    Table<Competency> competencies() {
        Tables<Competency> tables = new Tables<>(SOURCE);
        tables.add(
                        "Group",
                        Kind.WHOLE,
                        "number of this rubric, competency and trainee; ties the rows of Case shares to this one",
                        c -> c.group().number())
                .named("cm_group")
                .add("Trainee", Kind.TEXT, "code of the trainee", c -> c.group().trainee())
                .add("Rubric", Kind.TEXT, "id of the rubric", c -> c.group().rubric())
                .named("cm_rubric")
                .add(
                        "Version",
                        Kind.TEXT,
                        "version of the rubric",
                        c -> c.group().version())
                .named("cm_version")
                .add(
                        "Competency",
                        Kind.TEXT,
                        "id of the rubric's domain; whole for all items",
                        c -> c.group().competency())
                .named("cm_competency")
                .add("Competency title", Kind.TEXT, "its title", c -> c.group().title())
                .add("Cases (n)", Kind.COUNT, "all cases of the trainee, marked or not", Competency::cases)
                .add("Marked cases (n)", Kind.COUNT, "cases with a signed mark of it by an assessor", Competency::n)
                .formula("COUNTIFS(cs_group,{Group})")
                .named("cm_marked")
                .add("In the mean (n)", Kind.COUNT, "the latest of them, at most k as on Settings", Competency::recent)
                .formula("COUNTIFS(" + RECENT + ")")
                .named("cm_recent");
        means(tables.restOn(Competency::recent));
        standard(tables);
        return tables.summary(
                "Competencies",
                "One row for each trainee, rubric and competency, computed live from Case shares. A case that several"
                        + " marked enters with the mean of their shares.",
                figures.competencies());
    }

    private static void means(Tables<Competency> tables) {
        tables.add("Mean, last k", Kind.SHARE, "mean share over them", Competency::mean)
                .formula("IF({In the mean (n)}=0,\"\",AVERAGEIFS(cs_share," + RECENT + "))")
                .named("cm_mean")
                .bars()
                .add("Lowest", Kind.SHARE, "least share among them", Competency::lowest)
                .formula("IF({In the mean (n)}=0,\"\",_xlfn.MINIFS(cs_share," + RECENT + "))")
                .add("Highest", Kind.SHARE, "greatest share among them", Competency::highest)
                .formula("IF({In the mean (n)}=0,\"\",_xlfn.MAXIFS(cs_share," + RECENT + "))")
                .add(
                        "SD",
                        Kind.SHARE,
                        "sample standard deviation (n − 1) of their shares; blank below two cases",
                        Competency::sd)
                .formula("IF({In the mean (n)}<2,\"\",SQRT(SUMPRODUCT(" + CHOSEN
                        + "*(cs_share-{Mean, last k})^2)/({In the mean (n)}-1)))")
                .add(
                        "Lower limit",
                        Kind.SHARE,
                        "lower 95 % limit of the mean by Student's t, not below 0; blank below three cases or if all"
                                + " are equal",
                        Competency::lower)
                .formula(limit("MAX(0,{Mean, last k}-"))
                .named("cm_lower")
                .add("Upper limit", Kind.SHARE, "upper limit, likewise, not above 1", Competency::upper)
                .formula(limit("MIN(1,{Mean, last k}+"))
                .named("cm_upper")
                .add("Last date", Kind.DATE, "day of the latest marked case", Competency::lastDate)
                .formula("IF({Marked cases (n)}=0,\"\",_xlfn.MAXIFS(cs_date,cs_group,{Group}))")
                .named("cm_last");
    }

    private static String limit(String start) {
        return "IF(OR({In the mean (n)}<3,N({SD})<0.000000000001),\"\"," + start
                + "TINV(0.05,{In the mean (n)}-1)*{SD}/SQRT({In the mean (n)})))";
    }

    private static void standard(Tables<Competency> tables) {
        tables.source("store: agreed standards; else Settings")
                .add(
                        "Limit",
                        Kind.SHARE,
                        "the share typed on Settings; if none, the standard agreed for the rubric, for all items only",
                        Competency::standard)
                .formula(c -> "IF(share_limit<>\"\",share_limit,"
                        + (c.standard() == null ? "\"\"" : c.standard().toString()) + ")")
                .source(SOURCE)
                .add(
                        "Reaching it (n)",
                        Kind.COUNT,
                        "cases in the mean whose share reaches the limit",
                        Competency::reaching)
                .formula("IF({Limit}=\"\",\"\",SUMPRODUCT(" + CHOSEN + "*(cs_share>=N({Limit})-0.000000000001)))")
                .restOn(c ->
                        c.reaching() == null || c.reaching() == 0 ? c.recent() : Math.min(c.recent(), c.reaching()))
                .add(
                        "Reaching it",
                        Kind.SHARE,
                        "share of the cases in the mean that reach the limit",
                        c -> c.reaching() == null || c.recent() == 0
                                ? null
                                : (Double) ((double) c.reaching() / c.recent()))
                .formula("IF(OR({Limit}=\"\",{In the mean (n)}=0),\"\",{Reaching it (n)}/{In the mean (n)})");
    }

    Table<CaseShare> shares() {
        Tables<CaseShare> tables = new Tables<>("store: signed marks by assessors, without practice");
        tables.add("Case", Kind.TEXT, "code of the case", CaseShare::caseCode)
                .add(
                        "Group",
                        Kind.WHOLE,
                        "number of the row of Competencies it belongs to",
                        s -> s.group().number())
                .named("cs_group")
                .add("Date", Kind.DATE, "day of the operation", CaseShare::date)
                .named("cs_date")
                .add("Trainee", Kind.TEXT, "code of the trainee", s -> s.group().trainee())
                .add("Rubric", Kind.TEXT, "id of the rubric", s -> s.group().rubric())
                .add(
                        "Version",
                        Kind.TEXT,
                        "version of the rubric",
                        s -> s.group().version())
                .add(
                        "Competency",
                        Kind.TEXT,
                        "id of the rubric's domain; whole for all items",
                        s -> s.group().competency())
                .add("Number", Kind.WHOLE, "1 for the trainee's first case with such a mark", CaseShare::number)
                .add("From the end", Kind.WHOLE, "1 for the latest", CaseShare::fromEnd)
                .named("cs_from_end")
                .add("Assessors (n)", Kind.WHOLE, "who marked it", CaseShare::assessors)
                .add("Share", Kind.SHARE, "share of the applicable maximum, mean over the assessors", CaseShare::share)
                .named("cs_share");
        List<CaseShare> rows = new ArrayList<>(cells.options().shared() ? List.of() : figures.shares());
        rows.sort(Comparator.comparingInt((CaseShare s) -> s.group().number()).thenComparingInt(CaseShare::number));
        return tables.table(
                "Case shares",
                "One row for each marked case and competency: what the means and limits of Competencies are computed"
                        + " from.",
                rows);
    }
}
