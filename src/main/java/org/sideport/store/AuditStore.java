package org.sideport.store;

import java.time.Instant;
import java.util.List;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.mapper.RowMapper;
import org.sideport.model.AuditEvent;
import org.sideport.model.AuditHead;
import org.sideport.model.Caller;
import org.sideport.model.Sha256;

/** The audit trail: lines are added, never changed; each carries the digest of the one before. */
public final class AuditStore {

    private static final RowMapper<AuditEvent> EVENT = (row, context) -> new AuditEvent(
            row.getLong("id"),
            row.getString("at"),
            row.getString("who"),
            row.getString("deed"),
            row.getString("subject"),
            row.getString("before"),
            row.getString("after"),
            row.getString("previous"),
            row.getString("digest"));

    private final Handle handle;
    private final Caller caller;
    private final AfterCommit afterCommit;

    AuditStore(Handle handle, Caller caller, AfterCommit afterCommit) {
        this.handle = handle;
        this.caller = caller;
        this.afterCommit = afterCommit;
    }

    /**
     * Adds a line in the caller's name, within the transaction of what it tells of.
     *
     * @param deed such as {@code rating.sign}
     * @param subject such as a case's code
     * @param before digest or short text of the state before, or empty
     * @param after digest or short text of the state after, or empty
     */
    public void add(String deed, String subject, String before, String after) {
        String previous = last();
        String at = Instant.now().toString();
        String digest = digest(at, caller.code(), deed, subject, before, after, previous);
        handle.execute(
                "insert into audit_event (at, who, deed, subject, before, after, previous, digest)"
                        + " values (?, ?, ?, ?, ?, ?, ?, ?)",
                at,
                caller.code(),
                deed,
                subject,
                before,
                after,
                previous,
                digest);
        afterCommit.add(digest);
    }

    /** All lines, oldest first. */
    public List<AuditEvent> all() {
        return handle.createQuery("select * from audit_event order by id")
                .map(EVENT)
                .list();
    }

    /** The lines about one subject, such as a case's code in any letters, oldest first. */
    public List<AuditEvent> of(String subject) {
        return handle.createQuery("select * from audit_event where lower(subject) = lower(:subject) order by id")
                .bind("subject", subject)
                .map(EVENT)
                .list();
    }

    /** True for a line that tells of a signed rating: what it says after begins with the digest, 64 digits and a blank. */
    public static boolean isSignature(AuditEvent line) {
        return line.deed().equals("rating.sign")
                || line.deed().equals("rating.amend")
                || line.deed().equals("rating.seal");
    }

    /** Where the trail ends now. */
    public AuditHead head() {
        long count = handle.createQuery("select count(*) from audit_event")
                .mapTo(Long.class)
                .one();
        return new AuditHead(count, last());
    }

    private String last() {
        return handle.createQuery("select digest from audit_event order by id desc limit 1")
                .mapTo(String.class)
                .findOne()
                .orElse("");
    }

    /** The digest that a line must carry, over its stored texts. */
    static String digest(AuditEvent line) {
        return digest(line.at(), line.who(), line.deed(), line.subject(), line.before(), line.after(), line.previous());
    }

    /** The digest that a line must carry, over its parts. */
    static String digest(String... parts) {
        return Sha256.ofParts(parts);
    }
}
