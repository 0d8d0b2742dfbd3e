package org.sideport.store;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.PreparedBatch;
import org.sideport.model.AgreedMark;
import org.sideport.model.ItemScore;
import org.sideport.model.NotApplicable;

/** Marks that people agreed upon. They are added, never changed. */
public final class AgreedMarkStore {

    private final Handle handle;
    private final Veil veil;

    AgreedMarkStore(Handle handle, Veil veil) {
        this.handle = handle;
        this.veil = veil;
    }

    /**
     * @throws org.sideport.model.InputException if there is no such case
     */
    public void add(AgreedMark added) {
        handle.createUpdate("insert into agreed_mark (id, case_id, rubric, rubric_version, purpose, stands, agreed_by,"
                        + " reason, agreed_at) values (:id, :caseId, :rubric, :version, :purpose, :stands, :by,"
                        + " :reason, :at)")
                .bind("id", added.id())
                .bind("caseId", veil.caseId(added.caseCode()))
                .bind("rubric", added.rubric())
                .bind("version", added.rubricVersion())
                .bind("purpose", added.purpose().id())
                .bind("stands", added.stands())
                .bind("by", added.agreedBy())
                .bind("reason", added.reason())
                .bind("at", added.agreedAt().toString())
                .execute();
        PreparedBatch scores = handle.prepareBatch(
                "insert into agreed_score (mark_id, item, ordinal, points, not_applicable) values (?, ?, ?, ?, ?)");
        for (int i = 0; i < added.scores().size(); i++) {
            ItemScore score = added.scores().get(i);
            String reason = score instanceof ItemScore.Excused excused
                    ? excused.reason().id()
                    : null;
            scores.add(added.id(), score.item(), i, score.pointsOrNull(), reason);
        }
        if (scores.size() > 0) {
            scores.execute();
        }
    }

    /** All for a purpose, oldest first: the last of a case and rubric counts. None of a case that the caller marks blind. */
    public List<AgreedMark> all(AgreedMark.Purpose purpose) {
        Map<String, List<ItemScore>> scores = new LinkedHashMap<>();
        handle.createQuery("select s.* from agreed_score s join agreed_mark m on m.id = s.mark_id"
                        + " where m.purpose = :purpose order by s.mark_id, s.ordinal")
                .bind("purpose", purpose.id())
                .map((row, context) -> {
                    String reason = row.getString("not_applicable");
                    ItemScore score = reason == null
                            ? new ItemScore.Marked(row.getString("item"), row.getInt("points"), "")
                            : new ItemScore.Excused(row.getString("item"), NotApplicable.parse(reason), "");
                    return Map.entry(row.getString("mark_id"), score);
                })
                .forEach(entry -> scores.computeIfAbsent(entry.getKey(), id -> new ArrayList<>())
                        .add(entry.getValue()));
        record Row(long caseId, AgreedMark mark) {}
        return handle.createQuery("select m.*, c.code from agreed_mark m join surgical_case c on c.id = m.case_id"
                        + " where m.purpose = :purpose order by m.agreed_at, m.id")
                .bind("purpose", purpose.id())
                .map((row, context) -> {
                    Number stands = (Number) row.getObject("stands");
                    return new Row(
                            row.getLong("case_id"),
                            new AgreedMark(
                                    row.getString("id"),
                                    row.getString("code"),
                                    row.getString("rubric"),
                                    row.getString("rubric_version"),
                                    purpose,
                                    stands == null ? null : (Long) stands.longValue(),
                                    row.getString("agreed_by"),
                                    row.getString("reason"),
                                    Instant.parse(row.getString("agreed_at")),
                                    scores.getOrDefault(row.getString("id"), List.of())));
                })
                .filter(row -> veil.over(row.caseId()) == null)
                .map(Row::mark)
                .list();
    }
}
