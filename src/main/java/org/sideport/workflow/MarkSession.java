package org.sideport.workflow;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rating;
import org.sideport.model.RatingSeal;
import org.sideport.model.RatingState;
import org.sideport.model.Rubric;
import org.sideport.rubric.Score;
import org.sideport.rubric.Scorer;
import org.sideport.store.ConflictException;
import org.sideport.store.DatabaseAwayException;
import org.sideport.store.StoredRating;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;

/**
 * An assessor at work on one rating. Each change is in the store when its call returns. Thread-safe: calls wait for one
 * another.
 */
public final class MarkSession {

    private final Workspace workspace;
    private final String caseCode;
    private final Rubric rubric;
    private final String rubricJson;
    private Rating rating;
    private RatingState state;
    private final String consentWarning;
    private final String amendment;
    private @Nullable Long id;
    private final PendingMarks pending;
    /** What the draft may be in the store: as it was last saved, or as it was tried to save while the database was away. */
    private final Set<Rating> stored = new LinkedHashSet<>();

    private boolean kept;

    MarkSession(
            Workspace workspace,
            String caseCode,
            Vocabularies.RubricText current,
            @Nullable StoredRating stored,
            Rating rating,
            String consentWarning) {
        this.consentWarning = consentWarning;
        this.workspace = workspace;
        this.caseCode = caseCode;
        this.rubric = stored == null ? current.rubric() : StoredRubrics.of(stored);
        this.rubricJson = stored == null ? current.json() : stored.rubricJson();
        this.rating = rating;
        this.state = stored == null ? RatingState.DRAFT : stored.state();
        this.id = stored == null ? null : (Long) stored.id();
        this.amendment = stored == null || stored.reason() == null ? "" : stored.reason();
        this.pending = new PendingMarks(workspace.dir());
        this.stored.add(rating);
    }

    /**
     * Takes up marks that could not be saved before, and saves them; nothing if there are none.
     *
     * @throws InputException if the draft was changed elsewhere meanwhile; their file is put aside
     */
    synchronized void takeUp() {
        if (state == RatingState.DRAFT) {
            pending.find(caseCode, rating, rubric).ifPresent(left -> {
                stored.clear();
                stored.addAll(left.seen());
                stored.add(left.rating());
                kept = true;
                try {
                    save(left.rating());
                } catch (ConflictException changed) {
                    throw new InputException(
                            changed.what() + "; your marks from while the database was away are in a file",
                            pending.putAside(caseCode, rating).toString(),
                            "open the rating again: it shows what is stored; take from the file what is to be added",
                            changed);
                }
            });
        }
    }

    /** True while marks are in a file on this computer only, because the database is away. */
    public synchronized boolean isKept() {
        return kept;
    }

    /** Tries once more to save what is kept on this computer only; nothing if all is saved. */
    public synchronized void retry() {
        if (kept) {
            save(rating);
        }
    }

    /** What must be said about the consent to this case before it is marked; empty if nothing. */
    public String consentWarning() {
        return consentWarning;
    }

    /** Why signed marks are amended, or were by these; empty if these amend none. */
    public String amendment() {
        return amendment;
    }

    public String caseCode() {
        return caseCode;
    }

    public Rubric rubric() {
        return rubric;
    }

    public synchronized Rating rating() {
        return rating;
    }

    public synchronized RatingState state() {
        return state;
    }

    /** Of what was signed; empty while it is a draft. */
    public synchronized String digest() {
        Long signed = id;
        return signed == null || state == RatingState.DRAFT
                ? ""
                : workspace.read(stores -> {
                    MarkCase.requireMay(stores, caseCode, rating.assessor(), rating.self());
                    return stores.seals().find(signed).map(RatingSeal::digest).orElse("");
                });
    }

    public synchronized Score score() {
        return Scorer.score(rubric, rating);
    }

    /**
     * @throws InputException if the rubric does not allow these points, or the rating is signed
     */
    public synchronized void mark(String item, int points) {
        Rubric.Item marked = require(item);
        if (!rubric.pointsOf(marked).contains(points)) {
            throw new InputException(
                    marked.title() + " cannot have " + points + (points == 1 ? " point" : " points"),
                    null,
                    "possible are " + rubric.pointsOf(marked));
        }
        put(new ItemScore.Marked(item, points, null, commentOf(item), evidenceOf(item)));
    }

    /**
     * Marks an item by what was counted or measured; its bands give the points.
     *
     * @throws InputException if the item is marked directly or cannot have this value, or the rating is signed
     */
    public synchronized void markValue(String item, double value) {
        Rubric.Item marked = require(item);
        if (!marked.takes(value)) {
            throw new InputException(
                    marked.title() + " cannot be " + value,
                    null,
                    !marked.kind().isNumber()
                            ? "choose one of its levels"
                            : marked.kind() == Rubric.Kind.COUNT
                                    ? "write a whole number from 0 on"
                                    : "write a number from "
                                            + marked.bands().get(0).from() + " on");
        }
        put(new ItemScore.Marked(item, marked.band(value).points(), value, commentOf(item), evidenceOf(item)));
    }

    /**
     * Marks a measured item by the active time of its phase as an annotator tagged it.
     *
     * @throws InputException if the item takes no time from tags, or that time is not known or sure
     */
    public synchronized void markFromTags(String item, String annotator) {
        workspace.read(stores -> {
            MarkCase.requireMay(stores, caseCode, rating.assessor(), rating.self());
            return true;
        });
        Rubric.Item measured = require(item);
        markValue(item, PhaseTimeOfItem.seconds(workspace, caseCode, measured, annotator));
    }

