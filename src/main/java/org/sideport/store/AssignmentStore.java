package org.sideport.store;

import java.util.List;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.sideport.model.Assignment;
import org.sideport.model.Hidden;
import org.sideport.model.InputException;

/** Which case is given to which assessor. */
public final class AssignmentStore {

    private final Handle handle;
    private final Veil veil;

    AssignmentStore(Handle handle, Veil veil) {
        this.handle = handle;
        this.veil = veil;
    }

    /**
     * True if the case is, or was until done, given to this assessor under this code: a blinded one by its label, and by
     * its own code once the marks are signed.
     */
    public boolean isGiven(String caseCode, String assessor) {
        // without a join: see AssignmentRows
        return handle.createQuery("select count(*) from assignment a where (a.label = :code or a.case_id ="
                                + " (select c.id from surgical_case c where c.code = :code)"
                                + " and (a.state = 'done' or a.hidden = ''))"
                                + " and a.assessor = :assessor and a.state <> 'withdrawn'"
                                + " and (select count(*) from surgical_case c where c.id = a.case_id) > 0")
                        .bind("code", caseCode)
                        .bind("assessor", assessor)
                        .mapTo(Integer.class)
                        .one()
                > 0;
    }

    /** True if something of the case is hidden from this assessor as long as an assignment is open. */
    public boolean isBlinded(String caseCode, String assessor) {
        return handle.createQuery("select count(*) from assignment a join surgical_case c on c.id = a.case_id"
                                + " where c.code = :code and a.assessor = :assessor and a.state = 'open'"
                                + " and a.hidden <> ''")
                        .bind("code", caseCode)
                        .bind("assessor", assessor)
                        .mapTo(Integer.class)
                        .one()
                > 0;
    }

    /** The assignment that a case with this label is seen through; empty for a case's own code. */
    public Optional<Assignment> through(String code) {
        return veil.through(code);
    }

    /** All assignments, the oldest first; those that hide a case from the caller without its code. */
    public List<Assignment> all() {
        return AssignmentRows.all(handle).stream().map(this::shown).toList();
    }

    /** Those of a case, as {@link #all()}. */
    public List<Assignment> ofCase(String caseCode) {
        return AssignmentRows.ofCase(handle, veil.caseId(caseCode)).stream()
                .map(this::shown)
                .toList();
    }

    /** Those of an assessor in the order of their labels; the blinded without the case's code. */
    public List<Assignment> of(String assessor) {
        return AssignmentRows.of(handle, assessor).stream()
                .map(a -> a.isBlinded() && a.state() != Assignment.State.DONE ? a.veiled() : a)
                .toList();
    }

    private Assignment shown(Assignment one) {
        boolean own = one.assessor().equals(veil.caller().code());
        return own && one.isBlinded() && one.state() == Assignment.State.OPEN ? one.veiled() : one;
    }

    /** Codes of the assessors that the unit lists and that are still with it, alphabetical. */
    public List<String> assessors() {
        return handle.createQuery("select p.code from person p join person_role r on r.person = p.code"
                        + " where p.active and r.role = 'assessor' order by p.code")
                .mapTo(String.class)
                .list();
    }

    /**
     * Adds an assignment, in the place of one of the same case, assessor and purpose that was withdrawn.
     *
     * @throws InputException if it is given already
     */
    public void add(Assignment added) {
        long caseId = veil.caseId(added.caseCode());
        handle.execute(
                "delete from assignment where case_id = ? and assessor = ? and purpose = ? and state = 'withdrawn'",
                caseId,
                added.assessor(),
                added.purpose().id());
        if (AssignmentRows.ofCase(handle, caseId).stream()
                .anyMatch(a -> a.assessor().equals(added.assessor()) && a.state() != Assignment.State.WITHDRAWN)) {
            throw new InputException(
                    added.caseCode() + " is given to " + added.assessor() + " already", null, "withdraw that first");
        }
        handle.createUpdate("insert into assignment (id, case_id, assessor, purpose, label, hidden, state,"
                        + " assigned_by, assigned_at, due_on) values (:id, :caseId, :assessor, :purpose, :label, :hidden, :state,"
                        + " :by, :at, :due)")
                .bind("id", added.id())
                .bind("caseId", caseId)
                .bind("assessor", added.assessor())
                .bind("purpose", added.purpose().id())
                .bind("label", added.label())
                .bind("hidden", Hidden.text(added.hidden()))
                .bind("state", added.state().id())
                .bind("by", added.assignedBy())
                .bind("at", added.assignedAt().toString())
                .bind("due", added.dueOn() == null ? null : added.dueOn().toString())
                .execute();
        NeutralNames.make(handle, veil.dir(), caseId);
    }

    /** Takes it back: a draft that was begun blind is no longer, since its case may be seen now. */
    public void withdraw(Assignment taken) {
        long caseId = AssignmentRows.caseOf(handle, taken.id());
        handle.execute("update assignment set state = 'withdrawn' where id = ? and state = 'open'", taken.id());
        handle.createUpdate("update rating set blind = :no where case_id = :id and assessor = :who and state = 'draft'")
                .bind("no", false)
                .bind("id", caseId)
                .bind("who", taken.assessor())
                .execute();
    }

    /** By its id or label. */
    public Optional<Assignment> find(String idOrLabel) {
        return AssignmentRows.byId(handle, idOrLabel).or(() -> AssignmentRows.byLabel(handle, idOrLabel));
    }
}
