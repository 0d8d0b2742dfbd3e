package org.sideport.app.marking;

import javafx.beans.property.ReadOnlyObjectProperty;
import org.jspecify.annotations.Nullable;
import org.sideport.app.review.TaggedLanes;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rubric;

/** What the card of an item asks and tells: a rating in the store, or one that is only tried out. */
public interface ItemMarking {

    void focus(Rubric.Item item);

    /** Why nothing can be marked now, or {@code null} if it can. */
    @Nullable
    String whyNoMarking();

    @Nullable
    ItemScore scoreOf(Rubric.Item item);

    /** True while a mark of the item is on its way to the store: words may follow it. */
    default boolean isComing(Rubric.Item item) {
        return false;
    }

    /** True if the mark lies below the item's critical minimum. */
    boolean isCriticalFailure(Rubric.Item item);

    void mark(Rubric.Item item, int points);

    void excuse(Rubric.Item item, NotApplicable reason);

    void clear(Rubric.Item item);

    void comment(Rubric.Item item, String text);

    /** Marks by a number as it was written. */
    void markValue(Rubric.Item item, String written);

    void markFromTags(Rubric.Item item);

    /** Adds the moment on the screen to what the item's mark rests on, or takes it away. */
    void toggleEvidence(Rubric.Item item);

    void toggleEvidence(Rubric.Item item, MediaTime moment);

    void seek(MediaTime time);

    /** Goes to where the item is to be seen. */
    void jump(Rubric.Item item);

    /** Why the recording cannot be gone to for this item, or {@code null} if it can. */
    @Nullable
    String whyNoJump(Rubric.Item item);

    /** The tags that {@link #whyNoJump} depends on. */
    ReadOnlyObjectProperty<TaggedLanes> laneProperty();
}
