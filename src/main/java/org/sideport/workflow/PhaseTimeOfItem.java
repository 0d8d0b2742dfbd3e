package org.sideport.workflow;

import org.sideport.model.InputException;
import org.sideport.model.Procedure;
import org.sideport.model.Rubric;
import org.sideport.store.Workspace;
import org.sideport.timing.CaseTiming;
import org.sideport.timing.PhaseTiming;
import org.sideport.workflow.ComputeTimings.Level;

/** The time that a measured item of a rubric is marked by. */
final class PhaseTimeOfItem {

    private PhaseTimeOfItem() {}

    /**
     * Active time of the item's phase or step as this annotator tagged it, seconds.
     *
     * @throws InputException if the item takes no time from tags, the phase is not tagged, or its time is not known or sure
     */
    static double seconds(Workspace workspace, String caseCode, Rubric.Item item, String annotator) {
        String phase = item.phase();
        if (item.quantity() != Rubric.Quantity.PHASE_TIME || phase == null) {
            throw new InputException(item.title() + " takes no time from tags", null, "enter its value");
        }
        String procedure =
                workspace.<String>read(stores -> stores.cases().get(caseCode).procedure());
        boolean isStep = new Vocabularies(workspace)
                .procedure(procedure)
                .find(phase)
                .map(Procedure.Term::isStep)
                .orElse(false);
        CaseTiming timing =
                new ComputeTimings(workspace).ofCase(caseCode, annotator, isStep ? Level.STEP : Level.PHASE);
        PhaseTiming of = timing.phases().stream()
                .filter(p -> p.phase().equals(phase))
                .findFirst()
                .orElseThrow(() -> new InputException(
                        annotator + " has not tagged " + phase + " in case " + caseCode,
                        null,
                        "tag it first, or enter the value"));
        Long sure = of.sureActiveUs();
        if (sure == null) {
            throw new InputException(
                    "the time of " + phase + " is " + (of.activeUs() == null ? "not known" : "unsure"),
                    null,
                    of.activeUs() == null
                            ? "tag its end, or enter the value"
                            : "a cut of the recording lies in it: enter a value that is known otherwise, or say that it"
                                    + " cannot be seen");
        }
        return sure / 1e6;
    }
}
