package org.sideport.workflow;

import java.time.Instant;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.Hidden;
import org.sideport.model.InputException;
import org.sideport.model.Rating;
import org.sideport.model.RatingState;
import org.sideport.model.Rubric;
import org.sideport.model.SurgicalCase;
import org.sideport.rubric.Score;
import org.sideport.rubric.Scorer;
import org.sideport.store.StoredRating;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.consent.ConsentGate;

/** Marks a case against a rubric: draft, sign, amend. */
public final class MarkCase {

    private final Workspace workspace;

    public MarkCase(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * Opens the assessor's rating of a case: the draft if there is one, else the signed one (which can only be read), else
     * an empty draft, which is stored with its first mark.
     *
     * @throws InputException if there is no such case, or it is of another procedure than the rubric
     */
    public MarkSession open(String caseCode, String assessor, boolean self, Rubric rubric) {
        String who = Codes.require("an assessor", assessor);
        Vocabularies.RubricText text = new Vocabularies(workspace).rubric(rubric.id());
        boolean blind = workspace.read(stores -> isBlind(stores, caseCode));
        String[] warning = new String[] {""};
        Optional<StoredRating> stored = workspace.read(stores -> {
            requireMay(stores, caseCode, who, self);
            SurgicalCase marked = stores.cases().get(caseCode);
            requireFit(marked, who, self, text.rubric());
            warning[0] = requireConsent(stores, marked);
            return find(stores, caseCode, rubric.id(), who, self, RatingState.DRAFT)
                    .or(() -> find(stores, caseCode, rubric.id(), who, self, RatingState.SIGNED));
        });
        MarkSession session = new MarkSession(
                workspace,
                caseCode,
                text,
                stored.orElse(null),
                stored.map(StoredRating::rating).orElseGet(() -> empty(text.rubric(), who, self, blind)),
                warning[0]);
        session.takeUp();
        return session;
    }

    private static Rating empty(Rubric rubric, String assessor, boolean self, boolean blind) {
        return new Rating(rubric.id(), rubric.version(), assessor, self, blind, List.of(), "");
    }

    /** True if the case is marked under a label that hides its trainee. */
    private static boolean isBlind(Stores stores, String caseCode) {
        return stores.assignments()
                .through(caseCode)
                .filter(a -> a.hides(Hidden.TRAINEE))
                .isPresent();
    }

    private static Optional<StoredRating> find(
            Stores stores, String caseCode, String rubric, String who, boolean self, RatingState state) {
        return stores.ratings().find(caseCode, rubric, who, self, state);
    }

    /**
     * A rating as stored, with what it amounts to.
     *
     * @param warning what must be said about the consent; empty if nothing
     */
    public record Rated(long id, RatingState state, Score score, String warning) {}

    static String requireConsent(Stores stores, SurgicalCase marked) {
        return Objects.requireNonNullElse(ConsentGate.require(stores, marked, ConsentPurpose.ASSESSMENT), "");
    }

    /**
     * Stores a whole rating as a draft, in the place of the draft that the assessor may have.
     *
     * @throws InputException if the assessor has signed one already, the rating is of an older rubric version, or there is
     *     no such case
     */
    public Rated rate(String caseCode, Rating given) {
        Rating coded = byCode(given);
        Vocabularies.RubricText text = new Vocabularies(workspace).rubric(coded.rubric());
        return workspace.write(stores -> {
            Rating rating = isBlind(stores, caseCode) ? coded.withBlind(true) : coded;
            requireMay(stores, caseCode, rating.assessor(), rating.self());
            SurgicalCase marked = stores.cases().get(caseCode);
            requireFit(marked, rating.assessor(), rating.self(), text.rubric());
            String warning = requireConsent(stores, marked);
            Optional<StoredRating> signed =
                    find(stores, caseCode, rating.rubric(), rating.assessor(), rating.self(), RatingState.SIGNED);
            Optional<StoredRating> draft =
                    find(stores, caseCode, rating.rubric(), rating.assessor(), rating.self(), RatingState.DRAFT);
            if (signed.isPresent() && draft.isEmpty()) {
                throw new InputException(
                        rating.assessor() + " has signed a rating of " + caseCode,
                        null,
                        "amend it, with a reason: sideport rate amend");
            }
            Score score = Scorer.score(text.rubric(), rating);
            stores.ratings().keepRubric(rating.rubric(), rating.rubricVersion(), text.json());
            long id;
            if (draft.isPresent()) {
                id = draft.get().id();
                stores.ratings().saveDraft(id, rating);
            } else {
                id = stores.ratings().addDraft(caseCode, rating, null, null);
            }
            return new Rated(id, RatingState.DRAFT, score, warning);
        });
    }

    /**
     * Signs the assessor's draft.
     *
     * @throws InputException if there is none, or an item is missing
     */
    public Rated sign(String caseCode, String rubricId, String assessorCode, boolean self) {
        String assessor = Codes.require("an assessor", assessorCode);
        return workspace.write(stores -> {
            requireMay(stores, caseCode, assessor, self);
            StoredRating draft = find(stores, caseCode, rubricId, assessor, self, RatingState.DRAFT)
                    .orElseThrow(() -> new InputException(
                            "there is no draft by " + assessor + " for " + caseCode, null, "mark the case first"));
            return signDraft(stores, draft);
        });
    }

    static Rated signDraft(Stores stores, StoredRating draft) {
        Rubric rubric = StoredRubrics.of(draft);
        Score score = Scorer.score(rubric, draft.rating());
        if (!score.complete()) {
            throw new InputException(
                    "the rating is not complete: " + String.join(", ", score.missing()),
                    null,
                    "mark each of these items, or say why it does not apply");
        }
        Long amends = draft.amends();
        if (amends != null
                && stores.ratings()
                        .find(amends)
                        .filter(signed -> signed.rating().equals(draft.rating()))
                        .isPresent()) {
            throw new InputException("the marks are the same as the signed ones", null, "amend only what is to change");
        }
        String warning = requireConsent(stores, stores.cases().get(draft.caseCode()));
        stores.ratings().sign(draft.id(), Instant.now());
        return new Rated(draft.id(), RatingState.SIGNED, score, warning);
    }

    /**
     * Puts a corrected rating beside a signed one and signs it; the old one stays, superseded.
     *
     * @throws InputException if nothing is signed, no reason is given, or an item is missing
     */
    public Rated amend(String caseCode, Rating given, String reason) {
        AmendMark.requireReason(reason);
        Rating coded = byCode(given);
        Vocabularies.RubricText text = new Vocabularies(workspace).rubric(coded.rubric());
        return workspace.write(stores -> {
            Rating corrected = isBlind(stores, caseCode) ? coded.withBlind(true) : coded;
            requireMay(stores, caseCode, corrected.assessor(), corrected.self());
            StoredRating signed = find(
                            stores,
                            caseCode,
                            corrected.rubric(),
                            corrected.assessor(),
                            corrected.self(),
                            RatingState.SIGNED)
                    .orElseThrow(() -> new InputException(
                            corrected.assessor() + " has signed no rating of " + caseCode,
                            null,
                            "mark and sign the case first"));
            // refuses a rating of another version before its text is compared
            Scorer.score(text.rubric(), corrected);
            AmendMark.requireNoDraft(stores, caseCode, signed);
            stores.ratings().keepRubric(corrected.rubric(), corrected.rubricVersion(), text.json());
            long id = stores.ratings().addDraft(caseCode, corrected, signed.id(), reason.strip());
            return signDraft(stores, stores.ratings().find(id).orElseThrow());
        });
    }

    private static Rating byCode(Rating given) {
        return new Rating(
                given.rubric(),
                given.rubricVersion(),
                Codes.require("an assessor", given.assessor()),
                given.self(),
                given.blind(),
                given.scores(),
                given.comment(),
                given.actions());
    }

    /** True if the caller may mark this case so. */
    public boolean isOffered(String caseCode, boolean self) {
        return workspace.read(stores -> Access.may(stores, self ? Permission.MARK_ONESELF : Permission.MARK, caseCode));
    }

    /** For what marks many cases: that the caller may mark at all. */
    static void requireMarker(Workspace workspace) {
        if (!Access.may(workspace.caller(), Permission.MARK_ONESELF)) {
            Access.require(workspace, Permission.MARK);
        }
    }

    /**
     * @throws InputException if the caller may not mark this case so, or not under this code
     */
    static void requireMay(Stores stores, String caseCode, String assessor, boolean self) {
        Access.requireOwn(stores.caller(), assessor);
        Access.require(stores, self ? Permission.MARK_ONESELF : Permission.MARK, caseCode);
    }

    /**
     * @throws InputException if the rubric is for another procedure, or this person cannot rate this case so
     */
    public static void requireFit(SurgicalCase rated, String assessor, boolean self, Rubric rubric) {
        if (!rated.procedure().equals(rubric.procedure())) {
            throw new InputException(
                    "rubric " + rubric.id() + " is for " + rubric.procedure() + ", case " + rated.code() + " is "
                            + rated.procedure(),
                    null,
                    "choose a rubric of the same procedure");
        }
        if (self && rated.hides(Hidden.TRAINEE)) {
            throw new InputException(
                    rated.code() + " is marked blind: it cannot be a self-rating", null, "leave out self");
        }
        if (self && !rated.trainee().equals(assessor)) {
            throw new InputException(
                    "a self-rating of " + rated.code() + " can only be by its trainee " + rated.trainee(),
                    null,
                    "leave out self, or name the trainee as assessor");
        }
        if (!self && rated.trainee().equals(assessor)) {
            throw new InputException(
                    assessor + " is the trainee of " + rated.code(), null, "mark this as a self-rating");
        }
    }
}
