package org.sideport.app.frame;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.StringJoiner;
import java.util.function.Consumer;
import java.util.function.Supplier;
import javafx.animation.Animation;
import javafx.animation.KeyFrame;
import javafx.animation.Timeline;
import javafx.beans.InvalidationListener;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.TextInputControl;
import javafx.scene.input.InputEvent;
import javafx.scene.input.KeyEvent;
import javafx.scene.input.MouseEvent;
import javafx.util.Duration;
import org.jspecify.annotations.Nullable;
import org.sideport.app.CurrentCase;
import org.sideport.app.Settings;
import org.sideport.app.comment.CommentDraft;
import org.sideport.app.comment.CommentsViewModel;
import org.sideport.app.picture.PictureDesk;
import org.sideport.app.timeline.Lane;
import org.sideport.app.timeline.TimeScale;
import org.sideport.app.timeline.TimelineView;
import org.sideport.model.CommentThread;
import org.sideport.model.MediaTime;

/** Writes down where the user is as it changes, and goes back there after the program was killed. */
final class PlaceKeeper {

    private static final String COMMENT = "comment-text";
    private static final Duration LOOK = Duration.millis(100);

    /** Long enough for a recording on a slow drive; then it stays where it is. */
    private static final int LOOKS = 600;

    /** So many looks are waited for the comments, before one that is not there is taken for a new one. */
    private static final int COMMENTS_ARE_READ = 30;

    private final Settings file;
    private final CurrentCase current;
    private final PictureDesk desk;
    private final TimelineView lane;
    private final CommentsViewModel comments;
    private final Scene scene;
    private final Supplier<String> screen;
    private final InvalidationListener noting = changed -> note();
    /** Nothing is written before it is known where to begin, nor on the way back. */
    private boolean returning = true;

    private @Nullable TextInputControl typing;

    PlaceKeeper(
            Settings file,
            CurrentCase current,
            PictureDesk desk,
            TimelineView lane,
            CommentsViewModel comments,
            Scene scene,
            Supplier<String> screen) {
        this.file = file;
        this.current = current;
        this.desk = desk;
        this.lane = lane;
        this.comments = comments;
        this.scene = scene;
        this.screen = screen;
        current.openedProperty().addListener(noting);
        desk.timeProperty().addListener(noting);
        lane.selectionProperty().addListener(noting);
        lane.scaleProperty().addListener(noting);
        scene.focusOwnerProperty().addListener((property, old, now) -> focus(now));
    }

    private void focus(@Nullable Node now) {
        if (typing != null) {
            typing.textProperty().removeListener(noting);
        }
        typing = now instanceof TextInputControl field && field.getId() != null ? field : null;
        if (typing != null) {
            typing.textProperty().addListener(noting);
        }
        note();
    }

    /** From now on it is written down where the user is. */
    void begin() {
        returning = false;
        note();
    }

    /** Writes down where the user is now; the file follows within a second. */
    void note() {
        if (!returning) {
            here().put(file);
        }
    }

    private Place here() {
        CurrentCase.Opened open = current.opened();
        TimeScale scale = lane.scaleProperty().get();
        boolean whole = scale.isWhole();
        return new Place(
                screen.get(),
                open == null ? "" : open.code(),
                desk.timeProperty().get().micros(),
                selected(),
                whole ? 0 : Math.round(scale.startUs()),
                whole ? 0 : Math.round(scale.endUs()),
                draft());
    }

    private Place.Draft draft() {
        TextInputControl field = typing;
        if (field == null) {
            return Place.Draft.NONE;
        }
        CommentDraft writing =
                field.getId().equals(COMMENT) ? comments.draftProperty().get() : null;
        return new Place.Draft(
                field.getId(),
                field.getText() == null ? "" : field.getText(),
                field.getCaretPosition(),
                writing == null ? 0 : writing.from().micros(),
                writing == null ? "" : writing.id());
    }

    private String selected() {
        StringJoiner names = new StringJoiner(" ");
        Set<Object> keys = lane.selectionProperty().get();
        each((name, key) -> {
            if (keys.contains(key)) {
                names.add(name);
            }
        });
        return names.toString();
    }

    private interface Item {
        void item(String name, Object key);
    }

