package org.sideport.workflow.assign;

import java.time.Clock;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.sideport.model.AgreedMark;
import org.sideport.model.InputException;
import org.sideport.model.Rating;
import org.sideport.model.RatingState;
import org.sideport.model.Rubric;
import org.sideport.rubric.RubricReader;
import org.sideport.rubric.Score;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;
import org.sideport.stats.agreement.BlandAltman;
import org.sideport.stats.agreement.LimitsOfAgreement;
import org.sideport.store.StoredRating;
import org.sideport.store.Workspace;
import org.sideport.workflow.Vocabularies;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Cases with reference marks that a panel agreed upon, and how assessors who practised on them compare. */
public final class CalibrationSet {

    private final Workspace workspace;
    private final Clock clock;

    public CalibrationSet(Workspace workspace, Clock clock) {
        this.workspace = workspace;
        this.clock = clock;
    }

    /** Reference marks with what they amount to. */
    public record Reference(AgreedMark mark, Score score) {}

    /**
     * Records reference marks of a case; earlier ones stay in the store and count no longer.
     *
     * @param by codes of the panel
     * @throws InputException if an item is missing, no reason or person is given, or there is no such case
     */
    public Reference setReference(String caseCode, Rating agreed, String by, String why) {
        Access.require(workspace, Permission.ADJUDICATE, caseCode);
        Vocabularies.RubricText text = new Vocabularies(workspace).rubric(agreed.rubric());
        return workspace.write(stores -> {
            if (!stores.cases().get(caseCode).procedure().equals(text.rubric().procedure())) {
                throw new InputException(
                        "rubric " + agreed.rubric() + " is for another procedure than " + caseCode,
                        null,
                        "choose a rubric of the same procedure");
            }
            AgreedMark mark = AgreedMarks.made(
                    stores, caseCode, agreed, AgreedMark.Purpose.REFERENCE, null, by, why, clock.instant());
            Score score = AgreedMarks.complete(text.rubric(), mark);
            stores.ratings().keepRubric(mark.rubric(), mark.rubricVersion(), text.json());
            stores.agreedMarks().add(mark);
            stores.audit().add("marks.reference", caseCode, "", mark.id());
            return new Reference(mark, score);
        });
    }

    /**
     * How one assessor compares with the reference marks.
     *
     * @param cases marked and signed
     * @param severity mean of reference less assessor over the cases, as a share of the applicable maximum, with limits by
     *     t: above 0 the assessor is more severe; {@code null} where there are too few cases
     * @param why why there is none, or {@code null}
     * @param items marked by both
     * @param exact of these with the same level
     * @param withinOne of these at most one level apart
     * @param byItem in the order of the rubric
     */
    public record Compared(
            String assessor,
            int cases,
            @Nullable Estimate severity,
            @Nullable String why,
            int items,
            int exact,
            int withinOne,
            List<ItemCompared> byItem) {}

    /**
     * @param n times that both marked it
     * @param meanLevels mean of reference less assessor in levels
     */
    public record ItemCompared(String item, String title, int n, int exact, int withinOne, double meanLevels) {}

    /**
     * @param references cases with reference marks for the rubric
     * @param assessors by code; only oneself for an assessor who asks
     */
    public record Report(String rubric, int references, List<Compared> assessors, List<String> warnings) {}

    /** Severity and agreement of all who have signed marks of cases with reference marks. */
    public Report report(String rubricId) {
        Access.require(workspace, needed());
        return workspace.read(stores -> {
            Map<String, AgreedMark> references = new LinkedHashMap<>();
            stores.agreedMarks().all(AgreedMark.Purpose.REFERENCE).stream()
                    .filter(m -> m.rubric().equals(rubricId))
                    .forEach(m -> references.put(m.caseCode(), m));
            Map<String, Rubric> rubrics = new HashMap<>();
            Map<String, Tally> tallies = new TreeMap<>();
            for (StoredRating one : stores.ratings().all()) {
                AgreedMark reference = references.get(one.caseCode());
                Rating rating = one.rating();
                if (reference == null
                        || one.state() != RatingState.SIGNED
                        || rating.self()
                        || !rating.rubric().equals(rubricId)
                        || !rating.rubricVersion().equals(reference.rubricVersion())
                        || !Access.directsOrIs(workspace.caller(), rating.assessor())) {
                    continue;
                }
                Rubric rubric = rubrics.computeIfAbsent(
                        reference.rubricVersion(),
                        version -> RubricReader.read(
                                stores.ratings().rubricText(rubricId, version).orElseThrow(), "rubric " + rubricId));
                tallies.computeIfAbsent(rating.assessor(), a -> new Tally())
                        .add(MarkGap.of(rubric, reference.asRating(), rating));
            }
            List<Compared> compared = new ArrayList<>();
            tallies.forEach((assessor, tally) -> compared.add(tally.of(assessor)));
            List<String> warnings = compared.isEmpty()
                    ? List.of()
                    : List.of("a panel's marks are an agreement, not the truth; differences of a few hundredths of the"
                            + " maximum are within what panels differ by");
            return new Report(rubricId, references.size(), compared, warnings);
        });
    }

    /** Directors see all, assessors what is their own. */
    private Permission needed() {
        return Access.may(workspace.caller(), Permission.ADJUDICATE) ? Permission.ADJUDICATE : Permission.MARK;
    }

    /** Sums over the cases of one assessor. */
    private static final class Tally {
        private final List<Double> references = new ArrayList<>();
        private final List<Double> own = new ArrayList<>();
        private final Map<String, int[]> counts = new LinkedHashMap<>();
        private final Map<String, String> titles = new HashMap<>();
        private int cases;

        void add(MarkGap gap) {
            cases++;
            Double reference = gap.firstShare();
            Double mark = gap.secondShare();
            if (reference != null && mark != null) {
                references.add(reference);
                own.add(mark);
            }
            for (MarkGap.ItemGap item : gap.items()) {
                titles.put(item.item(), item.title());
                int[] count = counts.computeIfAbsent(item.item(), i -> new int[4]);
                Integer levels = item.levels();
                if (levels != null) {
                    count[0]++;
                    count[1] += levels == 0 ? 1 : 0;
                    count[2] += Math.abs(levels) <= 1 ? 1 : 0;
                    count[3] += levels;
                }
            }
        }

        Compared of(String assessor) {
            Outcome<LimitsOfAgreement> found = BlandAltman.of(array(references), array(own), 1.96, 0.95);
            int[] all = new int[3];
            List<ItemCompared> items = new ArrayList<>();
            counts.forEach((item, count) -> {
                for (int i = 0; i < all.length; i++) {
                    all[i] += count[i];
                }
                if (count[0] > 0) {
                    items.add(new ItemCompared(
                            item,
                            titles.getOrDefault(item, item),
                            count[0],
                            count[1],
                            count[2],
                            (double) count[3] / count[0]));
                }
            });
            return new Compared(
                    assessor,
                    cases,
                    found instanceof Outcome.Found<LimitsOfAgreement> f
                            ? f.value().bias()
                            : null,
                    found instanceof Outcome.Refused<LimitsOfAgreement> r
                            ? "not enough cases: " + r.refusal().why()
                            : null,
                    all[0],
                    all[1],
                    all[2],
                    items);
        }

        private static double[] array(List<Double> values) {
            return values.stream().mapToDouble(Double::doubleValue).toArray();
        }
    }
}