    /**
     * Adds a moment of the recording that the item's mark rests on, or takes it away again.
     *
     * @throws InputException if the item has no mark yet that it could stand with
     */
    public synchronized void toggleEvidence(String item, MediaTime moment) {
        ItemScore score = requireScore(item);
        List<MediaTime> moments = new ArrayList<>(score.evidence());
        if (!moments.remove(moment)) {
            moments.add(moment);
            moments.sort(null);
        }
        put(score.withEvidence(moments));
    }

    /**
     * What was agreed to work on next; blank lines are left out.
     *
     * @throws InputException if there are more than {@value Rating#MOST_ACTIONS}, or the rating is signed
     */
    public synchronized void agree(List<String> actions) {
        List<String> kept =
                actions.stream().map(String::strip).filter(a -> !a.isEmpty()).toList();
        if (kept.size() > Rating.MOST_ACTIONS) {
            throw new InputException(
                    "more than " + Rating.MOST_ACTIONS + " things to work on at once",
                    null,
                    "keep those that matter most");
        }
        save(rating.withActions(kept));
    }

    /**
     * @throws InputException if the item does not allow this reason, or the rating is signed
     */
    public synchronized void excuse(String item, NotApplicable reason) {
        Rubric.Item excused = require(item);
        if (!excused.notApplicable().contains(reason)) {
            throw new InputException(
                    excused.title() + " cannot be left out as " + reason.id().replace('_', ' '),
                    null,
                    "mark it, or choose another reason");
        }
        put(new ItemScore.Excused(item, reason, commentOf(item), evidenceOf(item)));
    }

    /** Takes the item's mark away. */
    public synchronized void clear(String item) {
        require(item);
        save(rating.withScores(without(item)));
    }

    /**
     * @throws InputException if the item has no mark yet that the comment could stand with
     */
    public synchronized void comment(String item, String text) {
        put(requireScore(item).withComment(text));
    }

    private ItemScore requireScore(String item) {
        require(item);
        return rating.score(item)
                .orElseThrow(() -> new InputException("the item has no mark yet", null, "mark it first"));
    }

    public synchronized void overallComment(String text) {
        save(rating.withComment(text));
    }

    /**
     * @throws InputException if an item is missing, or it is signed already
     */
    public synchronized void sign() {
        requireDraft();
        Long draft = id;
        if (draft == null) {
            throw new InputException("nothing is marked yet", null, "mark the items first");
        }
        retry();
        // what was looked at is what is signed
        workspace.change(stores -> {
            MarkCase.requireMay(stores, caseCode, rating.assessor(), rating.self());
            MarkCase.signDraft(stores, stores.ratings().requireUnchanged(draft, Set.of(rating)));
        });
        state = RatingState.SIGNED;
    }

    private String commentOf(String item) {
        return rating.score(item).map(ItemScore::comment).orElse("");
    }

    private List<MediaTime> evidenceOf(String item) {
        return rating.score(item).map(ItemScore::evidence).orElse(List.of());
    }

    private List<ItemScore> without(String item) {
        return rating.scores().stream().filter(s -> !s.item().equals(item)).toList();
    }

    private void put(ItemScore score) {
        List<ItemScore> scores = new ArrayList<>(without(score.item()));
        scores.add(score);
        save(rating.withScores(scores));
    }

    private Rubric.Item require(String item) {
        requireDraft();
        return rubric.item(item)
                .orElseThrow(() ->
                        new InputException("unknown item \"" + item + "\"", null, "choose one of " + rubric.id()));
    }

    private void requireDraft() {
        if (state != RatingState.DRAFT) {
            throw new InputException("this rating is signed", null, "amend it, with a reason, instead");
        }
    }

    /** Another window may have begun or signed the same rating since this session was opened. */
    private void requireFirst(List<StoredRating> ofCase, Rating begun) {
        if (ofCase.stream().anyMatch(r -> r.isSameWork(begun))) {
            throw new InputException(
                    begun.assessor() + " has begun a rating of " + caseCode + " elsewhere", null, "open it again");
        }
    }

    private void save(Rating changed) {
        requireDraft();
        try {
            id = workspace.write(stores -> {
                MarkCase.requireMay(stores, caseCode, changed.assessor(), changed.self());
                Long known = id == null && kept ? reached(stores) : id;
                if (known == null) {
                    requireFirst(stores.ratings().ofCase(caseCode), changed);
                    // a draft that is there refers to it already
                    stores.ratings().keepRubric(rubric.id(), rubric.version(), rubricJson);
                    return stores.ratings().addDraft(caseCode, changed, null, null);
                }
                stores.ratings().saveDraft(known, changed, stored);
                return known;
            });
        } catch (DatabaseAwayException away) {
            boolean again = kept && changed.equals(rating);
            stored.add(changed);
            rating = changed;
            // what is kept already is not written again: a later session may have kept newer marks there meanwhile
            Path file = again ? pending.file(caseCode, changed) : pending.keep(caseCode, changed, stored);
            if (!kept) {
                kept = true;
                PendingFolder.retryLater(this::retry);
            }
            throw away.keptIn(file.toString());
        }
        rating = changed;
        stored.clear();
        stored.add(changed);
        if (kept) {
            kept = false;
            if (pending.find(caseCode, changed, rubric)
                    .filter(left -> left.rating().equals(changed))
                    .isPresent()) {
                pending.forget(caseCode, changed);
            }
        }
    }

    /** The draft, if a first save reached the database although nobody could say so. */
    private @Nullable Long reached(Stores stores) {
        return stores.ratings().ofCase(caseCode).stream()
                .filter(r -> r.isSameWork(rating) && r.state() == RatingState.DRAFT && stored.contains(r.rating()))
                .map(StoredRating::id)
                .findFirst()
                .orElse(null);
    }
}
