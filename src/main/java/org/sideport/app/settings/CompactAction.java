package org.sideport.app.settings;

import java.util.Optional;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import org.jspecify.annotations.Nullable;

/** What watching and tagging mostly consists of, on the keys of one hand and on the three of a foot pedal. */
public enum CompactAction {
    PLAY_OR_PAUSE(KeyCode.NUMPAD5, KeyCode.D, 1),
    BACK_TWO(KeyCode.NUMPAD4, KeyCode.S, 0),
    FORWARD_TWO(KeyCode.NUMPAD6, KeyCode.F, -1),
    FRAME_BACK(KeyCode.NUMPAD1, KeyCode.X, -1),
    FRAME_ON(KeyCode.NUMPAD3, KeyCode.V, -1),
    PREVIOUS_BOUNDARY(KeyCode.NUMPAD7, KeyCode.W, -1),
    NEXT_BOUNDARY(KeyCode.NUMPAD9, KeyCode.R, -1),
    NEXT_PHASE(KeyCode.NUMPAD8, KeyCode.E, 2),
    END_PHASE(KeyCode.NUMPAD2, KeyCode.C, -1),
    EVENT(KeyCode.NUMPAD0, KeyCode.A, -1);

    private final KeyCode right;
    private final KeyCode left;
    private final int pedal;

    CompactAction(KeyCode right, KeyCode left, int pedal) {
        this.right = right;
        this.left = left;
        this.pedal = pedal;
    }

    /** Key of the text that says what it does. */
    public String textKey() {
        return "compact." + name();
    }

    /** Which of the pedal's three it is on, 0 to 2; negative for none. */
    public int pedal() {
        return pedal;
    }

    /** Its key in a layout; {@code null} in the standard one. */
    public @Nullable KeyCode key(KeyLayout layout) {
        return switch (layout) {
            case STANDARD -> null;
            case RIGHT_HAND -> right;
            case LEFT_HAND -> left;
        };
    }

    /** What a key without Ctrl, Alt or Shift does, by the pedal's keys first. */
    public static Optional<CompactAction> of(KeyEvent event, KeyLayout layout, PedalKeys pedals) {
        if (event.isShortcutDown() || event.isAltDown() || event.isShiftDown() || event.isMetaDown()) {
            return Optional.empty();
        }
        for (CompactAction action : values()) {
            if (action.pedal >= 0 && pedals.key(action.pedal) == event.getCode()) {
                return Optional.of(action);
            }
        }
        for (CompactAction action : values()) {
            if (action.key(layout) == event.getCode()) {
                return Optional.of(action);
            }
        }
        return Optional.empty();
    }
}
