package org.sideport.demo;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.sideport.model.ItemScore;
import org.sideport.model.NotApplicable;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;

/**
 * Marks invented cases as assessors of differing severity would: a mark is the trainee's ability at that case, less the
 * item's difficulty and the assessor's severity, with an effect of the case and chance on top, cut to the rubric's
 * levels.
 */
final class RatingSimulator {

    private static final double CHANCE = 0.55;
    private static final double CASE = 0.35;
    private static final List<String> REMARKS = List.of(
            "Keep the second hand still while the first works.",
            "Centre the view before you go on.",
            "Good control of depth here.",
            "Stop and refill the chamber earlier.",
            "Say what you are going to do next.",
            "Much steadier than last time.");

    private final Rubric rubric;
    private final long seed;

    RatingSimulator(Rubric rubric, long seed) {
        this.rubric = rubric;
        this.seed = seed;
    }

    /** Marks that an assessor takes off on average; the third is lenient. */
    static double severity(String assessor) {
        return switch (assessor) {
            case "A1" -> 0.35;
            case "A3" -> -0.35;
            default -> 0;
        };
    }

    /** @param assessor an assessor's code, or the trainee's own for a self-assessment */
    Rating rate(CohortCase aCase, String assessor) {
        boolean self = assessor.equals(aCase.trainee().code());
        Random caseChance = Seeds.random(seed, "marks of " + aCase.code());
        double caseEffect = CASE * caseChance.nextGaussian()
                - 0.15 * (aCase.nuclearGrade() - 2.5)
                - (aCase.complicated() ? 0.8 : 0);
        Random chance = Seeds.random(seed, "marks of " + aCase.code() + " by " + assessor);
        // beginners think too well of themselves, the able a little too little
        double own = self ? 0.45 - 0.35 * aCase.trainee().abilityAt(aCase.number()) : -severity(assessor);
        double level = aCase.trainee().abilityAt(aCase.number()) + caseEffect + own;
        List<ItemScore> scores = new ArrayList<>();
        for (Rubric.Item item : rubric.items()) {
            scores.add(score(aCase, item, level, chance));
        }
        boolean blind = !self && chance.nextDouble() < 0.5;
        return new Rating(rubric.id(), rubric.version(), assessor, self, blind, scores, "");
    }

    private ItemScore score(CohortCase aCase, Rubric.Item item, double level, Random chance) {
        double noise = CHANCE * chance.nextGaussian();
        boolean remarked = chance.nextDouble() < 0.06;
        String remark = remarked ? REMARKS.get(chance.nextInt(REMARKS.size())) : "";
        boolean hidden = chance.nextDouble() < 0.015;
        NotApplicable reason = excuse(aCase, item, hidden);
        if (reason != null) {
            return new ItemScore.Excused(item.id(), reason, "");
        }
        List<Integer> points = rubric.pointsOf(item);
        double difficulty = 0.45 * Seeds.random(seed, "item " + item.id()).nextGaussian();
        double middle = (points.size() - 1) * 0.55;
        // a step between done and not done is wider than one between two levels
        double spread = item.kind() == Rubric.Kind.CHECK ? 0.35 : (points.size() - 1) / 4.0;
        double shift = item.kind() == Rubric.Kind.CHECK ? 0.25 : 0;
        long index = Math.round(middle + shift + spread * (level - difficulty + noise));
        return new ItemScore.Marked(
                item.id(), points.get((int) Math.max(0, Math.min(points.size() - 1, index))), remark);
    }

    private static @Nullable NotApplicable excuse(CohortCase aCase, Rubric.Item item, boolean hidden) {
        String phase = item.phase();
        if (phase != null) {
            List<String> steps = CohortStep.stepsOf(phase);
            List<PhaseSpan> spans = aCase.tagging().spans().stream()
                    .filter(s -> steps.contains(s.phase()))
                    .toList();
            if (spans.isEmpty() && item.notApplicable().contains(NotApplicable.NOT_PERFORMED)) {
                return NotApplicable.NOT_PERFORMED;
            }
            if (!spans.isEmpty()
                    && spans.stream().allMatch(s -> Objects.equals(s.operator(), Operator.TRAINER))
                    && item.notApplicable().contains(NotApplicable.DONE_BY_TRAINER)) {
                return NotApplicable.DONE_BY_TRAINER;
            }
        }
        return hidden && item.notApplicable().contains(NotApplicable.NOT_VISIBLE) ? NotApplicable.NOT_VISIBLE : null;
    }
}
