package org.sideport.rubric;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.model.NotApplicable;

/**
 * What a rating amounts to.
 *
 * @param rubric id of the rubric
 * @param rubricVersion its version
 * @param items number of items of the rubric
 * @param marked number of items with points: the applicable items; shares over different numbers of them compare badly
 * @param excused number of items without points for each reason that was given; reasons without an item are absent
 * @param missing ids of items with neither points nor reason, in the order of the rubric
 * @param points plain sum of the points given
 * @param maximum plain sum of the most points of the marked items
 * @param share Σ weight · points / Σ weight · most points over the marked items, 0 to 1; {@code null} if none is marked
 * @param domains in the order of the rubric
 * @param criticalFailures ids of marked items below their critical minimum, in the order of the rubric
 * @param verdict {@code null} while an item is missing, without a pass standard, or if nothing is marked
 */
public record Score(
        String rubric,
        String rubricVersion,
        int items,
        int marked,
        Map<NotApplicable, Integer> excused,
        List<String> missing,
        int points,
        int maximum,
        @Nullable Double share,
        List<DomainScore> domains,
        List<String> criticalFailures,
        @Nullable Verdict verdict) {

    /** Against the rubric's agreed pass standard. */
    public enum Verdict {
        MET,
        NOT_MET
    }

    /**
     * One domain.
     *
     * @param domain its id
     * @param items number of its items
     * @param marked number of its items with points
     * @param points plain sum of the points given
     * @param maximum plain sum of the most points of its marked items
     * @param share weighted as for the whole, 0 to 1; {@code null} if none of its items is marked
     */
    public record DomainScore(
            String domain,
            int items,
            int marked,
            int points,
            int maximum,
            @Nullable Double share) {}

    public Score {
        excused = Map.copyOf(excused);
        missing = List.copyOf(missing);
        domains = List.copyOf(domains);
        criticalFailures = List.copyOf(criticalFailures);
    }

    /** True if every item has points or a reason. */
    public boolean complete() {
        return missing.isEmpty();
    }

    /** Number of items that were left out for a reason. */
    public int excusedCount() {
        return items - marked - missing.size();
    }
}
