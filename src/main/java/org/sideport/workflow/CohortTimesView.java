package org.sideport.workflow;

import java.util.List;
import org.sideport.model.Procedure;
import org.sideport.workflow.ProgressView.Held;
import org.sideport.workflow.consent.LeftOut;

/**
 * What phases take a cohort. Formative: speed is not competence.
 *
 * @param last how many of the latest cases of each trainee count
 * @param terms the whole operation first, then phases and steps in the procedure's order; those that occur
 * @param leftOut cases of the procedure that do not count here
 */
public record CohortTimesView(Procedure procedure, int last, List<Term> terms, LeftOut leftOut) {

    public CohortTimesView {
        terms = List.copyOf(terms);
    }

    /** @param medianUs median over the latest cases with a sure time, microseconds */
    public record OfTrainee(String trainee, int cases, double medianUs) {}

    /**
     * @param id of the phase or step, or {@link ProgressView#WHOLE}
     * @param name empty for the whole
     * @param cases behind the medians
     * @param trainees each counted once
     * @param lowUs lower quartile of the trainees' medians (type 7 of Hyndman & Fan 1996); the least below five trainees
     * @param quartiles false if low and high are the least and the greatest
     * @param references what there is to hold it against
     */
    public record Term(
            String id,
            String name,
            boolean step,
            int cases,
            List<OfTrainee> trainees,
            double lowUs,
            double middleUs,
            double highUs,
            boolean quartiles,
            List<Held> references) {
        public Term {
            trainees = List.copyOf(trainees);
            references = List.copyOf(references);
        }
    }
}
