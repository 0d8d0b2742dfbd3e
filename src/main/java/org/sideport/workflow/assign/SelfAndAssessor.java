package org.sideport.workflow.assign;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Caller;
import org.sideport.model.Hidden;
import org.sideport.model.InputException;
import org.sideport.model.RatingState;
import org.sideport.model.Rubric;
import org.sideport.model.SurgicalCase;
import org.sideport.stats.Outcome;
import org.sideport.stats.agreement.BlandAltman;
import org.sideport.stats.agreement.LimitsOfAgreement;
import org.sideport.store.StoredRating;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.Codes;
import org.sideport.workflow.StoredRubrics;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.consent.CountedCases;

/**
 * The trainee's own marks beside the assessors', once both are signed, and how well the trainee judges oneself over time.
 * Gaps are the trainee's less the assessor's: above 0 the trainee thinks better of the operation.
 */
public final class SelfAndAssessor {

    /** Below, limits are wide and one case weighs much; common practice, no source. */
    public static final int FEW = 10;

    private final Workspace workspace;

    public SelfAndAssessor(Workspace workspace) {
        this.workspace = workspace;
    }

    /** Whether the two can be shown side by side. */
    public enum State {
        /** The case is marked blind: own marks of a trainee would tell whose it is. */
        BLIND,
        /** The trainee has not signed own marks. */
        NO_SELF,
        /** No assessor has signed marks. */
        NO_ASSESSOR,
        BOTH
    }

    /** An assessor's marks beside the trainee's. */
    public record Beside(String assessor, MarkGap gap) {}

    /**
     * @param besides one for each assessor, in the order of signing; empty unless {@code state} is {@link State#BOTH}
     */
    public record Sides(
            String caseCode,
            String trainee,
            State state,
            @Nullable Rubric rubric,
            List<Beside> besides) {
        public Sides {
            besides = List.copyOf(besides);
        }
    }

    /**
     * @throws InputException if there is no such case
     */
    public Sides of(String caseCode, String rubric) {
        Access.require(workspace, Permission.SEE_MARKS, caseCode);
        return workspace.read(stores -> sides(stores, stores.cases().get(caseCode), rubric));
    }

    private static Sides sides(Stores stores, SurgicalCase one, String rubric) {
        if (one.hides(Hidden.TRAINEE)) {
            return new Sides(one.code(), "", State.BLIND, null, List.of());
        }
        List<StoredRating> signed = stores.ratings().ofCase(one.code(), Access.marks(stores.caller())).stream()
                .filter(r ->
                        r.state() == RatingState.SIGNED && r.rating().rubric().equals(rubric))
                .toList();
        StoredRating self =
                signed.stream().filter(r -> r.rating().self()).findFirst().orElse(null);
        if (self == null) {
            return new Sides(one.code(), one.trainee(), State.NO_SELF, null, List.of());
        }
        Rubric read = StoredRubrics.of(self);
        List<Beside> besides = signed.stream()
                .filter(r -> !r.rating().self()
                        && r.rating().rubricVersion().equals(self.rating().rubricVersion()))
                .sorted(Comparator.comparing(r -> String.valueOf(r.signedAt())))
                .map(r -> new Beside(r.rating().assessor(), MarkGap.of(read, self.rating(), r.rating())))
                .toList();
        return new Sides(one.code(), one.trainee(), besides.isEmpty() ? State.NO_ASSESSOR : State.BOTH, read, besides);
    }

    /**
     * The gap of one case.
     *
     * @param self share of the applicable maximum that the trainee gave, on the items that an assessor marked too; mean over
     *     the assessors
     * @param assessor mean of what the assessors gave on these
     * @param items shared items, the fewest of any assessor
     */
    public record CaseGap(String caseCode, LocalDate date, double self, double assessor, int assessors, int items) {
        public double gap() {
            return self - assessor;
        }
    }

    /**
     * @param cases by date
     * @param agreement mean gap with its limits, and the range in which most gaps lie (Bland & Altman 1986); {@code null}
     *     where there are too few cases
     * @param why why there are no limits, or {@code null}
     * @param warnings in plain words
     */
    public record OverTime(
            String trainee,
            String rubric,
            List<CaseGap> cases,
            @Nullable LimitsOfAgreement agreement,
            @Nullable String why,
            List<String> warnings) {
        public OverTime {
            cases = List.copyOf(cases);
            warnings = List.copyOf(warnings);
        }
    }

    /** How a trainee's own marks compare with the assessors' from case to case. */
    public OverTime overTime(String trainee, String rubric) {
        String who = Codes.require("a trainee", trainee);
        if (workspace.caller() instanceof Caller.Person person && person.code().equals(who)) {
            Access.require(workspace, Permission.SEE_MARKS);
        } else {
            Access.require(workspace, Permission.SEE_COHORT);
        }
        List<CaseGap> gaps = workspace.read(stores -> {
            List<CaseGap> found = new ArrayList<>();
            for (SurgicalCase one :
                    CountedCases.forAssessment(stores, stores.cases().all()).cases()) {
                if (one.trainee().equals(who)) {
                    CaseGap gap = gap(one, sides(stores, one, rubric));
                    if (gap != null) {
                        found.add(gap);
                    }
                }
            }
            return found;
        });
        gaps.sort(Comparator.comparing(CaseGap::date).thenComparing(CaseGap::caseCode));
        Outcome<LimitsOfAgreement> found = BlandAltman.of(
                gaps.stream().mapToDouble(CaseGap::self).toArray(),
                gaps.stream().mapToDouble(CaseGap::assessor).toArray(),
                1.96,
                0.95);
        LimitsOfAgreement agreement = found instanceof Outcome.Found<LimitsOfAgreement> f ? f.value() : null;
        String why = found instanceof Outcome.Refused<LimitsOfAgreement> r
                ? "not enough cases with both marks signed: " + r.refusal().why()
                : null;
        List<String> warnings = new ArrayList<>();
        if (agreement != null && gaps.size() < FEW) {
            warnings.add("only " + gaps.size() + " cases: too few to say how well the trainee judges oneself");
        }
        if (agreement != null) {
            warnings.add("the limits take the cases as independent of one another; a gap that changes with experience"
                    + " makes them rough");
        }
        return new OverTime(who, rubric, gaps, agreement, why, warnings);
    }

    private static @Nullable CaseGap gap(SurgicalCase one, Sides sides) {
        double self = 0;
        double assessor = 0;
        int n = 0;
        int items = Integer.MAX_VALUE;
        for (Beside beside : sides.besides()) {
            Double first = beside.gap().firstShare();
            Double second = beside.gap().secondShare();
            if (first != null && second != null) {
                self += first;
                assessor += second;
                n++;
                items = Math.min(items, beside.gap().shared());
            }
        }
        return n == 0 ? null : new CaseGap(one.code(), one.date(), self / n, assessor / n, n, items);
    }
}
