package org.sideport.workflow.handout;

import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.sideport.model.AgreedMark;
import org.sideport.model.Caller;
import org.sideport.model.CommentThread;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.Cut;
import org.sideport.model.InputException;
import org.sideport.model.RatingState;
import org.sideport.model.Rubric;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.report.page.Feedback;
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
        List<StoredRating> seen = stores.ratings().ofCase(one.code(), Access.marks(stores.caller()));
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
                Stream.concat(agreed(stores, signed).stream(), signed.stream().map(r -> signed(stores, r)))
                        .toList(),
                stores.comments().threads(one.code(), ""),
                annotator,
                annotator == null
                        ? null
                        : stores.taggings().find(one.code(), annotator).orElse(null),
                stores.cuts().of(one.code()),
                warning,
                selfFirst && !self);
    }

    /** How many were signed; what was agreed of them is not one more. */
    int signedMarks() {
        return (int) marks.stream().filter(m -> m.agreement() == null).count();
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
                reason == null ? "" : reason,
                null);
    }

    /**
     * What was agreed where the signed marks that the caller sees differed; not if a mark was signed since.
     *
     * @param signed of one case
     */
    static List<Signed> agreed(Stores stores, List<StoredRating> signed) {
        Map<String, Signed> latest = new LinkedHashMap<>();
        for (AgreedMark mark : stores.agreedMarks().all(AgreedMark.Purpose.ADJUDICATION)) {
            List<StoredRating> of = signed.stream()
                    .filter(r -> !r.rating().self()
                            && r.caseCode().equals(mark.caseCode())
                            && r.rating().rubric().equals(mark.rubric())
                            && r.rating().rubricVersion().equals(mark.rubricVersion()))
                    .toList();
            // whoever sees one of several marks must not work out the other
            if (of.size() > 1
                    && of.stream()
                            .allMatch(r -> r.signedAt() == null || !r.signedAt().isAfter(mark.agreedAt()))) {
                latest.put(mark.rubric() + " " + mark.rubricVersion(), agreed(mark, of));
            }
        }
        return List.copyOf(latest.values());
    }

    private static Signed agreed(AgreedMark mark, List<StoredRating> of) {
        Rubric rubric = StoredRubrics.of(of.get(0));
        OffsetDateTime at = mark.agreedAt().atZone(ZoneId.systemDefault()).toOffsetDateTime();
        Long stands = mark.stands();
        return new Signed(
                mark.caseCode(),
                rubric,
                mark.asRating(),
                Scorer.score(rubric, mark.asRating()),
                at,
                null,
                "",
                new Feedback.Agreement(
                        mark.agreedBy(),
                        at,
                        mark.reason(),
                        of.stream()
                                .filter(r -> stands != null && r.id() == stands)
                                .map(r -> r.rating().assessor())
                                .findFirst()
                                .orElse("")));
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
