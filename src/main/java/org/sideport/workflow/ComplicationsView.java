package org.sideport.workflow;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Procedure;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.workflow.ProgressView.Monitoring;
import org.sideport.workflow.ProgressView.OneCase;
import org.sideport.workflow.consent.LeftOut;

/**
 * Complications of a unit. No verdict on anybody: case mix, chance and who tagged lie behind every difference.
 *
 * @param kinds ids of the events that count; empty if the procedure names none of them
 * @param cases of the procedure
 * @param known of them with tags, so with a known outcome
 * @param failures of these with an event that counts
 * @param rate {@code null} without a known outcome
 * @param rateLimits 95 %, Clopper & Pearson 1934
 * @param fewest counts below are hidden; 0 for none
 * @param masked true if those of the whole unit are too few to be shared; then they are 0 here, without a rate
 * @param trainees by code
 * @param leftOut cases of the procedure that do not count here
 */
public record ComplicationsView(
        Procedure procedure,
        List<String> kinds,
        int cases,
        int known,
        int failures,
        @Nullable Double rate,
        @Nullable Interval rateLimits,
        int fewest,
        boolean masked,
        List<OfTrainee> trainees,
        LeftOut leftOut) {

    /** Levels of the funnel's limits, about 2 and 3 standard deviations (Spiegelhalter 2005). */
    public static final double INNER = 0.95;

    public static final double OUTER = 0.998;

    public ComplicationsView {
        kinds = List.copyOf(kinds);
        trainees = List.copyOf(trainees);
    }

    /**
     * @param known cases with a known outcome
     * @param failures of these; 0 where masked
     * @param inner where the share of that many cases is to be expected at the unit's rate; {@code null} if that is 0 or 1
     *     or unknown
     * @param outer likewise, wider
     * @param masked true if the counts are too small to be shared; then {@code known}, {@code failures} and the cases are
     *     not told
     * @param numbered the cases in turn
     * @param monitoring refused unless the log is stated to be complete
     */
    public record OfTrainee(
            String trainee,
            int cases,
            int known,
            int failures,
            @Nullable Interval inner,
            @Nullable Interval outer,
            boolean masked,
            List<OneCase> numbered,
            Outcome<Monitoring> monitoring) {

        public OfTrainee {
            numbered = List.copyOf(numbered);
        }

        /** {@code null} without a known outcome, and where it is masked. */
        public @Nullable Double share() {
            return masked || known == 0 ? null : (Double) ((double) failures / known);
        }

        OfTrainee within(Interval in, Interval out) {
            return new OfTrainee(trainee, cases, known, failures, in, out, masked, numbered, monitoring);
        }

        OfTrainee hidden() {
            return new OfTrainee(
                    trainee,
                    cases,
                    0,
                    0,
                    null,
                    null,
                    true,
                    List.of(),
                    Outcome.refused(
                            Refusal.Reason.TOO_FEW, "the counts are too small to be shared", "look at them unshared"));
        }
    }
}
