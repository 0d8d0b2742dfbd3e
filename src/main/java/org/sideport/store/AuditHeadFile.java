package org.sideport.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jdbi.v3.core.Handle;
import org.sideport.model.AuditHead;
import org.slf4j.LoggerFactory;

/**
 * The end of the audit trail as last seen, in a file of its own beside the store: a trail that lost its tail, or was put
 * back to an older state, no longer reaches it. Used by one thread at a time, the one that writes.
 */
final class AuditHeadFile {

    /** Its name in the folder of the workspace. */
    static final String NAME = "workspace.head";

    private static final Pattern FORM = Pattern.compile("sideport-audit-head-1 (\\d{1,18}) ([0-9a-f]{64}|-)\\R?");

    private final Path file;
    private AuditHead known = AuditHead.NONE;
    private boolean behind;

    AuditHeadFile(Path workspace) {
        this.file = workspace.resolve(NAME);
    }

    /** What the file says; empty if there is none, or it cannot be read as one. */
    Optional<AuditHead> read() {
        try {
            return Files.exists(file) ? parse(Files.readString(file)) : Optional.empty();
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    static Optional<AuditHead> parse(String text) {
        Matcher form = FORM.matcher(text);
        return form.matches()
                ? Optional.of(new AuditHead(
                        Long.parseLong(form.group(1)), form.group(2).equals("-") ? "" : form.group(2)))
                : Optional.empty();
    }

    static String text(AuditHead head) {
        return "sideport-audit-head-1 " + head.count() + " " + (head.digest().isEmpty() ? "-" : head.digest()) + "\n";
    }

    /**
     * Compares file and trail when the workspace is opened. A file that lags behind, as after a crash, is brought up; one
     * that the trail does not reach is left as it is, as evidence, until somebody accepts the trail.
     */
    void opened(Handle handle, AuditStore audit) {
        known = audit.head();
        Optional<AuditHead> said = read();
        if (said.isEmpty()) {
            if (Files.exists(file) || known.count() > 0) {
                // the file is written anew once this line is on the disk
                audit.add("store.head", "workspace", Files.exists(file) ? "unreadable" : "missing", "");
            } else {
                keep(known);
            }
            return;
        }
        boolean same = said.get().equals(known);
        behind = !same && !reaches(handle, said.get());
        if (behind) {
            LoggerFactory.getLogger(AuditHeadFile.class)
                    .warn("the audit trail does not reach the end it had; see: sideport workspace check");
        } else if (!same) {
            keep(known);
        }
    }

    /** True if the trail has a line of this number with this digest. */
    static boolean reaches(Handle handle, AuditHead head) {
        return head.count() == 0
                || handle.createQuery("select digest from audit_event order by id limit 1 offset :before")
                        .bind("before", head.count() - 1)
                        .mapTo(String.class)
                        .findOne()
                        .filter(head.digest()::equals)
                        .isPresent();
    }

    /** After lines were added and are on the disk. */
    void grew(long lines, String digest) {
        known = new AuditHead(known.count() + lines, digest);
        if (!behind) {
            keep(known);
        }
    }

    /** Takes the trail as it is from now on. */
    void accept(AuditHead head) {
        behind = false;
        known = head;
        keep(head);
    }

    private void keep(AuditHead head) {
        try {
            WholeFile.write(file, text(head));
        } catch (IOException e) {
            // What it tells of is in the store; the file catches up with the next line, or at the next opening.
            LoggerFactory.getLogger(AuditHeadFile.class).warn("{} not written: {}", NAME, e.toString());
        }
    }
}
