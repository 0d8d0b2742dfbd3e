package org.sideport.model;

import java.util.List;
import java.util.Optional;

/**
 * One assessor's marks of one case against one rubric version.
 *
 * @param self true if the trainee marked the own case
 * @param blind true if the assessor could not know whose case it was
 * @param scores at most one per item; items without one are still missing
 * @param actions what was agreed to work on next, at most {@value #MOST_ACTIONS}
 */
public record Rating(
        String rubric,
        String rubricVersion,
        String assessor,
        boolean self,
        boolean blind,
        List<ItemScore> scores,
        String comment,
        List<String> actions) {

    /** More than this many agreed actions are none. */
    public static final int MOST_ACTIONS = 3;

    public Rating {
        scores = List.copyOf(scores);
        actions = List.copyOf(actions);
        if (actions.size() > MOST_ACTIONS) {
            throw new IllegalArgumentException("at most " + MOST_ACTIONS + " actions: " + actions.size());
        }
    }

    /** Without agreed actions. */
    public Rating(
            String rubric,
            String rubricVersion,
            String assessor,
            boolean self,
            boolean blind,
            List<ItemScore> scores,
            String comment) {
        this(rubric, rubricVersion, assessor, self, blind, scores, comment, List.of());
    }

    public Optional<ItemScore> score(String item) {
        return scores.stream().filter(s -> s.item().equals(item)).findFirst();
    }

    public Rating withScores(List<ItemScore> other) {
        return new Rating(rubric, rubricVersion, assessor, self, blind, other, comment, actions);
    }

    public Rating withComment(String text) {
        return new Rating(rubric, rubricVersion, assessor, self, blind, scores, text, actions);
    }

    public Rating withBlind(boolean unknowing) {
        return new Rating(rubric, rubricVersion, assessor, self, unknowing, scores, comment, actions);
    }

    public Rating withActions(List<String> agreed) {
        return new Rating(rubric, rubricVersion, assessor, self, blind, scores, comment, agreed);
    }
}
