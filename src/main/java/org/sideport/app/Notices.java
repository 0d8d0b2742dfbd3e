package org.sideport.app;

import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import org.jspecify.annotations.Nullable;

/** The notice that the window shows; a newer one takes the place of an older one. */
public final class Notices {

    private final Texts texts;
    private final ReadOnlyObjectWrapper<@Nullable Notice> current = new ReadOnlyObjectWrapper<>(null);

    public Notices(Texts texts) {
        this.texts = texts;
    }

    public ReadOnlyObjectProperty<@Nullable Notice> currentProperty() {
        return current.getReadOnlyProperty();
    }

    public void show(Notice notice) {
        current.set(notice);
    }

    /** Shows a failure, unless it is a cancellation. */
    public void failed(Throwable failure) {
        Notice notice = Notice.of(failure, texts);
        if (notice != null) {
            current.set(notice);
        }
    }

    /** Says why something cannot be done now. */
    public void hint(String why) {
        current.set(new Notice(Notice.Tone.HINT, why, null, null));
    }

    /** As {@link #hint}, with the words of a key. */
    public void hintOf(String key) {
        hint(texts.get(key));
    }

    /** The player gave up on a file whose exact frames can still be had. */
    public void playerFailed() {
        current.set(
                new Notice(Notice.Tone.PROBLEM, texts.get("notice.player"), null, texts.get("notice.player.remedy")));
    }

    public void clear() {
        current.set(null);
    }
}
