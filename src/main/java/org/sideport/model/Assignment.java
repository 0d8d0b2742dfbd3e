package org.sideport.model;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * A case given to an assessor to mark.
 *
 * @param caseCode the case; its label where the caller may not know more
 * @param assessor code of the assessor
 * @param label what the case is called for the assessor while something is hidden; drawn, tells nothing
 * @param hidden empty if the assessor may know all
 * @param assignedBy code of who gave it; empty where nobody signs in
 * @param dueOn {@code null} for no day
 * @param doneAt when the marks were signed, or {@code null}
 */
public record Assignment(
        String id,
        String caseCode,
        String assessor,
        Purpose purpose,
        String label,
        Set<Hidden> hidden,
        State state,
        String assignedBy,
        Instant assignedAt,
        @Nullable LocalDate dueOn,
        @Nullable Instant doneAt) {

    /** What it is given for. */
    public enum Purpose {
        FIRST,
        /** For a second opinion, independent of the first. */
        SECOND,
        /** Because the first two differ too much. */
        THIRD,
        /** A case with reference marks, to practise on. */
        PRACTICE;

        public String id() {
            return name().toLowerCase(Locale.ROOT);
        }

        /**
         * @throws InputException if there is no such purpose
         */
        public static Purpose parse(String id) {
            return Arrays.stream(values())
                    .filter(p -> p.id().equals(id))
                    .findFirst()
                    .orElseThrow(() -> new InputException(
                            "there is no purpose \"" + id + "\"", null, "use first, second, third or practice"));
        }
    }

    public enum State {
        OPEN,
        /** The marks are signed. */
        DONE,
        WITHDRAWN;

        public String id() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    public Assignment {
        hidden = Set.copyOf(hidden);
    }

    public boolean isBlinded() {
        return !hidden.isEmpty();
    }

    public boolean hides(Hidden what) {
        return hidden.contains(what);
    }

    /** What its assessor calls the case. */
    public String shownCode() {
        return isBlinded() ? label : caseCode;
    }

    public boolean isLate(LocalDate today) {
        LocalDate due = dueOn;
        return state == State.OPEN && due != null && due.isBefore(today);
    }

    /** The same without the case's own code. */
    public Assignment veiled() {
        return new Assignment(
                id, label, assessor, purpose, label, hidden, state, assignedBy, assignedAt, dueOn, doneAt);
    }
}
