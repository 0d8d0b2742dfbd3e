package org.sideport.workflow;

import java.util.List;
import org.sideport.model.Rubric;
import org.sideport.stats.Outcome;
import org.sideport.workflow.consent.LeftOut;

/**
 * How much marking it takes until a decision about a trainee is sure enough.
 *
 * @param wish coefficient Φ that is asked for
 * @param minutesEach of an assessor for one case
 * @param found refused, in plain words, where the unit's marks are too few
 * @param leftOut cases of the rubric's procedure whose marks do not count here
 */
public record MarkingPlan(Rubric rubric, double wish, double minutesEach, Outcome<Found> found, LeftOut leftOut) {

    /**
     * @param plans what reaches the wish, the fewest minutes first; empty if nothing tried does
     * @param curve for each number of assessors, cases ascending
     */
    public record Found(List<Precision.More> plans, List<Place> curve, Precision.Study study) {
        public Found {
            plans = List.copyOf(plans);
            curve = List.copyOf(curve);
        }
    }

    /**
     * @param cases of one trainee
     * @param assessorsEach each marked by this many, who take turns
     * @param phi for a decision against a standard
     * @param g for ranking trainees
     * @param minutes of marking for one trainee
     */
    public record Place(int cases, int assessorsEach, double phi, double g, double minutes) {}
}
