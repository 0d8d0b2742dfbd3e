package org.sideport.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.Query;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Assignment;
import org.sideport.model.Caller;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.Rating;
import org.sideport.model.RatingSeal;
import org.sideport.model.RatingState;
import org.sideport.model.Role;

/** Ratings. Drafts change; signed ones do not: the database itself refuses. */
public final class RatingStore {

    private static final String SELECT =
            "select r.*, c.code, d.json from rating r join surgical_case c on c.id = r.case_id and c.consent <>"
                    + " 'withdrawn' join rubric_document d on d.rubric = r.rubric and d.version = r.rubric_version ";

    /** One by its id: where the cases are a view, joining them would go through all that the caller reaches. */
    private static final String SELECT_ONE = "select r.*, (select c.code from surgical_case c where c.id = r.case_id"
            + " and c.consent <> 'withdrawn') code, (select d.json from rubric_document d where d.rubric = r.rubric"
            + " and d.version = r.rubric_version) json from rating r where r.id = :id";

    /** As {@link #SELECT_ONE}, without the rubric's long text, which a stroke has no use for. */
    private static final String SELECT_BARE = "select r.*, (select c.code from surgical_case c where c.id = r.case_id"
            + " and c.consent <> 'withdrawn') code, '' json from rating r where r.id = :id";

    /** So many ratings' marks are asked for by their ids; of more, all are read. */
    private static final int MOST_BY_ID = 500;

    private final Handle handle;
    private final Veil veil;
    private final MarkRows marks;
    private final SealStore seals;
    private final AuditStore audit;

    RatingStore(Handle handle, Veil veil, AuditStore audit) {
        this.handle = handle;
        this.veil = veil;
        this.marks = new MarkRows(handle);
        this.seals = new SealStore(handle, veil);
        this.audit = audit;
    }

