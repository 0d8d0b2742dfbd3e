package org.sideport.store;

import java.nio.file.Path;
import org.jdbi.v3.core.Handle;
import org.sideport.model.Caller;

/** The parts of the store within one transaction; not to be kept beyond it. */
public final class Stores {

    final Handle handle;
    private final Path dir;
    private final Caller caller;
    private final AuditGrowth growth;

    Stores(Handle handle, Path dir, Caller caller, AuditGrowth growth) {
        this.handle = handle;
        this.dir = dir;
        this.caller = caller;
        this.growth = growth;
    }

    /** On whose behalf this transaction runs. */
    public Caller caller() {
        return caller;
    }

    public CaseStore cases() {
        return new CaseStore(handle, dir, caller, audit());
    }

    public CaseSummaries summaries() {
        return new CaseSummaries(handle);
    }

    public TaggingStore taggings() {
        return new TaggingStore(handle);
    }

    public CutStore cuts() {
        return new CutStore(handle, audit());
    }

    public CommentStore comments() {
        return new CommentStore(handle, audit());
    }

    public MeasurementStore measurements() {
        return new MeasurementStore(handle);
    }

    public RatingStore ratings() {
        return new RatingStore(handle, audit());
    }

    public PeopleStore people() {
        return new PeopleStore(handle);
    }

    public AssignmentStore assignments() {
        return new AssignmentStore(handle);
    }

    public SealStore seals() {
        return new SealStore(handle);
    }

    public ConsentStore consents() {
        return new ConsentStore(handle);
    }

    public DeletionStore deletions() {
        return new DeletionStore(handle);
    }

    public OriginStore origins() {
        return new OriginStore(handle, caller);
    }

    public AuditStore audit() {
        return new AuditStore(handle, caller, growth);
    }

    public ExemplarStore exemplars() {
        return new ExemplarStore(handle, audit());
    }
}
