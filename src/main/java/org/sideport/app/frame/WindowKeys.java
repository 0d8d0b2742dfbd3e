package org.sideport.app.frame;

import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import java.util.function.BooleanSupplier;
import java.util.function.Predicate;
import java.util.function.Supplier;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.ButtonBase;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import org.sideport.app.Shortcut;

/**
 * What a key means, wherever in the window it is pressed: the window's own keys first, then what lies over the screen, then
 * the text that is being typed, and only then the screen.
 */
final class WindowKeys {

    /**
     * Something that lies over the screen and goes by Esc.
     *
     * @param isShown whether it is there now
     * @param coversAll true if no key goes past it
     */
    record Over(BooleanSupplier isShown, Runnable hide, boolean coversAll) {}

    private final Map<Shortcut, Runnable> own;
    private final Iterable<Over> overs;
    private final Supplier<Scene> scene;
    private final Supplier<Screen> screen;
    private final Runnable leaveFullPicture;
    private final Predicate<KeyEvent> rest;

    /**
     * @param own what each of the window's keys does
     * @param overs topmost first
     * @param leaveFullPicture from the picture alone back to the screen
     * @param rest the screen's keys; true if one meant something
     * @throws IllegalArgumentException if a key of the window does nothing
     */
    WindowKeys(
            Map<Shortcut, Runnable> own,
            Iterable<Over> overs,
            Supplier<Scene> scene,
            Supplier<Screen> screen,
            Runnable leaveFullPicture,
            Predicate<KeyEvent> rest) {
        Set<Shortcut> without = EnumSet.allOf(Shortcut.class);
        without.removeIf(key -> key.scope() != Shortcut.Scope.WINDOW || own.containsKey(key));
        if (!without.isEmpty()) {
            throw new IllegalArgumentException("window keys that do nothing: " + without);
        }
        this.own = Map.copyOf(own);
        this.overs = overs;
        this.scene = scene;
        this.screen = screen;
        this.leaveFullPicture = leaveFullPicture;
        this.rest = rest;
    }

    void pressed(KeyEvent event) {
        Runnable action =
                Shortcut.of(event, Shortcut.Scope.WINDOW).map(own::get).orElse(null);
        if (action != null) {
            action.run();
            event.consume();
            return;
        }
        boolean escapes = event.getCode() == KeyCode.ESCAPE;
        for (Over over : overs) {
            if (over.isShown().getAsBoolean()) {
                if (escapes) {
                    over.hide().run();
                    event.consume();
                }
                if (escapes || over.coversAll()) {
                    return;
                }
            }
        }
        if (escapes && screen.get().isFullPicture()) {
            leaveFullPicture.run();
            event.consume();
            return;
        }
        Node focus = scene.get().getFocusOwner();
        if (ControlWalk.isTypedInto(focus)) {
            if (escapes) {
                screen.get().takeFocus();
                event.consume();
            }
            return;
        }
        boolean presses =
                focus instanceof ButtonBase && (event.getCode() == KeyCode.SPACE || event.getCode() == KeyCode.ENTER);
        if (!presses && rest.test(event)) {
            event.consume();
        }
    }
}
