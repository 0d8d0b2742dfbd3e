package org.sideport.model;

import java.util.List;
import java.util.Optional;

/**
 * One assessor's marks of one case against one rubric version.
 *
 * @param self true if the trainee marked the own case
 * @param blind true if the assessor could not know whose case it was
 * @param scores at most one per item; items without one are still missing
 */
public record Rating(
        String rubric,
        String rubricVersion,
        String assessor,
        boolean self,
        boolean blind,
        List<ItemScore> scores,
        String comment) {

    public Rating {
        scores = List.copyOf(scores);
    }

    public Optional<ItemScore> score(String item) {
        return scores.stream().filter(s -> s.item().equals(item)).findFirst();
    }
}
