package org.sideport.demo;

import java.time.LocalDate;
import org.sideport.model.Tagging;

/**
 * One invented case.
 *
 * @param number which case of its trainee it is, from 1
 * @param assessor who tagged it
 * @param tagging what was seen
 * @param recorded true if the demo has a recording of it
 */
record CohortCase(
        String code,
        CohortTrainee trainee,
        int number,
        LocalDate date,
        double nuclearGrade,
        String pupil,
        String eye,
        String anaesthesia,
        String assessor,
        Tagging tagging,
        boolean recorded) {

    boolean complicated() {
        return tagging.events().stream().anyMatch(e -> e.kind().equals("capsule_tear_posterior"));
    }
}
