package org.sideport.app.review;

import java.util.function.Consumer;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import org.jspecify.annotations.Nullable;
import org.sideport.app.picture.PictureDesk;
import org.sideport.model.PointEvent;
import org.sideport.model.Severity;
import org.sideport.workflow.TagSession;

/** An event while it is being written. */
final class EventWriting {

    private final PictureDesk desk;
    private final Consumer<Consumer<TagSession>> edit;
    private final ReadOnlyObjectWrapper<@Nullable EventDraft> draft = new ReadOnlyObjectWrapper<>(null);

    EventWriting(PictureDesk desk, Consumer<Consumer<TagSession>> edit) {
        this.desk = desk;
        this.edit = edit;
    }

    ReadOnlyObjectProperty<@Nullable EventDraft> draftProperty() {
        return draft.getReadOnlyProperty();
    }

    void begin() {
        desk.pause();
        desk.stamp(frame -> draft.set(new EventDraft(frame.start(), null)));
    }

    void change(PointEvent event) {
        draft.set(new EventDraft(event.at(), event));
    }

    void cancel() {
        draft.set(null);
    }

    void save(String kind, @Nullable Severity severity, String note) {
        EventDraft written = draft.get();
        if (written == null) {
            return;
        }
        draft.set(null);
        PointEvent event = new PointEvent(kind, written.at(), severity, note.strip());
        PointEvent old = written.replaces();
        edit.accept(session -> {
            if (old == null) {
                session.addEvent(event);
            } else {
                session.replaceEvent(old, event);
            }
        });
    }
}
