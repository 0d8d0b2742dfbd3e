package org.sideport.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.Query;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.Rating;
import org.sideport.model.RatingState;

/** Ratings. Drafts change; signed ones do not: the database itself refuses. */
public final class RatingStore {

    private static final String SELECT =
            "select r.*, c.code, d.json from rating r join surgical_case c on c.id = r.case_id"
                    + " join rubric_document d on d.rubric = r.rubric and d.version = r.rubric_version ";

    /** So many ratings' marks are asked for by their ids; of more, all are read. */
    private static final int MOST_BY_ID = 500;

    private final Handle handle;
    private final MarkRows marks;

    RatingStore(Handle handle) {
        this.handle = handle;
        this.marks = new MarkRows(handle);
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
                        "insert into rating (case_id, rubric, rubric_version, assessor, self, blind, comment, state,"
                                + " changed_at, amends, reason) values (:caseId, :rubric, :version, :assessor, :self,"
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
        marks.insert(id, rating);
        return id;
    }

    /**
     * Puts new marks in the place of a draft's.
     *
     * @throws InputException if the rating is no draft
     */
    public void saveDraft(long id, Rating rating) {
        saveDraft(id, rating, Set.of());
    }

    /**
     * As {@link #saveDraft(long, Rating)}.
     *
     * @param seen what the caller knows to be stored, in one of these forms; empty to replace whatever is there
     * @throws ConflictException if something else is stored by now; nothing is changed then
     */
    public void saveDraft(long id, Rating rating, Set<Rating> seen) {
        StoredRating found = requireUnchanged(id, seen);
        handle.createUpdate("update rating set blind = :blind, comment = :comment, changed_at = :now where id = :id")
                .bind("blind", rating.blind())
                .bind("comment", rating.comment())
                .bind("now", Instant.now().toString())
                .bind("id", id)
                .execute();
        marks.replace(id, found.rating(), rating);
    }

    /**
     * Signs a draft; what it amends is superseded in the same transaction.
     *
     * @throws InputException if the rating is no draft
     */
    public void sign(long id, Instant when) {
        StoredRating draft = requireUnchanged(id, Set.of());
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

    /**
     * Holds a draft until the end of the transaction, so that nobody else changes it.
     *
     * @param seen one of which it must hold; empty for whatever it holds
     * @throws InputException if the rating is no draft
     * @throws ConflictException if it holds something else by now
     */
    public StoredRating requireUnchanged(long id, Set<Rating> seen) {
        // any change locks the row in either database; "for update" only one of them knows
        handle.execute("update rating set changed_at = changed_at where id = ? and state = 'draft'", id);
        StoredRating found = requireDraft(id);
        if (!seen.isEmpty() && !seen.contains(found.rating())) {
            throw new ConflictException(
                    "the marks of " + found.caseCode() + " by " + found.rating().assessor()
                            + " were changed in another window meanwhile",
                    "open the rating again: it shows the other window's marks; then repeat yours");
        }
        return found;
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

    private List<StoredRating> list(Query query) {
        List<StoredRating> bare = query.map((row, context) -> rating(row)).list();
        if (bare.isEmpty()) {
            return bare;
        }
        List<Long> only = bare.size() > MOST_BY_ID
                ? null
                : bare.stream().map(StoredRating::id).toList();
        Map<Long, List<ItemScore>> scores = marks.scores(only);
        Map<Long, List<String>> actions = marks.actions(only);
        return bare.stream()
                .map(one ->
                        with(one, scores.getOrDefault(one.id(), List.of()), actions.getOrDefault(one.id(), List.of())))
                .toList();
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

    private static StoredRating with(StoredRating bare, List<ItemScore> scores, List<String> actions) {
        return new StoredRating(
                bare.id(),
                bare.caseCode(),
                bare.rating().withScores(scores).withActions(actions),
                bare.rubricJson(),
                bare.state(),
                bare.changedAt(),
                bare.signedAt(),
                bare.amends(),
                bare.reason());
    }
}
