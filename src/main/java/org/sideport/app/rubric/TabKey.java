package org.sideport.app.rubric;

import javafx.event.Event;
import javafx.scene.Node;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;

/** Lets the tab key leave a text of several lines, where it would otherwise be written. */
final class TabKey {

    private TabKey() {}

    /** Does what the tab key with Control does: goes on, or back. */
    static void go(Node from, boolean back) {
        Event.fireEvent(from, new KeyEvent(KeyEvent.KEY_PRESSED, "", "", KeyCode.TAB, back, true, false, false));
    }
}
