package org.sideport.app.people;

import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BooleanSupplier;
import java.util.function.Function;
import java.util.function.Supplier;
import javafx.animation.Animation;
import javafx.animation.KeyFrame;
import javafx.animation.Timeline;
import javafx.collections.ListChangeListener;
import javafx.event.Event;
import javafx.event.EventHandler;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.TextInputControl;
import javafx.scene.input.InputEvent;
import javafx.scene.layout.StackPane;
import javafx.stage.Modality;
import javafx.stage.PopupWindow;
import javafx.stage.Stage;
import javafx.stage.Window;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Ui;

/**
 * Covers every window when nobody has touched the program for a time, until the same person signs in again. What is on the
 * screens stays as it was below, half-typed words too. Screen's thread only.
 */
public final class SessionCover implements AutoCloseable {

    private static final double LOOK_EVERY_S = 2;

    /** What was hidden, and where in it the keyboard was. */
    private record Hidden(Scene scene, @Nullable Node focus, int anchor, int caret) {

        static Hidden of(Scene scene) {
            Node focus = scene.getFocusOwner();
            Hidden kept = focus instanceof TextInputControl text
                    ? new Hidden(scene, focus, text.getAnchor(), text.getCaretPosition())
                    : new Hidden(scene, focus, 0, 0);
            scene.getRoot().setVisible(false);
            return kept;
        }

        void show() {
            scene.getRoot().setVisible(true);
            if (focus != null) {
                focus.requestFocus();
                if (focus instanceof TextInputControl text) {
                    // else all of it is selected, and the next key would replace what was typed
                    text.selectRange(anchor, caret);
                }
            }
        }
    }

    private final Stage main;
    private final Clock clock;
    private final Supplier<Duration> patience;
    private final BooleanSupplier inUse;
    private final Runnable before;
    private final Function<Runnable, SignInPane> asking;
    private final java.util.function.Consumer<Scene> dress;
    private final EventHandler<InputEvent> touched = event -> touch();
    private final EventHandler<Event> nothing = Event::consume;
    private final ListChangeListener<Window> windows = this::windowsChanged;
    private final Timeline looking;
    private final List<Hidden> hidden = new ArrayList<>();
    private final List<Window> watched = new ArrayList<>();
    private long last;
    private @Nullable Stage cover;

    /**
     * @param patience how long nobody may touch it
     * @param inUse true while something shows that somebody is there, such as a recording that runs
     * @param before what to stop when it is covered
     * @param asking makes what asks for the password, given what uncovers
     */
    public SessionCover(
            Stage main,
            Clock clock,
            Supplier<Duration> patience,
            BooleanSupplier inUse,
            Runnable before,
            Function<Runnable, SignInPane> asking,
            java.util.function.Consumer<Scene> dress) {
        this.main = main;
        this.clock = clock;
        this.patience = patience;
        this.inUse = inUse;
        this.before = before;
        this.asking = asking;
        this.dress = dress;
        last = clock.millis();
        looking = new Timeline(new KeyFrame(javafx.util.Duration.seconds(LOOK_EVERY_S), event -> look()));
        looking.setCycleCount(Animation.INDEFINITE);
        looking.play();
        Window.getWindows().forEach(this::watch);
        Window.getWindows().addListener(windows);
    }

    private void windowsChanged(ListChangeListener.Change<? extends Window> change) {
        while (change.next()) {
            change.getAddedSubList().forEach(this::watch);
        }
    }

    private void watch(Window window) {
        window.addEventFilter(InputEvent.ANY, touched);
        watched.add(window);
        watched.removeIf(old -> !old.isShowing() && old != window);
        if (cover != null && window != cover && cover.isShowing()) {
            hide(window);
        }
    }

    private void touch() {
        if (cover == null) {
            // a time that has run out while the machine slept is not begun anew by the hand that woke it
            if (clock.millis() - last > patience.get().toMillis() && !inUse.getAsBoolean()) {
                cover();
            } else {
                last = clock.millis();
            }
        }
    }

    /** Covers if it is time. */
    void look() {
        if (inUse.getAsBoolean()) {
            last = clock.millis();
        } else if (cover == null && clock.millis() - last > patience.get().toMillis()) {
            cover();
        }
    }

    public boolean isCovered() {
        return cover != null;
    }

    /** Covers now. */
    public void cover() {
        if (cover != null) {
            return;
        }
        before.run();
        List<Window> open = List.copyOf(Window.getWindows());
        open.forEach(this::hide);
        Stage asks = new Stage();
        cover = asks;
        asks.initModality(Modality.APPLICATION_MODAL);
        asks.initOwner(main);
        asks.setTitle(main.getTitle());
        asks.setResizable(false);
        SignInPane pane = asking.apply(this::uncover);
        Scene scene = new Scene(Ui.styled(new StackPane(pane), "veil"));
        dress.accept(scene);
        asks.setScene(scene);
        asks.setOnCloseRequest(Event::consume);
        asks.setOnShown(event -> pane.takeFocus());
        asks.show();
    }

    private void hide(Window window) {
        if (window instanceof PopupWindow popup) {
            popup.hide();
            return;
        }
        Scene scene = window.getScene();
        if (scene != null && scene.getRoot().isVisible()) {
            hidden.add(Hidden.of(scene));
        }
        window.addEventFilter(InputEvent.ANY, nothing);
    }

    private void uncover() {
        Window.getWindows().forEach(window -> window.removeEventFilter(InputEvent.ANY, nothing));
        Stage asks = cover;
        cover = null;
        last = clock.millis();
        if (asks != null) {
            asks.close();
        }
        hidden.forEach(Hidden::show);
        hidden.clear();
    }

    /** Takes the cover away with all that belongs to it: the session is over. */
    @Override
    public void close() {
        looking.stop();
        Window.getWindows().removeListener(windows);
        watched.forEach(window -> window.removeEventFilter(InputEvent.ANY, touched));
        watched.clear();
        uncover();
    }
}
