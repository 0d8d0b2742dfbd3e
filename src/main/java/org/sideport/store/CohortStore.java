package org.sideport.store;

import java.time.LocalDate;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jdbi.v3.core.Handle;
import org.jspecify.annotations.Nullable;

/** What concerns all cases at once: work given and not done, and marks that were practice. */
public final class CohortStore {

    private final Handle handle;

    CohortStore(Handle handle) {
        this.handle = handle;
    }

    /**
     * A case that an assessor was given and has not done.
     *
     * @param dueOn {@code null} without a date
     */
    public record OpenWork(
            String caseCode,
            String trainee,
            String assessor,
            @Nullable LocalDate dueOn) {}

    /** Whose marking of what. */
    public record CaseAndAssessor(String caseCode, String assessor) {}

    /** Work that is open, the earliest due first, without a date last. */
    public List<OpenWork> openWork() {
        return handle.createQuery("select c.code, c.trainee, a.assessor, a.due_on from assignment a"
                        + " join surgical_case c on c.id = a.case_id where a.state = 'open'"
                        + " order by case when a.due_on is null then 1 else 0 end, a.due_on, c.code, a.assessor")
                .map((row, context) -> {
                    String due = row.getString("due_on");
                    return new OpenWork(
                            row.getString("code"),
                            row.getString("trainee"),
                            row.getString("assessor"),
                            due == null ? null : LocalDate.parse(due));
                })
                .list();
    }

    /** What was given for practice only: such marks count for no trainee. */
    public Set<CaseAndAssessor> practice() {
        return new HashSet<>(handle.createQuery("select c.code, a.assessor from assignment a join surgical_case c"
                        + " on c.id = a.case_id where a.purpose = 'practice' and a.state <> 'withdrawn'"
                        + " and not exists (select 1 from assignment b where b.case_id = a.case_id"
                        + " and b.assessor = a.assessor and b.purpose <> 'practice' and b.state <> 'withdrawn')")
                .map((row, context) -> new CaseAndAssessor(row.getString("code"), row.getString("assessor")))
                .list());
    }
}
