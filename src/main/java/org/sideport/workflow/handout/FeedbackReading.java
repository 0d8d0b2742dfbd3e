package org.sideport.workflow.handout;

import java.time.ZoneId;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Caller;
import org.sideport.model.CommentThread;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.Cut;
import org.sideport.model.InputException;
import org.sideport.model.RatingState;
import org.sideport.model.Rubric;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.report.page.Feedback.Signed;
import org.sideport.rubric.Scorer;
import org.sideport.store.CohortStore;
import org.sideport.store.StoredRating;
import org.sideport.store.Stores;
import org.sideport.workflow.StoredRubrics;
import org.sideport.workflow.WhichTagging;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.consent.ConsentGate;

/**
 * What of a case the caller may hand out.
 *
 * @param annotator whose tags count: those that the first marks rest on; {@code null} if nobody has tagged it
 * @param warning what must be said with this use; {@code null} if nothing speaks against it
 */
record FeedbackReading(
        SurgicalCase of,
        List<Signed> marks,
        List<CommentThread> comments,
        @Nullable String annotator,
        @Nullable Tagging tagging,
        List<Cut> cuts,
        @Nullable String warning,
        boolean selfMissing) {

    /**
     * @throws InputException if the caller may not, part of the case is hidden, the trainee has not marked the own case
     *     where that comes first, or nothing is signed
     */
    static FeedbackReading of(Stores stores, String caseCode) {
        Access.require(stores, Permission.SEE_MARKS, caseCode);
        Access.require(stores, Permission.EXPORT_CASE, caseCode);
        SurgicalCase one = stores.cases().get(caseCode);
        refuseWhatIsHidden(stores, one);
        String warning = ConsentGate.require(stores, one, ConsentPurpose.ASSESSMENT);
        List<StoredRating> seen = stores.ratings().ofCase(one.code());
        boolean self = seen.stream()
                .anyMatch(r -> r.rating().self()
                        && r.rating().assessor().equals(one.trainee())
                        && r.state() != RatingState.DRAFT);
        boolean selfFirst = stores.rules().rules().selfFirst();
        if (selfFirst
                && !self
                && stores.caller() instanceof Caller.Person person
                && person.code().equals(one.trainee())) {
            throw new InputException(
                    "you have not marked case " + one.code() + " yourself yet",
                    null,
                    "mark and sign it first (Marking, or sideport rate --self); then you see what others say");
        }
        List<StoredRating> signed = signed(stores, one, seen);
        if (signed.stream().allMatch(r -> r.rating().self())) {
            throw new InputException(
                    "there are no signed marks of case " + one.code() + " that you may see",
                    null,
                    "sign the marks first (Marking, or sideport rate sign)");
        }
        String annotator = annotator(stores, one, signed);
        return new FeedbackReading(
                one,
                signed.stream().map(r -> signed(stores, r)).toList(),
                stores.comments().threads(one.code(), ""),
                annotator,
                annotator == null
                        ? null
                        : stores.taggings().find(one.code(), annotator).orElse(null),
                stores.cuts().of(one.code()),
                warning,
                selfFirst && !self);
    }

    private static void refuseWhatIsHidden(Stores stores, SurgicalCase one) {
        boolean blinded = stores.caller() instanceof Caller.Person person
                && stores.assignments().isBlinded(one.code(), person.code());
        if (blinded || !one.hidden().isEmpty()) {
            throw new InputException(
                    "part of case " + one.code() + " is hidden from you until you have marked it",
                    null,
                    "sign your marks first, or ask a programme director for the feedback");
        }
    }

    /** Assessors' marks in the order of signing, then the trainee's own; practice does not count. */
    static List<StoredRating> signed(Stores stores, SurgicalCase one, List<StoredRating> seen) {
        CohortStore.Practice practice = stores.cohort().practice();
        return seen.stream()
                .filter(r -> r.state() == RatingState.SIGNED
                        && !practice.isMark(one.code(), r.rating().assessor()))
                .sorted(Comparator.<StoredRating, Boolean>comparing(
                                r -> r.rating().self())
                        .thenComparing(r -> String.valueOf(r.signedAt()))
                        .thenComparing(StoredRating::id))
                .toList();
    }

    static Signed signed(Stores stores, StoredRating stored) {
        Rubric rubric = StoredRubrics.of(stored);
        String reason = stored.reason();
        return new Signed(
                stored.caseCode(),
                rubric,
                stored.rating(),
                Scorer.score(rubric, stored.rating()),
                stored.signedAt() == null
                        ? null
                        : stored.signedAt().atZone(ZoneId.systemDefault()).toOffsetDateTime(),
                stores.seals().find(stored.id()).orElse(null),
                reason == null ? "" : reason);
    }

    private static @Nullable String annotator(Stores stores, SurgicalCase one, List<StoredRating> signed) {
        List<String> all = WhichTagging.all(stores, one.code());
        if (all.isEmpty()) {
            return null;
        }
        String preferred = signed.stream()
                .flatMap(r -> stores.seals().find(r.id()).stream())
                .map(seal -> seal.taggingOf())
                .filter(who -> !who.isEmpty())
                .findFirst()
                .orElse(signed.get(0).rating().assessor());
        return WhichTagging.of(stores, one.code(), null, preferred);
    }
}
