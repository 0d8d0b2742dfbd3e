package org.sideport.model;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * A structured assessment form, read from a file under {@code rubrics/}.
 *
 * @param procedure id of the procedure that it assesses
 * @param source where its structure comes from
 * @param levels the level scale, worst first; points need not start at 1
 * @param passStandard {@code null} where no standard has been agreed, which is the usual state
 */
public record Rubric(
        String id,
        String version,
        String title,
        String procedure,
        String source,
        String guidance,
        List<Level> levels,
        List<Domain> domains,
        List<Item> items,
        @Nullable PassStandard passStandard) {

    public record Level(int points, String label, String meaning) {}

    public record Domain(String id, String title) {}

    /** How an item is marked. */
    public enum Kind {
        /** one of the rubric's levels */
        LEVEL,
        /** done (1 point) or not done (0 points) */
        CHECK
    }

    /**
     * @param phase id of the phase or step that it is judged on; {@code null} for the whole operation
     * @param weight relative weight in the score, positive
     * @param criticalMinimum points below which the item is a critical failure; {@code null} if it cannot be one
     * @param notApplicable the reasons for which it may be left unmarked
     * @param anchors what each level looks like, worst first; empty for a check
     */
    public record Item(
            String id,
            String domain,
            String title,
            Kind kind,
            @Nullable String phase,
            double weight,
            @Nullable Integer criticalMinimum,
            Set<NotApplicable> notApplicable,
            String guidance,
            List<Anchor> anchors) {
        public Item {
            notApplicable = Set.copyOf(notApplicable);
            anchors = List.copyOf(anchors);
        }
    }

    public record Anchor(int points, String text) {}

    /**
     * @param share least share of the applicable maximum, 0 to 1
     * @param agreedBy who agreed it, by code or body
     * @param agreedOn ISO date
     */
    public record PassStandard(double share, String agreedBy, String agreedOn) {}

    public Rubric {
        levels = List.copyOf(levels);
        domains = List.copyOf(domains);
        items = List.copyOf(items);
    }

    public Optional<Item> item(String itemId) {
        return items.stream().filter(i -> i.id().equals(itemId)).findFirst();
    }

    /** The most points an item can get. */
    public int maximumOf(Item item) {
        return item.kind() == Kind.CHECK
                ? 1
                : levels.stream().mapToInt(Level::points).max().orElseThrow();
    }

    /** The points that an item can be given, lowest first. */
    public List<Integer> pointsOf(Item item) {
        return item.kind() == Kind.CHECK
                ? List.of(0, 1)
                : levels.stream().map(Level::points).sorted().toList();
    }
}
