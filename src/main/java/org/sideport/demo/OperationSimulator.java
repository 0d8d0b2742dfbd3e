package org.sideport.demo;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Severity;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;

/** Plays one invented operation as a tagging: steps, pauses, repeated episodes, take-overs, complications. */
final class OperationSimulator {

    /** Spread of the logarithm of a step's time from case to case. */
    private static final double STEP_SPREAD = 0.27;

    private static final double CASE_SPREAD = 0.10;

    /** Recordings of the cohort are thought to have 25 frames a second: every time is a multiple of this, in us. */
    private static final long FRAME = 40_000;

    private final Random random;
    private final CohortTrainee trainee;
    private final int number;
    private final double nuclearGrade;
    private final @Nullable CohortStep tearIn;
    private final double caseFactor;
    private final List<PhaseSpan> spans = new ArrayList<>();
    private final List<PointEvent> events = new ArrayList<>();
    private long now;
    private int trainerSteps;

    /** @param tearIn the step in which the posterior capsule tears, or {@code null} */
    OperationSimulator(
            Random random, CohortTrainee trainee, int number, double nuclearGrade, @Nullable CohortStep tearIn) {
        this.random = random;
        this.trainee = trainee;
        this.number = number;
        this.nuclearGrade = nuclearGrade;
        this.tearIn = tearIn;
        this.caseFactor = Math.exp(CASE_SPREAD * random.nextGaussian());
    }

    Tagging play() {
        // lead-in before the first tag: mean about 11 s in Cataract-101
        now = seconds(11 * Math.exp(0.6 * random.nextGaussian()) + 0.5);
        for (CohortStep step : CohortStep.values()) {
            Operator operator = operator(step);
            double length = length(step, operator);
            episodes(step, operator, length);
            mishaps(step, operator);
            pause();
        }
        return new Tagging(TaggingStyle.START_AND_END, spans, events);
    }

    private Operator operator(CohortStep step) {
        if (trainerSteps > 0) {
            trainerSteps--;
            if (trainerSteps > 0) {
                return Operator.TRAINER;
            }
            event("hand_back", now, null);
        }
        double early = Math.exp(-(number - 1) / 7.0);
        if (step.demanding() && random.nextDouble() < 0.16 * early - 0.03 * trainee.abilityAt(number)) {
            event("take_over", now, null);
            trainerSteps = 2 + random.nextInt(2);
            return Operator.TRAINER;
        }
        return random.nextDouble() < 0.10 * early ? Operator.ASSISTED : Operator.TRAINEE;
    }

    private double length(CohortStep step, Operator operator) {
        double median = operator == Operator.TRAINER
                ? step.expertSeconds()
                : trainee.medianSeconds(step, number) * (operator == Operator.ASSISTED ? 1.1 : 1);
        double hardness = step.onNucleus() ? Math.exp(0.13 * (nuclearGrade - 2.2)) : 1;
        return Math.max(1.5, median * hardness * caseFactor * Math.exp(STEP_SPREAD * random.nextGaussian()));
    }

    private void episodes(CohortStep step, Operator operator, double length) {
        double early = Math.exp(-(number - 1) / 9.0);
        boolean again =
                switch (step) {
                    case RHEXIS -> random.nextDouble() < 0.10 + 0.25 * early;
                    case HYDRATION -> random.nextDouble() < 0.6;
                    case SIDE_PORT, CAPSULE_POLISHING, OVD_REMOVAL -> random.nextDouble() < 0.12;
                    default -> false;
                };
        if (!again) {
            span(step.id(), length, operator);
            return;
        }
        double share = 0.35 + 0.3 * random.nextDouble();
        span(step.id(), length * share, operator);
        pause();
        if (step == CohortStep.RHEXIS) {
            span(CohortStep.OVD_CHAMBER.id(), 4 + 5 * random.nextDouble(), operator);
            pause();
        } else if (step == CohortStep.CAPSULE_POLISHING) {
            span(CohortStep.CORTEX_ASPIRATION.id(), 4 + 8 * random.nextDouble(), operator);
        }
        span(step.id(), length * (1 - share), operator);
    }

    private void mishaps(CohortStep step, Operator operator) {
        if (step == tearIn) {
            long at = inLastSpan();
            event("capsule_tear_posterior", at, Severity.MAJOR);
            if (step == CohortStep.FRAGMENT_REMOVAL) {
                event("vitreous_loss", now, Severity.MODERATE);
            }
            event("take_over", now, null);
            trainerSteps = 4;
        }
        if (operator != Operator.TRAINEE) {
            return;
        }
        double early = 0.35 + 0.65 * Math.exp(-(number - 1) / 8.0);
        switch (step) {
            case RHEXIS -> maybe(0.09 * early, "capsule_tear_anterior");
            case HYDRODISSECTION -> maybe(0.06 * early, "iris_prolapse");
            case SCULPTING -> maybe(0.05 * early, "wound_burn");
            case FRAGMENT_REMOVAL -> maybe(0.08 * early, "endothelial_touch");
            case CORTEX_ASPIRATION -> maybe(0.04 * early, "iris_injury");
            case OVD_REMOVAL -> maybe(0.05 * early, "chamber_collapse");
            default -> maybe(0.012, "teaching_moment");
        }
    }

    private void maybe(double chance, String kind) {
        if (random.nextDouble() < chance) {
            boolean notable = kind.equals("teaching_moment");
            event(kind, inLastSpan(), notable ? null : random.nextDouble() < 0.8 ? Severity.MINOR : Severity.MODERATE);
        }
    }

    private long inLastSpan() {
        PhaseSpan last = spans.get(spans.size() - 1);
        long start = last.start().micros();
        return start + Math.round((now - start) * (0.3 + 0.6 * random.nextDouble()) / FRAME) * FRAME;
    }

    private void span(String step, double length, Operator operator) {
        long end = now + Math.max(FRAME, seconds(length));
        spans.add(new PhaseSpan(step, MediaTime.ofMicros(now), MediaTime.ofMicros(end), operator));
        now = end;
    }

    /** Idle between two steps: about 4 s in experienced hands (Cataract-1K), about twice that at first. */
    private void pause() {
        double median = 3.4 + 4.5 * Math.pow(number, -trainee.rate());
        now += Math.max(FRAME, seconds(median * Math.exp(0.5 * random.nextGaussian())));
    }

    private void event(String kind, long at, @Nullable Severity severity) {
        events.add(new PointEvent(kind, MediaTime.ofMicros(at), severity, ""));
    }

    private static long seconds(double seconds) {
        return Math.round(seconds * 1e6 / FRAME) * FRAME;
    }
}
