package org.sideport.store;

import java.time.Instant;
import org.jdbi.v3.core.Handle;
import org.sideport.model.Caller;

/** Which ratings came in with a case bundle, and with which. */
public final class OriginStore {

    private final Handle handle;
    private final Caller caller;

    OriginStore(Handle handle, Caller caller) {
        this.handle = handle;
        this.caller = caller;
    }

    /** Notes that a rating came out of the bundle of this SHA-256. */
    public void add(long rating, String bundle) {
        handle.execute(
                "insert into rating_origin (rating_id, bundle, imported_by, imported_at) values (?, ?, ?, ?)",
                rating,
                bundle,
                caller.code(),
                Instant.now().toString());
    }

    /** SHA-256 of the bundle that a rating came with; empty if it was made here. */
    public String of(long rating) {
        return handle.createQuery("select bundle from rating_origin where rating_id = :rating")
                .bind("rating", rating)
                .mapTo(String.class)
                .findOne()
                .orElse("");
    }
}
