package org.sideport.app.marking;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Notices;
import org.sideport.store.DatabaseAwayException;
import org.sideport.workflow.MarkSession;

/** The rating that is being written: each change goes to the store in its turn, and what is stored is what shows. */
final class OpenDraft {

    private final Background work;
    private final Notices notices;
    private final ReadOnlyObjectWrapper<@Nullable Marks> marks = new ReadOnlyObjectWrapper<>(null);
    private final TypedWords typed = new TypedWords();
    /** Ids of items with a mark on its way to the store, once for each. */
    private final List<String> coming = new ArrayList<>();

    OpenDraft(Background work, Notices notices) {
        this.work = work;
        this.notices = notices;
    }

    void close() {
        typed.forget();
        marks.set(null);
    }

    void open(Marks opened) {
        marks.set(opened);
    }

    ReadOnlyObjectProperty<@Nullable Marks> marksProperty() {
        return marks.getReadOnlyProperty();
    }

    @Nullable
    Marks marks() {
        return marks.get();
    }

    boolean isComing(String item) {
        return coming.contains(item);
    }

    /** As {@link TypedWords#isNew}. */
    boolean isNew(String field, Object stored, Object now) {
        return typed.isNew(field, stored, now);
    }

    void forget(String field) {
        typed.forget(field);
    }

    /**
     * Writes a change; nothing while no rating is open.
     *
     * @param item id of the item that it marks; empty for none
     */
    void write(String item, Consumer<MarkSession> change) {
        Marks now = marks.get();
        if (now == null) {
            return;
        }
        MarkSession session = now.session();
        coming.add(item);
        work.run(
                progress -> {
                    try {
                        change.accept(session);
                        return new Edited(Marks.of(session), null);
                    } catch (DatabaseAwayException kept) {
                        return new Edited(Marks.of(session), kept);
                    }
                },
                edited -> {
                    coming.remove(item);
                    notices.clear();
                    Marks still = marks.get();
                    if (still != null && still.session() == session) {
                        marks.set(edited.marks());
                    }
                    if (edited.kept() != null) {
                        notices.failed(edited.kept());
                    }
                },
                failure -> {
                    coming.remove(item);
                    // what was typed did not arrive: leaving the field tries again
                    typed.forget();
                    notices.failed(failure);
                });
    }

    /** @param kept why it is on this computer only, or {@code null} */
    private record Edited(Marks marks, @Nullable DatabaseAwayException kept) {}
}