    private void each(Item use) {
        for (Lane one : lane.modelProperty().get().lanes()) {
            if (one instanceof Lane.Spans spans) {
                spans.spans().forEach(span -> use.item(one.id() + "@" + span.startUs(), span.key()));
            } else if (one instanceof Lane.Points points) {
                points.points().forEach(point -> use.item(one.id() + "@" + point.atUs(), point.key()));
            }
        }
    }

    // ---- going back

    /**
     * Goes back to where the user was when the program was killed; whatever the user does meanwhile ends it.
     *
     * @param go opens a case on a screen
     * @param there is told once all is as it was
     */
    void goBack(Place place, Consumer<Place> go, Runnable there) {
        returning = true;
        go.accept(place);
        Return going = new Return(place, there);
        going.start();
    }

    private final class Return {

        private final Place place;
        private final Runnable there;
        private final Timeline clock = new Timeline(new KeyFrame(LOOK, event -> look()));
        private final javafx.event.EventHandler<InputEvent> stop = event -> end(false);
        private boolean sought;
        private boolean selected;
        private boolean typed;
        private boolean asked;
        private int looks;

        Return(Place place, Runnable there) {
            this.place = place;
            this.there = there;
            clock.setCycleCount(Animation.INDEFINITE);
        }

        void start() {
            scene.addEventFilter(KeyEvent.KEY_PRESSED, stop);
            scene.addEventFilter(MouseEvent.MOUSE_PRESSED, stop);
            clock.play();
        }

        private void look() {
            CurrentCase.Opened open = current.opened();
            boolean loaded =
                    place.code().isEmpty() || (open != null && open.code().equals(place.code()));
            if (loaded) {
                sought = sought || seek(open);
                selected = selected || select();
                typed = typed || (sought && type());
            }
            boolean given =
                    ++looks >= LOOKS || (!loaded && !current.loadingProperty().get() && looks > 20);
            if (sought && selected && typed) {
                end(true);
            } else if (given) {
                end(false);
            }
        }

        private boolean seek(CurrentCase.@Nullable Opened open) {
            if (open == null || open.recording() == null) {
                return true;
            }
            if (!desk.isReady() || desk.shownProperty().get() == null) {
                return false;
            }
            if (place.toUs() > place.fromUs()) {
                lane.show(place.fromUs(), place.toUs());
            }
            desk.seek(MediaTime.ofMicros(place.timeUs()));
            return true;
        }

        private boolean select() {
            Set<String> wanted = new LinkedHashSet<>(List.of(place.selected().split(" ")));
            wanted.remove("");
            Set<Object> keys = new LinkedHashSet<>();
            each((name, key) -> {
                if (wanted.contains(name)) {
                    keys.add(key);
                }
            });
            if (keys.isEmpty() && !wanted.isEmpty()) {
                return false;
            }
            if (!keys.isEmpty()) {
                lane.selectionProperty().set(keys);
            }
            return true;
        }

        /** Puts the text back into its field once that is there; a comment's field comes with its comment. */
        private boolean type() {
            Place.Draft draft = place.draft();
            if (draft.field().isEmpty()) {
                return true;
            }
            if (draft.field().equals(COMMENT) && comments.draftProperty().get() == null) {
                openComment(draft);
                return false;
            }
            if (!(scene.lookup("#" + draft.field()) instanceof TextInputControl field) || field.isDisabled()) {
                return false;
            }
            field.requestFocus();
            if (!draft.text().equals(field.getText())) {
                field.setText(draft.text());
            }
            field.positionCaret(Math.min(draft.caret(), draft.text().length()));
            return true;
        }

        private void openComment(Place.Draft draft) {
            for (CommentThread thread : comments.shown()) {
                if (thread.comment().id().equals(draft.item())) {
                    comments.change(thread.comment());
                    return;
                }
            }
            if (asked || (!draft.item().isEmpty() && looks < COMMENTS_ARE_READ)) {
                return;
            }
            if (comments.whyNot().isEmpty() && desk.timeProperty().get().micros() == draft.atUs()) {
                asked = true;
                comments.begin();
            } else {
                desk.seek(MediaTime.ofMicros(draft.atUs()));
            }
        }

        private void end(boolean all) {
            if (!returning) {
                return;
            }
            clock.stop();
            scene.removeEventFilter(KeyEvent.KEY_PRESSED, stop);
            scene.removeEventFilter(MouseEvent.MOUSE_PRESSED, stop);
            returning = false;
            note();
            if (all) {
                there.run();
            }
        }
    }
}
