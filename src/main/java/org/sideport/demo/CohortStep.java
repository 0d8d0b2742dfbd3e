package org.sideport.demo;

import java.util.Arrays;
import java.util.List;

/**
 * A step as the cohort does it: how long it takes at first, and how long once the surgeon is experienced.
 *
 * <p>The times are medians of surgeons of low and of high experience, derived from the annotation table of Cataract-101
 * (Schoeffmann et al. 2018, doi 10.1145/3204949.3208137), seconds. Where a phase of that set holds several of our
 * steps, {@code share} divides it; the shares are our own.
 */
enum CohortStep {
    SIDE_PORT("side_port", "incision", 25.2, 13.4, 0.35),
    MAIN_INCISION("main_incision", "incision", 25.2, 13.4, 0.65),
    OVD_CHAMBER("ovd_chamber", "capsulotomy", 36.5, 17.9, 0.6),
    RHEXIS("rhexis", "capsulotomy", 65.1, 24.8, 1),
    HYDRODISSECTION("hydrodissection", "nucleus_division", 40.7, 21.0, 1),
    SCULPTING("sculpting", "nucleus_division", 223.6, 85.1, 0.32),
    DIVISION("division", "nucleus_division", 223.6, 85.1, 0.2),
    FRAGMENT_REMOVAL("fragment_removal", "nucleus_division", 223.6, 85.1, 0.48),
    CORTEX_ASPIRATION("cortex_aspiration", "cortex_removal", 81.8, 37.4, 1),
    CAPSULE_POLISHING("capsule_polishing", "cortex_removal", 27.3, 12.1, 1),
    OVD_BAG("ovd_bag", "implantation", 36.5, 17.9, 0.4),
    LENS_INSERTION("lens_insertion", "implantation", 33.0, 19.6, 0.6),
    LENS_POSITIONING("lens_positioning", "implantation", 33.0, 19.6, 0.4),
    OVD_REMOVAL("ovd_removal", "implantation", 79.2, 40.0, 1),
    HYDRATION("hydration", "closure", 32.6, 20.7, 1);

    private final String id;
    private final String phase;
    private final double low;
    private final double high;
    private final double share;

    CohortStep(String id, String phase, double low, double high, double share) {
        this.id = id;
        this.phase = phase;
        this.low = low;
        this.high = high;
        this.share = share;
    }

    String id() {
        return id;
    }

    String phase() {
        return phase;
    }

    /** Median seconds of a beginner. */
    double firstSeconds() {
        return low * share;
    }

    /** Median seconds of an experienced surgeon. */
    double expertSeconds() {
        return high * share;
    }

    /** True for the steps that a trainer is most likely to take over. */
    boolean demanding() {
        return this == RHEXIS
                || this == SCULPTING
                || this == DIVISION
                || this == FRAGMENT_REMOVAL
                || this == CORTEX_ASPIRATION;
    }

    boolean onNucleus() {
        return this == SCULPTING || this == DIVISION || this == FRAGMENT_REMOVAL;
    }

    /** The ids of all steps that make up a phase or step; only itself for an id that the cohort does not know. */
    static List<String> stepsOf(String phaseOrStep) {
        List<String> steps = Arrays.stream(values())
                .filter(s -> s.phase.equals(phaseOrStep))
                .map(CohortStep::id)
                .toList();
        return steps.isEmpty() ? List.of(phaseOrStep) : steps;
    }
}
