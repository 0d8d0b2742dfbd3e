package org.sideport.store;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.sideport.model.AuditEvent;
import org.sideport.model.AuditHead;

/** Follows the audit trail line by line and finds each place where it is not as it was written. */
final class AuditChain {

    private final List<AuditFault> faults = new ArrayList<>();
    private String previous = "";
    private long previousId;

    private AuditChain() {}

    /** Empty if the trail is whole in itself. */
    static List<AuditFault> faults(Iterable<AuditEvent> lines) {
        AuditChain chain = new AuditChain();
        lines.forEach(chain::next);
        return chain.faults;
    }

    private void next(AuditEvent line) {
        if (!AuditStore.digest(line).equals(line.digest())) {
            add(line.id(), AuditFault.Kind.ALTERED, "line " + line.id() + " is not as it was written");
        }
        if (!line.previous().equals(previous)) {
            add(
                    line.id(),
                    AuditFault.Kind.BROKEN,
                    previousId == 0
                            ? "lines before line " + line.id() + " are missing"
                            : line.id() - previousId > 1
                                    ? "lines " + (previousId + 1) + " to " + (line.id() - 1)
                                            + " are missing, before line " + line.id()
                                    : "line " + line.id() + " does not continue line " + previousId
                                            + ": one of them was replaced, or lines were put in another order");
        }
        previous = line.digest();
        previousId = line.id();
    }

    private void add(long line, AuditFault.Kind kind, String what) {
        faults.add(new AuditFault(line, kind, what));
    }

    /**
     * Does the trail still reach an end that it is known to have had?
     *
     * @param known from where the end is known, for the message
     */
    static Optional<AuditFault> reaching(Handle handle, AuditHead had, AuditHead now, String known) {
        if (AuditHeadFile.reaches(handle, had)) {
            return Optional.empty();
        }
        return Optional.of(
                now.count() < had.count()
                        ? new AuditFault(
                                now.count() + 1,
                                AuditFault.Kind.CUT,
                                "the trail ends after line " + now.count() + ", but had " + had.count() + " lines by "
                                        + known)
                        : new AuditFault(
                                had.count(),
                                AuditFault.Kind.BROKEN,
                                "line " + had.count() + " is not the one it was by " + known));
    }
}
