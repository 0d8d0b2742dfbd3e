package org.sideport.store;

import java.nio.file.Path;
import org.jdbi.v3.core.Handle;
import org.sideport.model.Caller;

/** The parts of the store within one transaction; not to be kept beyond it. */
public final class Stores {

    final Handle handle;
    private final Caller caller;
    private final Veil veil;

    Stores(Handle handle, Path dir, Caller caller) {
        this.handle = handle;
        this.caller = caller;
        this.veil = new Veil(handle, caller, dir);
    }

    /** On whose behalf this transaction runs. */
    public Caller caller() {
        return caller;
    }

    public CaseStore cases() {
        return new CaseStore(handle, veil);
    }

    public CaseSummaries summaries() {
        return new CaseSummaries(handle, veil);
    }

    public TaggingStore taggings() {
        return new TaggingStore(handle, veil);
    }

    public CutStore cuts() {
        return new CutStore(handle, veil);
    }

    public CommentStore comments() {
        return new CommentStore(handle, veil);
    }

    public MeasurementStore measurements() {
        return new MeasurementStore(handle, veil);
    }

    public RatingStore ratings() {
        return new RatingStore(handle, veil);
    }

    public AssignmentStore assignments() {
        return new AssignmentStore(handle, veil);
    }

    public AgreedMarkStore agreedMarks() {
        return new AgreedMarkStore(handle, veil);
    }

    public RuleStore rules() {
        return new RuleStore(handle);
    }

    public AuditStore audit() {
        return new AuditStore(handle, caller);
    }

    public ExemplarStore exemplars() {
        return new ExemplarStore(handle, veil);
    }
}
