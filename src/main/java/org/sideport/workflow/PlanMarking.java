package org.sideport.workflow;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.Rubric;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.consent.CountedCases;
import org.sideport.workflow.consent.LeftOut;

/** Plans how many cases of a trainee must be marked by how many assessors, from the unit's own marks. */
public final class PlanMarking {

    /** So many cases are drawn. */
    public static final int MOST_DRAWN = 20;

    private final Workspace workspace;
    private final Vocabularies vocabularies;

    public PlanMarking(Workspace workspace) {
        this.workspace = workspace;
        this.vocabularies = new Vocabularies(workspace);
    }

    /**
     * @param version {@code null} for the rubric's version in use now
     * @param wish coefficient Φ to reach, between 0 and 1
     * @param minutes of an assessor for one case, above 0; marking times are not recorded, so they are for the planner to say
     * @throws InputException if there is no such rubric, or a number does not fit
     */
    public MarkingPlan show(String rubricId, @Nullable String version, double wish, double minutes) {
        Access.require(workspace, Permission.SEE_COHORT);
        if (!(wish > 0 && wish < 1) || !(minutes > 0 && minutes < 1e6)) {
            throw new InputException(
                    "a coefficient of " + wish + " at " + minutes + " minutes cannot be planned for",
                    null,
                    "write such as 0.80 and 15");
        }
        record Read(Rubric rubric, List<SignedMark> marks, LeftOut leftOut) {}
        Read read = workspace.read(stores -> {
            Rubric rubric =
                    SignedMarks.rubric(stores, vocabularies, rubricId, version).rubric();
            return new Read(
                    rubric,
                    SignedMarks.of(stores, rubric).all(),
                    CountedCases.forAssessment(stores, stores.cases().bare()).leftOut(rubric.procedure()));
        });
        return new MarkingPlan(
                read.rubric(),
                wish,
                minutes,
                UnitPrecision.of(read.marks())
                        .flatMap(unit -> unit.fromNothing(wish, minutes)
                                .flatMap(plans -> unit.curve(MOST_DRAWN, minutes)
                                        .map(curve -> new MarkingPlan.Found(plans, curve, unit.described())))),
                read.leftOut());
    }
}
