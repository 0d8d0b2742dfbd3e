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

    /**
     * A rating that was begun and not signed.
     *
     * @param changedOn day of the last change
     */
    public record OpenDraft(String caseCode, String trainee, String assessor, boolean self, LocalDate changedOn) {}

    /** Drafts with a rubric, the longest untouched first. */
    public List<OpenDraft> drafts(String rubric) {
        return handle.createQuery("select c.code, c.trainee, r.assessor, r.self, r.changed_at from rating r"
                        + " join surgical_case c on c.id = r.case_id where r.state = 'draft' and r.rubric = :rubric"
                        + " and c.consent <> 'withdrawn' order by r.changed_at, c.code, r.assessor")
                .bind("rubric", rubric)
                .map((row, context) -> new OpenDraft(
                        row.getString(1),
                        row.getString(2),
                        row.getString(3),
                        row.getBoolean(4),
                        LocalDate.parse(row.getString(5).substring(0, 10))))
                .list();
    }

    /** Codes of cases that an assessor has signed with a rubric and the trainee has not, by date, then code. */
    public List<String> withoutOwnMarks(String rubric) {
        return handle.createQuery(
                        "select c.code from surgical_case c where c.consent <> 'withdrawn' and c.id in (select"
                                + " r.case_id from rating r where r.rubric = :rubric and r.state = 'signed' and r.self ="
                                + " :others) and c.id not in (select r.case_id from rating r where r.rubric = :rubric and"
                                + " r.state <> 'draft' and r.self = :own) order by c.operated_on, c.code")
                .bind("rubric", rubric)
                .bind("others", false)
                .bind("own", true)
                .mapTo(String.class)
                .list();
    }

    /** Codes of cases in which nobody tagged a phase, by date, then code. */
    public List<String> untagged() {
        return handle.createQuery("select c.code from surgical_case c where c.consent <> 'withdrawn' and c.id not in"
                        + " (select t.case_id from tagging t where t.id in (select p.tagging_id from phase_span p))"
                        + " order by c.operated_on, c.code")
                .mapTo(String.class)
                .list();
    }

    /** Codes of cases that no assessor has signed with a rubric, by date, then code. */
    public List<String> unmarked(String rubric) {
        return handle.createQuery("select c.code from surgical_case c where c.consent <> 'withdrawn' and c.id not in"
                        + " (select r.case_id from rating r where r.rubric = :rubric and r.state = 'signed' and r.self = :others)"
                        + " order by c.operated_on, c.code")
                .bind("rubric", rubric)
                .bind("others", false)
                .mapTo(String.class)
                .list();
    }

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

    /**
     * What is practice and counts for no trainee: the one definition that figures, draws and adjudication ask.
     *
     * @param given whose marking of what was given for practice only
     * @param references cases with reference marks, by rubric and version: marks of these are compared with the reference,
     *     not with one another
     */
    public record Practice(Set<CaseAndAssessor> given, Set<Reference> references) {

        /** True if what this assessor marks of the case is practice. */
        public boolean isMark(String caseCode, String assessor) {
            return given.contains(new CaseAndAssessor(caseCode, assessor));
        }

        /** True if the case has reference marks made with this version of the rubric. */
        public boolean isReference(String caseCode, String rubric, String version) {
            return references.contains(new Reference(caseCode, rubric, version));
        }

        /** True if the case has reference marks of any kind. */
        public boolean isReference(String caseCode) {
            return references.stream().anyMatch(r -> r.caseCode().equals(caseCode));
        }
    }

    /** A case and what its reference marks were made with. */
    public record Reference(String caseCode, String rubric, String version) {}

    public Practice practice() {
        Set<CaseAndAssessor> given = new HashSet<>(handle.createQuery(
                        "select c.code, a.assessor from assignment a join surgical_case c on c.id = a.case_id where"
                                + " a.purpose = 'practice' and a.state <> 'withdrawn' and not exists (select 1 from"
                                + " assignment b where b.case_id = a.case_id and b.assessor = a.assessor and b.purpose <>"
                                + " 'practice' and b.state <> 'withdrawn')")
                .map((row, context) -> new CaseAndAssessor(row.getString("code"), row.getString("assessor")))
                .list());
        Set<Reference> references =
                new HashSet<>(handle.createQuery("select distinct c.code, m.rubric, m.rubric_version from agreed_mark m"
                                + " join surgical_case c on c.id = m.case_id where m.purpose = 'reference'")
                        .map((row, context) -> new Reference(
                                row.getString("code"), row.getString("rubric"), row.getString("rubric_version")))
                        .list());
        return new Practice(given, references);
    }
}
