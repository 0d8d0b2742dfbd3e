package org.sideport.store;

import java.nio.file.Path;
import org.jdbi.v3.core.Handle;

/** The parts of the store within one transaction; not to be kept beyond it. */
public final class Stores {

    final Handle handle;
    private final Path dir;

    Stores(Handle handle, Path dir) {
        this.handle = handle;
        this.dir = dir;
    }

    public CaseStore cases() {
        return new CaseStore(handle, dir);
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
}
