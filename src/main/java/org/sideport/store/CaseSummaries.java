package org.sideport.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Collectors;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.Query;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Assignment;
import org.sideport.model.Caller;
import org.sideport.model.CaseCounts;
import org.sideport.model.CaseSummary;
import org.sideport.model.ConsentState;
import org.sideport.model.Role;

/** The list of cases in one query that reads no rating's scores and no recording's details. */
public final class CaseSummaries {

    private static final String LINE = "\n";

    /** Lists in one column have a line break between their members: no code can hold one. */
    private static final String SELECT = """
        select c.code, c.trainee, c.operated_on, c.procedure_id, c.consent, c.review_by,
          (select count(*) || ' ' || coalesce(sum(s.duration_us), 0) from segment s where s.case_id = c.id) files,
          (select string_agg(t.annotator, '\n') from tagging t where t.case_id = c.id) annotators,
          (select string_agg(d.value, '\n') from case_descriptor d where d.case_id = c.id) descriptors,
          (select string_agg(case when r.self then '1' else '0' end || r.state || ' ' || r.assessor, '\n') from rating r
            where r.case_id = c.id and r.state <> 'superseded' and %s) ratings,
          c.id
        from surgical_case c where %s order by c.operated_on desc, c.code limit :most
        """;

    private static final String COUNTS = "select (select count(*) from surgical_case where consent <> 'withdrawn'),"
            + " (select count(*) from (select distinct case_id from tagging) t),"
            + " (select count(*) from (select distinct case_id from rating where state = 'signed' and not self) r)";

    private final Handle handle;
    private final Veil veil;

    CaseSummaries(Handle handle, Veil veil) {
        this.handle = handle;
        this.veil = veil;
    }

    /** The newest cases but withdrawn ones, as {@link #newest(int, CaseReach, MarkReach)}. */
    public List<CaseSummary> newest(int most) {
        return newest(most, CaseReach.ALL, MarkReach.ALL);
    }

    /**
     * The newest cases that are reached, newest first, then by code, with those marks only that may be seen; {@code most} of
     * them, or all if it is negative. What the caller marks blind comes last by its label, since a place among dates would
     * tell the date.
     */
    public List<CaseSummary> newest(int most, CaseReach cases, MarkReach marks) {
        record Row(long id, CaseSummary line) {}
        String which = cases.condition();
        String ids = "";
        if (most >= 0 && cases.equals(CaseReach.ALL) && readsAll()) {
            // through the view all cases would be read and sorted, since it cannot keep the order of an index
            ids = handle.createQuery("select newest_cases(:most)")
                    .bind("most", most)
                    .mapTo(String.class)
                    .collect(Collectors.joining(","));
            if (ids.isEmpty()) {
                return List.of();
            }
            which += " and c.id = any(string_to_array(:ids, ',')::bigint[])";
        }
        Query query = handle.createQuery(SELECT.formatted(marks.condition(), which));
        if (!ids.isEmpty()) {
            query.bind("ids", ids);
        }
        List<Row> rows = marks.bind(cases.bind(query))
                .bind("most", most < 0 ? Integer.MAX_VALUE : most)
                .setFetchSize(1000)
                .map((row, context) -> new Row(row.getLong("id"), summary(row)))
                .list();
        if (!veil.isAny()) {
            return rows.stream().map(Row::line).toList();
        }
        List<CaseSummary> lines = new ArrayList<>();
        List<CaseSummary> veiled = new ArrayList<>();
        for (Row row : rows) {
            Assignment hiding = veil.over(row.id());
            if (hiding == null) {
                lines.add(row.line());
            } else {
                veiled.add(row.line().veiled(hiding.label(), hiding.hidden()));
            }
        }
        veiled.sort(Comparator.comparing(CaseSummary::code));
        lines.addAll(veiled);
        return lines;
    }

    /** A trainee's cases, newest first, then by code. */
    public List<CaseSummary> ofTrainee(String trainee) {
        return newest(-1, new CaseReach(false, trainee, ""), MarkReach.ALL);
    }

    /** How many cases there are, and how far they have come; a self-rating counts as no mark. */
    public CaseCounts counts() {
        return handle.createQuery(readsAll() ? "select * from case_counts()" : COUNTS)
                .map((row, context) -> new CaseCounts(row.getLong(1), row.getLong(2), row.getLong(3)))
                .one();
    }

    /** True where the database has shorter ways for who sees all than the views that hide something from others. */
    private boolean readsAll() {
        return Dialect.of(handle).hasRowRules()
                && !(veil.caller() instanceof Caller.Person person
                        && !person.roles().contains(Role.DIRECTOR));
    }

    private static CaseSummary summary(ResultSet row) throws SQLException {
        String code = row.getString(1);
        String trainee = row.getString(2);
        String date = row.getString(3);
        String reviewBy = row.getString(6);
        String[] recording = row.getString(7).split(" ");
        int files = Integer.parseInt(recording[0]);
        long durationUs = Long.parseLong(recording[1]);
        List<String> annotators = sorted(row.getString(8));
        String descriptors = row.getString(9);
        Marks marks = Marks.of(row.getString(10));
        return new CaseSummary(
                code,
                trainee,
                LocalDate.parse(date),
                row.getString(4).intern(),
                files == 0 ? null : (Long) durationUs,
                files,
                annotators,
                marks.assessors(),
                marks.self(),
                marks.marked(),
                marks.signed(),
                ConsentState.parse(row.getString(5)),
                reviewBy == null ? null : LocalDate.parse(reviewBy),
                CaseSummary.searchText(
                        code, trainee, date, descriptors == null ? "" : descriptors, annotators, marks.assessors()));
    }

    private static List<String> sorted(@Nullable String lines) {
        return lines == null
                ? List.of()
                : List.of(lines.split(LINE)).stream().sorted().distinct().toList();
    }

    /** Out of lines such as "0signed A1": self or not, state, assessor. */
    private record Marks(List<String> assessors, boolean self, boolean marked, boolean signed) {

        static final Marks NONE = new Marks(List.of(), false, false, false);

        static Marks of(@Nullable String lines) {
            if (lines == null) {
                return NONE;
            }
            boolean self = false;
            boolean signed = false;
            StringBuilder others = new StringBuilder();
            for (String line : lines.split(LINE)) {
                if (line.startsWith("1")) {
                    self = true;
                } else {
                    others.append(line.substring(line.indexOf(' ') + 1)).append(LINE);
                    signed |= line.startsWith("0signed");
                }
            }
            List<String> assessors = others.length() == 0 ? List.of() : sorted(others.toString());
            return new Marks(assessors, self, !assessors.isEmpty(), signed);
        }
    }
}
