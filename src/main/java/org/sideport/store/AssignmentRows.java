package org.sideport.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.Query;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Assignment;
import org.sideport.model.Hidden;

/** Rows of assignments as they are, for the parts of the store that must know them. */
final class AssignmentRows {

    private static final String SELECT =
            "select a.*, c.code from assignment a join surgical_case c on c.id = a.case_id ";

    /** For one or few: where the cases are a view, joining them would go through all that the caller reaches. */
    private static final String SELECT_FEW =
            "select a.*, (select c.code from surgical_case c where c.id = a.case_id) code from assignment a where ";

    private AssignmentRows() {}

    static Optional<Assignment> byLabel(Handle handle, String label) {
        return list(handle.createQuery(SELECT_FEW + "a.label = :label").bind("label", label.toUpperCase(Locale.ROOT)))
                .stream()
                .findFirst();
    }

    static Optional<Assignment> byId(Handle handle, String id) {
        return list(handle.createQuery(SELECT_FEW + "a.id = :id").bind("id", id)).stream()
                .findFirst();
    }

    static List<Assignment> all(Handle handle) {
        return list(handle.createQuery(SELECT + "order by a.assigned_at, c.code, a.assessor"));
    }

    static List<Assignment> ofCase(Handle handle, long caseId) {
        return list(handle.createQuery(SELECT_FEW + "a.case_id = :id order by a.assigned_at, a.assessor")
                .bind("id", caseId));
    }

    /** In the order of their labels, which are drawn: nothing can be told from it. */
    static List<Assignment> of(Handle handle, String assessor) {
        return list(handle.createQuery(SELECT + "where a.assessor = :assessor order by a.label")
                .bind("assessor", assessor));
    }

    static long caseOf(Handle handle, String id) {
        return handle.createQuery("select case_id from assignment where id = :id")
                .bind("id", id)
                .mapTo(Long.class)
                .one();
    }

    /** The open ones of an assessor that hide something, by case. */
    static Map<Long, Assignment> hiding(Handle handle, String assessor) {
        Map<Long, Assignment> byCase = new HashMap<>();
        handle.createQuery(SELECT + "where a.assessor = :assessor and a.state = 'open' and a.hidden <> ''")
                .bind("assessor", assessor)
                .map((row, context) -> Map.entry(row.getLong("case_id"), map(row)))
                .forEach(entry -> byCase.put(entry.getKey(), entry.getValue()));
        return byCase;
    }

    /** The open one of an assessor that hides something of this case, or {@code null}. */
    static @Nullable Assignment hiding(Handle handle, String assessor, long caseId) {
        return hiding(handle, assessor, ":id", caseId);
    }

    /** As {@link #hiding(Handle, String, long)}, of the case that a rating is of. */
    static @Nullable Assignment hidingRated(Handle handle, String assessor, long ratingId) {
        return hiding(handle, assessor, "(select r.case_id from rating r where r.id = :id)", ratingId);
    }

    private static @Nullable Assignment hiding(Handle handle, String assessor, String ofCase, long id) {
        return list(handle.createQuery(SELECT_FEW + "a.case_id = " + ofCase
                                + " and a.assessor = :assessor and a.state = 'open' and a.hidden <> ''")
                        .bind("id", id)
                        .bind("assessor", assessor))
                .stream()
                .findFirst()
                .orElse(null);
    }

    /** The open assignment that a rating was made for is done with its signature. */
    static void done(Handle handle, long ratingId, Instant when) {
        handle.execute(
                "update assignment set state = 'done', done_at = ? where state = 'open' and exists (select 1 from"
                        + " rating r where r.id = ? and r.case_id = assignment.case_id and r.assessor ="
                        + " assignment.assessor)",
                when.toString(),
                ratingId);
    }

    private static List<Assignment> list(Query query) {
        // one without a code is of a case that the caller does not reach
        return query
                .map((row, context) -> Optional.ofNullable(row.getString("code") == null ? null : map(row)))
                .list()
                .stream()
                .flatMap(Optional::stream)
                .toList();
    }

    private static Assignment map(ResultSet row) throws SQLException {
        String due = row.getString("due_on");
        String done = row.getString("done_at");
        return new Assignment(
                row.getString("id"),
                row.getString("code"),
                row.getString("assessor"),
                Assignment.Purpose.parse(row.getString("purpose")),
                row.getString("label"),
                Hidden.parseAll(row.getString("hidden")),
                Assignment.State.valueOf(row.getString("state").toUpperCase(Locale.ROOT)),
                row.getString("assigned_by"),
                Instant.parse(row.getString("assigned_at")),
                due == null ? null : LocalDate.parse(due),
                done == null ? null : Instant.parse(done));
    }
}
