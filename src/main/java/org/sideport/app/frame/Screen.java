package org.sideport.app.frame;

import javafx.scene.Node;
import javafx.scene.input.KeyEvent;

/** One of the window's screens. */
public interface Screen {

    Node node();

    /** Called each time that the screen comes up. */
    default void shown() {
        // nothing to bring up to date
    }

    /** Takes the keyboard away from a text field, so that the screen's keys work again. */
    default void takeFocus() {
        node().requestFocus();
    }

    /**
     * A key that was pressed while no text was being typed.
     *
     * @return true if it meant something here
     */
    default boolean handle(KeyEvent event) {
        return false;
    }

    /** True while the picture alone fills the window. */
    default boolean isFullPicture() {
        return false;
    }
}
