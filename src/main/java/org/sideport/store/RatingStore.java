package org.sideport.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.Query;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rating;
import org.sideport.model.RatingState;

/** Ratings. Drafts change; signed ones do not: the database itself refuses. */
public final class RatingStore {

    private static final String SELECT =
            "select r.*, c.code, d.json from rating r join surgical_case c on c.id = r.case_id"
                    + " join rubric_document d on d.rubric = r.rubric and d.version = r.rubric_version ";

    private final Handle handle;

    RatingStore(Handle handle) {
        this.handle = handle;
    }

    /**
     * Keeps the rubric's text, once for each version.
     *
     * @throws InputException if another text was used before under the same id and version
     */
    public void keepRubric(String rubric, String version, String json) {
        Optional<String> known = handle.createQuery(
                        "select json from rubric_document where rubric = :rubric and version = :version")
                .bind("rubric", rubric)
                .bind("version", version)
                .mapTo(String.class)
                .findOne();
        if (known.isEmpty()) {
            handle.execute(
                    "insert into rubric_document (rubric, version, json) values (?, ?, ?)", rubric, version, json);
        } else if (!known.get().equals(json)) {
            throw new InputException(
                    "rubric " + rubric + " was changed but still calls itself version " + version,
                    null,
                    "give the changed rubric a new version: ratings made with the old one must stay readable");
        }
    }

    /** @return the new draft's id */
    public long addDraft(String caseCode, Rating rating, @Nullable Long amends, @Nullable String reason) {
        long id = handle.createUpdate(
                        "insert into rating (case_id, rubric, rubric_version, assessor, self, blind, comment,"
                                + " state, changed_at, amends, reason) values (:caseId, :rubric, :version, :assessor, :self,"
                                + " :blind, :comment, 'draft', :now, :amends, :reason)")
                .bind("caseId", CaseKey.of(handle, caseCode))
                .bind("rubric", rating.rubric())
                .bind("version", rating.rubricVersion())
                .bind("assessor", rating.assessor())
                .bind("self", rating.self())
                .bind("blind", rating.blind())
                .bind("comment", rating.comment())
                .bind("now", Instant.now().toString())
                .bind("amends", amends)
                .bind("reason", reason)
                .executeAndReturnGeneratedKeys("id")
                .mapTo(Long.class)
                .one();
        insertScores(id, rating);
        return id;
    }

    /**
     * Puts new marks in the place of a draft's.
     *
     * @throws InputException if the rating is no draft
     */
    public void saveDraft(long id, Rating rating) {
        requireDraft(id);
        handle.createUpdate("update rating set blind = :blind, comment = :comment, changed_at = :now where id = :id")
                .bind("blind", rating.blind())
                .bind("comment", rating.comment())
                .bind("now", Instant.now().toString())
                .bind("id", id)
                .execute();
        handle.execute("delete from item_score where rating_id = ?", id);
        insertScores(id, rating);
    }

    /**
     * Signs a draft; what it amends is superseded in the same transaction.
     *
     * @throws InputException if the rating is no draft
     */
    public void sign(long id, Instant when) {
        StoredRating draft = requireDraft(id);
        if (draft.amends() != null) {
            handle.execute("update rating set state = 'superseded' where id = ?", draft.amends());
        }
        handle.execute("update rating set state = 'signed', signed_at = ? where id = ?", when.toString(), id);
    }

    public Optional<StoredRating> find(long id) {
        return list(handle.createQuery(SELECT + "where r.id = :id").bind("id", id)).stream()
                .findFirst();
    }

    /** The rating of this state that an assessor has for a case and a rubric. */
    public Optional<StoredRating> find(
            String caseCode, String rubric, String assessor, boolean self, RatingState state) {
        return list(handle.createQuery(SELECT + "where c.code = :code and r.rubric = :rubric and r.assessor = :assessor"
                                + " and r.self = :self and r.state = :state")
                        .bind("code", caseCode)
                        .bind("rubric", rubric)
                        .bind("assessor", assessor)
                        .bind("self", self)
                        .bind("state", state.id()))
                .stream()
                .findFirst();
    }

