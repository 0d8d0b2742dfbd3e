package org.sideport.model;

import org.jspecify.annotations.Nullable;

/** The mark of one item: points, or a reason why there are none. */
public sealed interface ItemScore {

    String item();

    String comment();

    /** @param points one of the points that the rubric allows for the item */
    record Marked(String item, int points, String comment) implements ItemScore {}

    record Excused(String item, NotApplicable reason, String comment) implements ItemScore {}

    /** The points, or {@code null} for an excused item. */
    default @Nullable Integer pointsOrNull() {
        return this instanceof Marked marked ? marked.points() : null;
    }
}
