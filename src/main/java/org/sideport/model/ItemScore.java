package org.sideport.model;

import java.util.List;
import org.jspecify.annotations.Nullable;

/** The mark of one item: points, or a reason why there are none. */
public sealed interface ItemScore {

    String item();

    String comment();

    /** The moments of the recording that the mark rests on, in the order given. */
    List<MediaTime> evidence();

    /** The same mark with another comment. */
    ItemScore withComment(String text);

    /** The same mark with other evidence. */
    ItemScore withEvidence(List<MediaTime> moments);

    /**
     * @param points one of the points that the rubric allows for the item
     * @param value what was counted or measured, in the item's unit, and gave the points; {@code null} for an item that is
     *     marked directly
     */
    record Marked(String item, int points, @Nullable Double value, String comment, List<MediaTime> evidence)
            implements ItemScore {

        public Marked {
            evidence = List.copyOf(evidence);
        }

        /** A direct mark without evidence. */
        public Marked(String item, int points, String comment) {
            this(item, points, null, comment, List.of());
        }

        @Override
        public Marked withComment(String text) {
            return new Marked(item, points, value, text, evidence);
        }

        @Override
        public Marked withEvidence(List<MediaTime> moments) {
            return new Marked(item, points, value, comment, moments);
        }
    }

    record Excused(String item, NotApplicable reason, String comment, List<MediaTime> evidence) implements ItemScore {

        public Excused {
            evidence = List.copyOf(evidence);
        }

        /** Without evidence. */
        public Excused(String item, NotApplicable reason, String comment) {
            this(item, reason, comment, List.of());
        }

        @Override
        public Excused withComment(String text) {
            return new Excused(item, reason, text, evidence);
        }

        @Override
        public Excused withEvidence(List<MediaTime> moments) {
            return new Excused(item, reason, comment, moments);
        }
    }

    /** The points, or {@code null} for an excused item. */
    default @Nullable Integer pointsOrNull() {
        return this instanceof Marked marked ? (Integer) marked.points() : null;
    }
}
