package org.sideport.app.review;

import javafx.beans.property.IntegerProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.SimpleIntegerProperty;
import javafx.beans.property.SimpleObjectProperty;
import org.sideport.app.Settings;
import org.sideport.model.TaggingStyle;
import org.sideport.workflow.TagSession;

/** How a person likes to tag; kept in the settings. */
public final class TagHabits {

    /** The longest reaction that is allowed for, milliseconds. */
    public static final int LONGEST_REACTION = 1500;

    private static final String REACTION = "reaction-ms";
    private static final String STYLE = "tagging-style";

    private final boolean annotatorFixed;
    private final IntegerProperty reaction;
    private final ObjectProperty<TaggingStyle> style;

    public TagHabits(Settings settings) {
        annotatorFixed = settings.isFixed(ReviewViewModel.ANNOTATOR_SETTING);
        reaction = new SimpleIntegerProperty(held((int) settings.get(REACTION, 0.0)));
        style = new SimpleObjectProperty<>(
                TaggingStyle.STARTS_ONLY.id().equals(settings.get(STYLE, ""))
                        ? TaggingStyle.STARTS_ONLY
                        : TaggingStyle.START_AND_END);
        reaction.addListener((property, old, now) -> {
            reaction.set(held(now.intValue()));
            settings.put(REACTION, reaction.get());
        });
        style.addListener((property, old, now) -> settings.put(STYLE, now.id()));
    }

    private static int held(int millis) {
        return Math.max(0, Math.min(LONGEST_REACTION, millis));
    }

    /** Milliseconds of real time between seeing and pressing a key, 0 to {@link #LONGEST_REACTION}; at first 0. */
    public IntegerProperty reactionProperty() {
        return reaction;
    }

    /** True if who signed in tags under the own code, which is not to be changed. */
    public boolean isAnnotatorFixed() {
        return annotatorFixed;
    }

    /** How a new tagging is begun. */
    public ObjectProperty<TaggingStyle> styleProperty() {
        return style;
    }

    /** A tagging that is not begun yet is begun in the person's style. */
    TagSession begun(TagSession session) {
        if (session.tagging().isEmpty()) {
            session.setStyle(style.get());
        }
        return session;
    }

    /** How much of the recording runs by at this rate until the key is pressed, microseconds. */
    public long reactionUs(double rate) {
        return Math.round(reaction.get() * 1000.0 * rate);
    }
}
