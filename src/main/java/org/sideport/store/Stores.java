package org.sideport.store;

import java.nio.file.Path;
import org.jdbi.v3.core.Handle;
import org.sideport.model.Caller;

/** The parts of the store within one transaction; not to be kept beyond it. */
public final class Stores {

    final Handle handle;
    private final Caller caller;
    private final AfterCommit afterCommit;
    private final Veil veil;

    Stores(Handle handle, Path dir, Caller caller, AfterCommit afterCommit) {
        this.handle = handle;
        this.caller = caller;
        this.afterCommit = afterCommit;
        this.veil = new Veil(handle, caller, dir);
    }

    /** On whose behalf this transaction runs. */
    public Caller caller() {
        return caller;
    }

    public CaseStore cases() {
        return new CaseStore(handle, veil, audit());
    }

    public CaseSummaries summaries() {
        return new CaseSummaries(handle, veil);
    }

    public TaggingStore taggings() {
        return new TaggingStore(handle, veil);
    }

    public CutStore cuts() {
        return new CutStore(handle, veil, audit());
    }

    public CommentStore comments() {
        return new CommentStore(handle, veil, audit());
    }

    public MeasurementStore measurements() {
        return new MeasurementStore(handle, veil);
    }

    public HiddenAreaStore hiddenAreas() {
        return new HiddenAreaStore(handle, veil, audit());
    }

    public RatingStore ratings() {
        return new RatingStore(handle, veil, audit());
    }

    public PeopleStore people() {
        return new PeopleStore(handle);
    }

    public RubricStore rubrics() {
        return new RubricStore(handle);
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

    public SealStore seals() {
        return new SealStore(handle, veil);
    }

    public ConsentStore consents() {
        return new ConsentStore(handle);
    }

    public DeletionStore deletions() {
        return new DeletionStore(handle, veil, afterCommit);
    }

    public OriginStore origins() {
        return new OriginStore(handle, caller);
    }

    public AuditStore audit() {
        return new AuditStore(handle, caller, afterCommit);
    }

    public ExemplarStore exemplars() {
        return new ExemplarStore(handle, veil, audit());
    }

    public AngoffStore rounds() {
        return new AngoffStore(handle);
    }

    public StandardStore standards() {
        return new StandardStore(handle);
    }

    public DecisionStore decisions() {
        return new DecisionStore(handle);
    }

    public CohortStore cohort() {
        return new CohortStore(handle);
    }
}
