package org.sideport.store;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.jdbi.v3.core.Handle;
import org.sideport.model.Decision;

/** What panels decided. None is ever changed or deleted: the database itself refuses. */
public final class DecisionStore {

    private final Handle handle;

    DecisionStore(Handle handle) {
        this.handle = handle;
    }

    public void add(Decision decision) {
        handle.createUpdate(
                        "insert into decision (id, trainee, rubric, rubric_version, wording, decided_on, decided_by,"
                                + " shown, shown_digest, recorded_by, recorded_at) values (:id, :trainee, :rubric,"
                                + " :version, :wording, :on, :by, :shown, :digest, :recordedBy, :recordedAt)")
                .bind("id", decision.id())
                .bind("trainee", decision.trainee())
                .bind("rubric", decision.rubric())
                .bind("version", decision.rubricVersion())
                .bind("wording", decision.wording())
                .bind("on", decision.decidedOn().toString())
                .bind("by", String.join(" ", decision.decidedBy()))
                .bind("shown", decision.shown())
                .bind("digest", decision.shownDigest())
                .bind("recordedBy", decision.recordedBy())
                .bind("recordedAt", decision.recordedAt().toString())
                .execute();
    }

    /** Those about a trainee, oldest first. */
    public List<Decision> of(String trainee) {
        return handle.createQuery("select * from decision where trainee = :trainee order by decided_on, recorded_at")
                .bind("trainee", trainee)
                .map((row, context) -> new Decision(
                        row.getString("id"),
                        row.getString("trainee"),
                        row.getString("rubric"),
                        row.getString("rubric_version"),
                        row.getString("wording"),
                        LocalDate.parse(row.getString("decided_on")),
                        List.of(row.getString("decided_by").split(" ")),
                        row.getString("shown"),
                        row.getString("shown_digest"),
                        row.getString("recorded_by"),
                        Instant.parse(row.getString("recorded_at"))))
                .list();
    }
}
