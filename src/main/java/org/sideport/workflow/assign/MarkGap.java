package org.sideport.workflow.assign;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.ItemScore;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;

/**
 * Two ratings of one case on one rubric version, item by item.
 *
 * @param items all items of the rubric in its order
 * @param shared items that both marked
 * @param firstShare weighted points of the first as a share of the most on the shared items, 0 to 1; {@code null} if none is
 *     shared
 * @param secondShare likewise of the second
 * @param exact shared items with the same level
 * @param withinOne shared items at most one level apart
 * @param far shared items {@link org.sideport.model.MarkingRules#FAR} levels apart or more
 */
public record MarkGap(
        List<ItemGap> items,
        int shared,
        @Nullable Double firstShare,
        @Nullable Double secondShare,
        int exact,
        int withinOne,
        int far) {

    /**
     * @param first points, or {@code null} without
     * @param second likewise
     * @param gap points of the first less those of the second; {@code null} unless both marked
     * @param levels steps of the item's scale between them, negative where the first is lower; {@code null} likewise
     */
    public record ItemGap(
            String item,
            String title,
            @Nullable Integer first,
            @Nullable Integer second,
            @Nullable Integer gap,
            @Nullable Integer levels) {}

    public MarkGap {
        items = List.copyOf(items);
    }

    /** First less second on the shared items, −1 to 1; {@code null} if none is shared. */
    public @Nullable Double shareGap() {
        Double one = firstShare;
        Double other = secondShare;
        return one == null || other == null ? null : (Double) (one - other);
    }

    static MarkGap of(Rubric rubric, Rating first, Rating second) {
        List<ItemGap> items = new ArrayList<>();
        double one = 0;
        double other = 0;
        double most = 0;
        int shared = 0;
        int exact = 0;
        int within = 0;
        int far = 0;
        for (Rubric.Item item : rubric.items()) {
            Integer a = points(first, item);
            Integer b = points(second, item);
            Integer levels = null;
            Integer gap = null;
            if (a != null && b != null) {
                List<Integer> scale = rubric.pointsOf(item);
                int apart = scale.indexOf(a) - scale.indexOf(b);
                levels = apart;
                gap = a - b;
                shared++;
                one += item.weight() * a;
                other += item.weight() * b;
                most += item.weight() * rubric.maximumOf(item);
                exact += apart == 0 ? 1 : 0;
                within += Math.abs(apart) <= 1 ? 1 : 0;
                far += Math.abs(apart) >= org.sideport.model.MarkingRules.FAR ? 1 : 0;
            }
            items.add(new ItemGap(item.id(), item.title(), a, b, gap, levels));
        }
        return new MarkGap(
                items,
                shared,
                shared == 0 ? null : (Double) (one / most),
                shared == 0 ? null : (Double) (other / most),
                exact,
                within,
                far);
    }

    private static @Nullable Integer points(Rating rating, Rubric.Item item) {
        return rating.score(item.id()).map(ItemScore::pointsOrNull).orElse(null);
    }
}