    /**
     * Keeps the rubric's text, once for each version.
     *
     * @throws InputException if another text was used before under the same id and version
     */
    public void keepRubric(String rubric, String version, String json) {
        Optional<String> known = rubricText(rubric, version);
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

    /** The very text of a rubric version that was used before, in marking or judging. */
    public Optional<String> rubricText(String rubric, String version) {
        return handle.createQuery("select json from rubric_document where rubric = :rubric and version = :version")
                .bind("rubric", rubric)
                .bind("version", version)
                .mapTo(String.class)
                .findOne();
    }

    /** @return the new draft's id */
    public long addDraft(String caseCode, Rating rating, @Nullable Long amends, @Nullable String reason) {
        veil.requireAssessor(caseCode, rating.assessor());
        long id = handle.createUpdate(
                        "insert into rating (case_id, rubric, rubric_version, assessor, self, blind, comment, state,"
                                + " changed_at, amends, reason) values (:caseId, :rubric, :version, :assessor, :self,"
                                + " :blind, :comment, 'draft', :now, :amends, :reason)")
                .bind("caseId", veil.caseId(caseCode))
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
        audit.add("rating.begin", caseCode, "", whose(rating));
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
        StoredRating found =
                find(id, SELECT_BARE + Dialect.of(handle).lockedR()).orElse(null);
        if (found == null || found.state() != RatingState.DRAFT || !(seen.isEmpty() || seen.contains(found.rating()))) {
            // refuses it, and says why
            found = requireUnchanged(id, seen);
        }
        handle.createUpdate("update rating set blind = :blind, comment = :comment, changed_at = :now where id = :id")
                .bind("blind", rating.blind())
                .bind("comment", rating.comment())
                .bind("now", Instant.now().toString())
                .bind("id", id)
                .execute();
        marks.replace(id, found.rating(), rating);
    }

    /**
     * Takes a draft away.
     *
     * @throws InputException if the rating is no draft
     */
    public void deleteDraft(long id) {
        requireDraft(id, SELECT_ONE);
        handle.execute("delete from rating where id = ?", id);
    }

    /**
     * Signs a draft: seals it, supersedes what it amends, and closes the assignment that asked for it, in the same
     * transaction, whichever way the signature came.
     *
     * @throws InputException if the rating is no draft
     */
    public void sign(long id, Instant when) {
        StoredRating draft = requireUnchanged(id, Set.of());
        RatingSeal seal = seals.seal(draft, when, false);
        Long amends = draft.amends();
        if (amends != null) {
            handle.execute("update rating set state = 'superseded' where id = ?", amends);
        }
        handle.execute("update rating set state = 'signed', signed_at = ? where id = ?", when.toString(), id);
        if (!draft.rating().self()) {
            AssignmentRows.done(handle, id, when);
        }
        audit.add(
                amends == null ? "rating.sign" : "rating.amend",
                draft.caseCode(),
                seal.amendsDigest(),
                seal.digest() + " " + whose(draft.rating()));
    }

    /** Seals what a program without seals signed. What had a seal once, by the audit trail, gets no other. @return how many */
    int sealOld() {
        List<Long> ids = seals.unsealed();
        for (long id : ids) {
            StoredRating signed = find(id).orElseThrow();
            String whose = " " + whose(signed.rating());
            if (audit.of(signed.caseCode()).stream()
                    .anyMatch(e -> AuditStore.isSignature(e) && e.after().endsWith(whose))) {
                continue;
            }
            RatingSeal seal = seals.seal(signed, signed.signedAt(), true);
            audit.add("rating.seal", signed.caseCode(), "", seal.digest() + " " + whose(signed.rating()));
        }
        return ids.size();
    }

    private static String whose(Rating rating) {
        return rating.assessor() + (rating.self() ? " (self) " : " ") + rating.rubric() + " " + rating.rubricVersion();
    }

    public Optional<StoredRating> find(long id) {
        return find(id, SELECT_ONE).map(this::named);
    }

    private Optional<StoredRating> find(long id, String query) {
        return list(handle.createQuery(query).bind("id", id)).stream().findFirst();
    }

    /** Under the label, where the caller may not know the case's own code. */
    private StoredRating named(StoredRating one) {
        if (!(veil.caller() instanceof Caller.Person)) {
            return one;
        }
        Assignment hiding = AssignmentRows.hidingRated(handle, veil.caller().code(), one.id());
        return hiding == null ? one : one.of(hiding.label());
    }

    /** The rating of this state that an assessor has for a case and a rubric. */
    public Optional<StoredRating> find(
            String caseCode, String rubric, String assessor, boolean self, RatingState state) {
        Optional<Long> caseId = veil.find(caseCode);
        if (caseId.isEmpty()) {
            return Optional.empty();
        }
        veil.requireAssessor(caseCode, assessor);
        return list(handle.createQuery(SELECT + "where c.id = :id and r.rubric = :rubric and r.assessor = :assessor"
                                + " and r.self = :self and r.state = :state")
                        .bind("id", caseId.get())
                        .bind("rubric", rubric)
                        .bind("assessor", assessor)
                        .bind("self", self)
                        .bind("state", state.id()))
                .stream()
                .findFirst()
                .map(found -> called(found, caseCode));
    }

    /** Under the label that it was asked for by. */
    private StoredRating called(StoredRating found, String asked) {
        return veil.through(asked).map(a -> found.of(a.label())).orElse(found);
    }

    /** As {@link #ofCase(String, MarkReach)}, whoever made them. */
    public List<StoredRating> ofCase(String caseCode) {
        return ofCase(caseCode, MarkReach.ALL);
    }

    /**
     * The ratings of a case that are reached and that the caller may see now, superseded ones too, oldest first; see
     * {@link MarkSight}.
     */
    public List<StoredRating> ofCase(String caseCode, MarkReach reach) {
        Optional<Long> caseId = veil.find(caseCode);
        if (caseId.isEmpty()) {
            return List.of();
        }
        List<StoredRating> all = list(
                reach.bind(handle.createQuery(SELECT + "where c.id = :id and " + reach.condition() + " order by r.id")
                        .bind("id", caseId.get())));
        Assignment through = veil.through(caseCode).orElse(null);
        return new MarkSight(handle, veil)
                .of(all, through, caseId.get()).stream()
                        .map(r -> through == null ? r : r.of(through.label()))
                        .toList();
    }

    /** As {@link #all(MarkReach)}, whoever made them. */
    public List<StoredRating> all() {
        return all(MarkReach.ALL);
    }

    /**
     * All ratings that are reached and that the caller may see now by case date, code and id; of cases that he marks blind
     * last, by label.
     */
    public List<StoredRating> all(MarkReach reach) {
        List<StoredRating> all = list(reach.bind(
                handle.createQuery(SELECT + "where " + reach.condition() + " order by c.operated_on, c.code, r.id")));
        return new MarkSight(handle, veil).of(all);
    }

    /**
     * The assessors' signed marks in force with a rubric in any version, that the caller may see now, by case date, code and
     * id: for views of a whole unit, so without rubrics' texts, comments and evidence.
     */
    public List<SignedRating> signed(String rubric) {
        boolean seesAll = !(veil.caller() instanceof Caller.Person person)
                || person.roles().contains(Role.DIRECTOR);
        if (seesAll) {
            return new SignedRows(handle, veil).of(rubric);
        }
        return bare(all(), rubric);
    }

    /** As {@link #signed(String)}, of the cases of one trainee. */
    public List<SignedRating> signed(String rubric, String trainee) {
        List<StoredRating> own =
                list(handle.createQuery(SELECT + "where c.trainee = :trainee order by c.operated_on, c.code, r.id")
                        .bind("trainee", trainee));
        return bare(new MarkSight(handle, veil).of(own), rubric);
    }

    /** Ids of all ratings of a trainee's cases that are reached, in no order. */
    public Set<Long> reached(String trainee, MarkReach reach) {
        return reach.bind(handle.createQuery("select r.id from rating r join surgical_case c on c.id = r.case_id"
                        + " where c.trainee = :trainee and " + reach.condition()))
                .bind("trainee", trainee)
                .mapTo(Long.class)
                .collect(Collectors.toSet());
    }

    private static List<SignedRating> bare(List<StoredRating> all, String rubric) {
        return all.stream()
                .filter(r -> r.state() == RatingState.SIGNED
                        && !r.rating().self()
                        && r.rating().rubric().equals(rubric))
                .map(r -> new SignedRating(r.id(), r.caseCode(), r.rating(), r.signedAt()))
                .toList();
    }

    /**
     * Holds a draft until the end of the transaction, so that nobody else changes it.
     *
     * @param seen one of which it must hold; empty for whatever it holds
     * @throws InputException if the rating is no draft
     * @throws ConflictException if it holds something else by now
     */
    public StoredRating requireUnchanged(long id, Set<Rating> seen) {
        StoredRating found = requireDraft(id, SELECT_ONE + Dialect.of(handle).lockedR());
        if (!seen.isEmpty() && !seen.contains(found.rating())) {
            throw new ConflictException(
                    "the marks by " + found.rating().assessor() + " were changed in another window meanwhile",
                    "open the rating again: it shows the other window's marks; then repeat yours");
        }
        return found;
    }

    private StoredRating requireDraft(long id, String query) {
        StoredRating found = find(id, query)
                .map(this::named)
                .orElseThrow(() ->
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
        // one without a code is of a case that the caller does not reach
        List<StoredRating> bare = query
                .map((row, context) -> Optional.ofNullable(row.getString("code") == null ? null : rating(row)))
                .list()
                .stream()
                .flatMap(Optional::stream)
                .toList();
        if (bare.isEmpty()) {
            return bare;
        }
        // one case's ratings are few; where all are wanted, all rows are read at once
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
