package org.sideport.store;

import java.util.List;
import org.jdbi.v3.core.Handle;

/** The rubrics that ratings were made with: their texts never change. */
public final class RubricStore {

    private final Handle handle;

    RubricStore(Handle handle) {
        this.handle = handle;
    }

    /**
     * A version of a rubric that has been used.
     *
     * @param json its text as it was used
     * @param ratings how many ratings stand in it, drafts too
     */
    public record Used(String rubric, String version, String json, int ratings) {}

    /** All versions that have been used, by rubric and version. */
    public List<Used> used() {
        return handle.createQuery("select d.rubric, d.version, d.json,"
                        + " (select count(*) from rating r where r.rubric = d.rubric"
                        + " and r.rubric_version = d.version) as ratings"
                        + " from rubric_document d order by d.rubric, d.version")
                .map((row, context) -> new Used(
                        row.getString("rubric"),
                        row.getString("version"),
                        row.getString("json"),
                        row.getInt("ratings")))
                .list();
    }
}