    /** All ratings of a case, superseded ones too, oldest first. */
    public List<StoredRating> ofCase(String caseCode) {
        return list(handle.createQuery(SELECT + "where c.code = :code order by r.id")
                .bind("code", caseCode));
    }

    /** All ratings by case date, code and id. */
    public List<StoredRating> all() {
        return list(handle.createQuery(SELECT + "order by c.operated_on, c.code, r.id"));
    }

    private StoredRating requireDraft(long id) {
        StoredRating found = find(id).orElseThrow(() ->
                new InputException("there is no rating " + id, null, "list them with: sideport case show"));
        if (found.state() != RatingState.DRAFT) {
            throw new InputException(
                    "this rating of " + found.caseCode() + " by "
                            + found.rating().assessor() + " is signed",
                    null,
                    "amend it, with a reason, instead");
        }
        return found;
    }

    private void insertScores(long id, Rating rating) {
        for (ItemScore score : rating.scores()) {
            handle.execute(
                    "insert into item_score (rating_id, item, points, not_applicable, comment) values (?, ?, ?, ?, ?)",
                    id,
                    score.item(),
                    score.pointsOrNull(),
                    score instanceof ItemScore.Excused excused
                            ? excused.reason().id()
                            : null,
                    score.comment());
        }
    }

    private List<StoredRating> list(Query query) {
        Map<Long, List<ItemScore>> scores = new LinkedHashMap<>();
        List<StoredRating> bare = query.map((row, context) -> rating(row)).list();
        String only = bare.size() == 1 ? " where rating_id = " + bare.get(0).id() : "";
        if (!bare.isEmpty()) {
            handle.createQuery("select rating_id, item, points, not_applicable, comment from item_score" + only
                            + " order by rating_id, rowid")
                    .map((row, context) -> Map.entry(row.getLong("rating_id"), score(row)))
                    .forEach(entry -> scores.computeIfAbsent(entry.getKey(), id -> new ArrayList<>())
                            .add(entry.getValue()));
        }
        return bare.stream()
                .map(one -> withScores(one, scores.getOrDefault(one.id(), List.of())))
                .toList();
    }

    private static ItemScore score(ResultSet row) throws SQLException {
        String reason = row.getString("not_applicable");
        return reason == null
                ? new ItemScore.Marked(row.getString("item"), row.getInt("points"), row.getString("comment"))
                : new ItemScore.Excused(row.getString("item"), NotApplicable.parse(reason), row.getString("comment"));
    }

    private static StoredRating rating(ResultSet row) throws SQLException {
        String signedAt = row.getString("signed_at");
        Number amends = (Number) row.getObject("amends");
        return new StoredRating(
                row.getLong("id"),
                row.getString("code"),
                new Rating(
                        row.getString("rubric"),
                        row.getString("rubric_version"),
                        row.getString("assessor"),
                        row.getBoolean("self"),
                        row.getBoolean("blind"),
                        List.of(),
                        row.getString("comment")),
                row.getString("json"),
                RatingState.valueOf(row.getString("state").toUpperCase(Locale.ROOT)),
                Instant.parse(row.getString("changed_at")),
                signedAt == null ? null : Instant.parse(signedAt),
                amends == null ? null : (Long) amends.longValue(),
                row.getString("reason"));
    }

    private static StoredRating withScores(StoredRating bare, List<ItemScore> scores) {
        Rating r = bare.rating();
        return new StoredRating(
                bare.id(),
                bare.caseCode(),
                new Rating(r.rubric(), r.rubricVersion(), r.assessor(), r.self(), r.blind(), scores, r.comment()),
                bare.rubricJson(),
                bare.state(),
                bare.changedAt(),
                bare.signedAt(),
                bare.amends(),
                bare.reason());
    }
}
