package org.sideport.store;

import java.nio.file.Path;
import org.jdbi.v3.core.Handle;
import org.sideport.model.Caller;

/** The parts of the store within one transaction; not to be kept beyond it. */
public final class Stores {

    final Handle handle;
    private final Path dir;
    private final Caller caller;

    Stores(Handle handle, Path dir, Caller caller) {
        this.handle = handle;
        this.dir = dir;
        this.caller = caller;
    }

    /** On whose behalf this transaction runs. */
    public Caller caller() {
        return caller;
    }

    public CaseStore cases() {
        return new CaseStore(handle, dir, caller);
    }

    public CaseSummaries summaries() {
        return new CaseSummaries(handle);
    }

    public TaggingStore taggings() {
        return new TaggingStore(handle);
    }

    public CutStore cuts() {
        return new CutStore(handle);
    }

    public CommentStore comments() {
        return new CommentStore(handle);
    }

    public MeasurementStore measurements() {
        return new MeasurementStore(handle);
    }

    public RatingStore ratings() {
        return new RatingStore(handle);
    }

    public RubricStore rubrics() {
        return new RubricStore(handle);
    }

    public AssignmentStore assignments() {
        return new AssignmentStore(handle);
    }

    public AuditStore audit() {
        return new AuditStore(handle, caller);
    }

    public ExemplarStore exemplars() {
        return new ExemplarStore(handle);
    }
}
