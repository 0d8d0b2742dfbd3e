package org.sideport.app.picture;

import java.util.List;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleObjectProperty;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Notices;

/** What the person wants played: everything, one stretch again and again, or only what is marked. */
public final class PlayOptions {

    private final Notices notices;
    private final ObjectProperty<PlayPlan.@Nullable Stretch> chosen = new SimpleObjectProperty<>(null);
    private final ObjectProperty<List<PlayPlan.Stretch>> marked = new SimpleObjectProperty<>(List.of());
    private final BooleanProperty loop = new SimpleBooleanProperty(false);
    private final BooleanProperty markedOnly = new SimpleBooleanProperty(false);

    PlayOptions(Notices notices) {
        this.notices = notices;
        chosen.addListener((property, old, now) -> {
            if (now == null) {
                loop.set(false);
            }
        });
        marked.addListener((property, old, now) -> {
            if (now.isEmpty()) {
                markedOnly.set(false);
            }
        });
    }

    /** The stretch that {@link #loopProperty()} goes round in; {@code null} while none is selected. */
    public ObjectProperty<PlayPlan.@Nullable Stretch> chosenProperty() {
        return chosen;
    }

    /** The stretches that {@link #markedOnlyProperty()} plays, in the order of time and apart from one another. */
    public ObjectProperty<List<PlayPlan.Stretch>> markedProperty() {
        return marked;
    }

    /** True to play the chosen stretch again and again. False as soon as none is chosen. */
    public BooleanProperty loopProperty() {
        return loop;
    }

    /** True to jump over what is not marked. False as soon as nothing is. */
    public BooleanProperty markedOnlyProperty() {
        return markedOnly;
    }

    /** Says why not where nothing is chosen. */
    public void toggleLoop() {
        if (chosen.get() == null) {
            notices.hintOf("transport.why.noPhase");
        } else {
            loop.set(!loop.get());
        }
    }

    /** Says why not where nothing is marked. */
    public void toggleMarkedOnly() {
        if (marked.get().isEmpty()) {
            notices.hintOf("transport.why.noPhases");
        } else {
            markedOnly.set(!markedOnly.get());
        }
    }

    PlayPlan plan() {
        return new PlayPlan(loop.get() ? chosen.get() : null, markedOnly.get() ? marked.get() : null);
    }

    void clear() {
        chosen.set(null);
        marked.set(List.of());
    }
}
