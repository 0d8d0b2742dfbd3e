package org.sideport.demo;

import java.util.List;

/**
 * An invented trainee.
 *
 * @param code such as {@code T01}
 * @param pace how long the first cases take, relative to the published median of beginners
 * @param rate exponent of the power law by which times fall
 * @param ability how well cases are done at first, on a scale where one level of a rubric is 1
 * @param gain how much better they are done each time that experience grows e-fold
 * @param weeklyCases how many cases a week
 */
record CohortTrainee(String code, double pace, double rate, double ability, double gain, double weeklyCases) {

    static final List<CohortTrainee> ALL = List.of(
            new CohortTrainee("T01", 1.30, 0.22, -1.3, 0.35, 1.2),
            new CohortTrainee("T02", 1.12, 0.42, -0.9, 0.55, 1.5),
            new CohortTrainee("T03", 1.10, 0.30, -1.0, 0.30, 1.0),
            new CohortTrainee("T04", 1.00, 0.60, -0.6, 0.60, 1.8),
            new CohortTrainee("T05", 1.20, 0.10, -1.1, 0.15, 0.9),
            new CohortTrainee("T06", 1.05, 0.50, -0.8, 0.50, 1.3));

    /** Median seconds of a step in a trainee's {@code number}th case: a power law down to an expert's time. */
    double medianSeconds(CohortStep step, int number) {
        double excess = step.firstSeconds() * pace - step.expertSeconds();
        return step.expertSeconds() + excess * Math.pow((number + 1) / 2.0, -rate);
    }

    double abilityAt(int number) {
        return ability + gain * Math.log(number);
    }
}
