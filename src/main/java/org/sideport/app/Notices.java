package org.sideport.app;

import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;

/**
 * The notices that the window shows, newest first. Problems wait until somebody takes them off; of hints and good news
 * only the newest is there. Screen's thread only.
 */
public final class Notices {

    private final Texts texts;
    private final ObservableList<Notice> all = FXCollections.observableArrayList();
    private final ReadOnlyObjectWrapper<@Nullable Notice> current = new ReadOnlyObjectWrapper<>(null);

    public Notices(Texts texts) {
        this.texts = texts;
    }

    /** The newest notice. */
    public ReadOnlyObjectProperty<@Nullable Notice> currentProperty() {
        return current.getReadOnlyProperty();
    }

    /** All that wait, newest first. */
    public ObservableList<Notice> all() {
        return all;
    }

    public void show(Notice notice) {
        all.removeIf(old -> old.tone() != Notice.Tone.PROBLEM || old.text().equals(notice.text()));
        all.add(0, notice);
        current.set(notice);
    }

    /** Shows a failure, unless it is a cancellation. */
    public void failed(Throwable failure) {
        Notice notice = Notice.of(failure, texts);
        if (notice != null) {
            show(notice);
        }
    }

    /** Says why something cannot be done now. */
    public void hint(String why) {
        show(new Notice(Notice.Tone.HINT, why, null, null));
    }

    /** As {@link #hint}, with the words of a key. */
    public void hintOf(String key) {
        hint(texts.get(key));
    }

    /** The player gave up on a file whose exact frames can still be had. */
    public void playerFailed() {
        show(new Notice(Notice.Tone.PROBLEM, texts.get("notice.player"), null, texts.get("notice.player.remedy")));
    }

    /** Takes one off. */
    public void dismiss(Notice notice) {
        all.removeIf(one -> one == notice);
        current.set(all.isEmpty() ? null : all.get(0));
    }

    /** Takes off hints and good news; problems stay. */
    public void clearPassing() {
        all.removeIf(one -> one.tone() != Notice.Tone.PROBLEM);
        current.set(all.isEmpty() ? null : all.get(0));
    }

    public void clear() {
        all.clear();
        current.set(null);
    }
}
