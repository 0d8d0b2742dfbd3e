package org.sideport.store;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Assignment;
import org.sideport.model.Caller;
import org.sideport.model.InputException;

/**
 * What the caller may not learn of a case yet: the one place through which every part of the store goes from a code to a
 * case and back, so that no job can forget it. A blinded case is reached by the label of its assignment only, and comes
 * without what the assignment hides. Someone who signed in does not find it under its own code while the assignment is
 * open; where nobody signs in, who knows the code may use it. Lives for one transaction.
 */
final class Veil {

    private final Handle handle;
    private final Caller caller;
    private final Path dir;
    private @Nullable Map<Long, Assignment> over;

    Veil(Handle handle, Caller caller, Path dir) {
        this.handle = handle;
        this.caller = caller;
        this.dir = dir;
    }

    /** As nobody's: for digests of what is kept, never for what is shown. */
    Veil lifted() {
        return new Veil(handle, new Caller.Anyone(), dir);
    }

    Path dir() {
        return dir;
    }

    Caller caller() {
        return caller;
    }

    /** The row of the case with this code or label. */
    Optional<Long> find(String code) {
        Optional<Long> labelled = through(code).map(a -> AssignmentRows.caseOf(handle, a.id()));
        return labelled.isPresent()
                ? labelled
                : handle.createQuery("select id from surgical_case where code = :code")
                        .bind("code", code)
                        .mapTo(Long.class)
                        .findOne()
                        .filter(id -> hiding(id) == null);
    }

    /**
     * @throws InputException if there is no such case, as far as the caller may know, or its consent was withdrawn
     */
    long caseId(String code) {
        long id = evenWithdrawn(code);
        if (isWithdrawn(id)) {
            throw new InputException(
                    "case " + code + " is not there any more: consent was withdrawn",
                    null,
                    "a programme director finds it among what is to be deleted");
        }
        return id;
    }

    /**
     * As {@link #caseId}, also where consent was withdrawn.
     *
     * @throws InputException if there is no such case, as far as the caller may know
     */
    long evenWithdrawn(String code) {
        return find(code).orElseThrow(() -> noCase(code));
    }

    /** True if consent was withdrawn: such a case is there for deleting only. */
    boolean isWithdrawn(long caseId) {
        return handle.createQuery("select count(*) from surgical_case where id = :id and consent = 'withdrawn'")
                        .bind("id", caseId)
                        .mapTo(Integer.class)
                        .one()
                > 0;
    }

    static InputException noCase(String code) {
        return new InputException("there is no case " + code, null, "list the cases with: sideport case list");
    }

    /** The assignment whose label this is, if the caller may look through it. */
    Optional<Assignment> through(String code) {
        return AssignmentRows.byLabel(handle, code)
                .filter(a -> a.isBlinded() && a.state() != Assignment.State.WITHDRAWN)
                .filter(a -> !(caller instanceof Caller.Person p) || p.code().equals(a.assessor()));
    }

    /** The open assignment that hides a case from the caller, or {@code null}; for lists, since it reads all of them once. */
    @Nullable
    Assignment over(long caseId) {
        return over().get(caseId);
    }

    /** As {@link #over}, for one case: somebody may have hundreds to mark. */
    @Nullable
    Assignment hiding(long caseId) {
        if (over != null || !(caller instanceof Caller.Person person)) {
            return over(caseId);
        }
        return AssignmentRows.hiding(handle, person.code(), caseId);
    }

    /** The label under which the caller knows the case with this code: of the open assignment that hides it, if any. */
    Optional<String> labelOf(String code) {
        return over().values().stream()
                .filter(a -> a.caseCode().equals(code))
                .map(Assignment::label)
                .findFirst();
    }

    boolean isAny() {
        return !over().isEmpty();
    }

    /** Open assignments by case that hide something from the caller; none where nobody signs in. */
    private Map<Long, Assignment> over() {
        Map<Long, Assignment> known = over;
        if (known == null) {
            known = caller instanceof Caller.Person p ? AssignmentRows.hiding(handle, p.code()) : Map.of();
            over = known;
        }
        return known;
    }

    /** What a case may be called to the caller. */
    String shown(long caseId, String code) {
        Assignment hiding = over(caseId);
        return hiding == null ? code : hiding.label();
    }

    /** How those who tagged a case are called through an assignment: the assessor by code, others by number. */
    static Map<String, String> taggers(Assignment through, List<String> annotators) {
        Map<String, String> names = new HashMap<>();
        int other = 0;
        for (String annotator : annotators) {
            names.put(annotator, annotator.equals(through.assessor()) ? annotator : "tags-" + ++other);
        }
        return names;
    }

    /**
     * @throws InputException if somebody else than its assessor writes under a label
     */
    void requireAssessor(String code, String person) {
        through(code).ifPresent(a -> {
            if (!a.assessor().equals(person)) {
                throw new InputException(
                        a.label() + " is given to another assessor than " + person,
                        null,
                        "work under the code that it was given to");
            }
        });
    }
}
