package org.sideport.model;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One go of a panel whose judges say, item by item, what points a person who only just passes would get.
 *
 * @param id made by the program
 * @param number 1 for the first round of this rubric version, and so on
 * @param judges codes, as asked; none twice
 * @param leftOut judges who do not count, since they did not finish; none while the round is open
 * @param note what was discussed
 * @param openedBy code of who opened it; empty where nobody signs in
 * @param closedBy empty while it is open
 * @param closedAt {@code null} while it is open
 */
public record AngoffRound(
        String id,
        String rubric,
        String rubricVersion,
        int number,
        List<String> judges,
        List<String> leftOut,
        String note,
        String openedBy,
        Instant openedAt,
        String closedBy,
        @Nullable Instant closedAt) {

    public AngoffRound {
        judges = List.copyOf(judges);
        leftOut = List.copyOf(leftOut);
    }

    public boolean isOpen() {
        return closedAt == null;
    }

    /** Those whose judgements make the cut. */
    public List<String> counted() {
        return judges.stream().filter(judge -> !leftOut.contains(judge)).toList();
    }
}
