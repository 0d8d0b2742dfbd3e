package org.sideport.workflow;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rating;
import org.sideport.model.RatingState;
import org.sideport.model.Rubric;
import org.sideport.rubric.Score;
import org.sideport.rubric.Scorer;
import org.sideport.store.StoredRating;
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
    private @Nullable Long id;

    MarkSession(
            Workspace workspace,
            String caseCode,
            Vocabularies.RubricText current,
            @Nullable StoredRating stored,
            Rating rating) {
        this.workspace = workspace;
        this.caseCode = caseCode;
        this.rubric = stored == null ? current.rubric() : StoredRubrics.of(stored);
        this.rubricJson = stored == null ? current.json() : stored.rubricJson();
        this.rating = rating;
        this.state = stored == null ? RatingState.DRAFT : stored.state();
        this.id = stored == null ? null : (Long) stored.id();
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
        put(new ItemScore.Marked(item, points, commentOf(item)));
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
        put(new ItemScore.Excused(item, reason, commentOf(item)));
    }

    /** Takes the item's mark away. */
    public synchronized void clear(String item) {
        require(item);
        save(withScores(without(item)));
    }

    /**
     * @throws InputException if the item has no mark yet that the comment could stand with
     */
    public synchronized void comment(String item, String text) {
        require(item);
        ItemScore score = rating.score(item)
                .orElseThrow(() -> new InputException("the item has no mark yet", null, "mark it, then comment"));
        put(
                score instanceof ItemScore.Marked marked
                        ? new ItemScore.Marked(item, marked.points(), text)
                        : new ItemScore.Excused(item, ((ItemScore.Excused) score).reason(), text));
    }

    public synchronized void overallComment(String text) {
        save(new Rating(
                rating.rubric(),
                rating.rubricVersion(),
                rating.assessor(),
                rating.self(),
                rating.blind(),
                rating.scores(),
                text));
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
        workspace.change(stores ->
                MarkCase.signDraft(stores, stores.ratings().find(draft).orElseThrow()));
        state = RatingState.SIGNED;
    }

    private String commentOf(String item) {
        return rating.score(item).map(ItemScore::comment).orElse("");
    }

    private List<ItemScore> without(String item) {
        return rating.scores().stream().filter(s -> !s.item().equals(item)).toList();
    }

    private void put(ItemScore score) {
        List<ItemScore> scores = new ArrayList<>(without(score.item()));
        scores.add(score);
        save(withScores(scores));
    }

    private Rating withScores(List<ItemScore> scores) {
        return new Rating(
                rating.rubric(),
                rating.rubricVersion(),
                rating.assessor(),
                rating.self(),
                rating.blind(),
                scores,
                rating.comment());
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
        Long known = id;
        long stored = workspace.write(stores -> {
            stores.ratings().keepRubric(rubric.id(), rubric.version(), rubricJson);
            if (known == null) {
                requireFirst(stores.ratings().ofCase(caseCode), changed);
                return stores.ratings().addDraft(caseCode, changed, null, null);
            }
            stores.ratings().saveDraft(known, changed);
            return known;
        });
        id = stored;
        rating = changed;
    }
}
