package org.sideport.app.comment;

import java.util.List;
import javafx.beans.Observable;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.picture.PictureDesk;
import org.sideport.model.Comment;
import org.sideport.model.CommentThread;
import org.sideport.model.DrawnMark;

/** What of the comments, and of the one that is being written, belongs on the picture of this moment. */
final class OnPicture {

    /** How long a moment's drawing stays on the moving picture, microseconds. */
    static final long HOLD_US = 2_000_000;

    private final PictureDesk desk;
    private final ObservableList<CommentThread> all;
    private final ReadOnlyObjectProperty<@Nullable CommentDraft> draft;
    private final BooleanProperty wanted = new SimpleBooleanProperty(true);
    private final ReadOnlyObjectWrapper<List<Comment>> visible = new ReadOnlyObjectWrapper<>(List.of());
    private final ReadOnlyObjectWrapper<List<DrawnMark>> drawn = new ReadOnlyObjectWrapper<>(List.of());

    OnPicture(
            PictureDesk desk, ObservableList<CommentThread> all, ReadOnlyObjectProperty<@Nullable CommentDraft> draft) {
        this.desk = desk;
        this.all = all;
        this.draft = draft;
        for (Observable cause : new Observable[] {wanted, desk.timeProperty(), desk.playingProperty(), draft, all}) {
            cause.addListener(changed -> follow());
        }
        follow();
    }

    /** Whether comments are shown on the picture at their time. */
    BooleanProperty wantedProperty() {
        return wanted;
    }

    /** Comments to be shown now; not the one that is being written. */
    ReadOnlyObjectProperty<List<Comment>> visibleProperty() {
        return visible.getReadOnlyProperty();
    }

    /** What is drawn already in the comment that is being written: on its own frame, empty on every other. */
    ReadOnlyObjectProperty<List<DrawnMark>> drawnProperty() {
        return drawn.getReadOnlyProperty();
    }

    /** Whether the comment that is being written belongs to the frame that stands on the screen. */
    boolean isOnFrameOfDraft() {
        CommentDraft writing = draft.get();
        return writing != null
                && !desk.playingProperty().get()
                && writing.from().equals(desk.timeProperty().get());
    }

    private void follow() {
        CommentDraft writing = draft.get();
        long hold = desk.playingProperty().get() ? HOLD_US : 0;
        visible.set(
                wanted.get()
                        ? all.stream()
                                .map(CommentThread::comment)
                                .filter(c -> c.isAt(desk.timeProperty().get(), hold))
                                .filter(c -> writing == null || !c.id().equals(writing.id()))
                                .toList()
                        : List.of());
        drawn.set(writing != null && isOnFrameOfDraft() ? writing.drawing() : List.of());
    }
}
