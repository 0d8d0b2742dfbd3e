package org.sideport.app.programme;

import javafx.scene.Node;

/** One part of the programme's screen, under a tab of its own. */
public interface ProgrammePane {

    /** Id of its tab. */
    String id();

    String title();

    Node node();

    /** Called each time that the part comes up. */
    default void shown() {
        // nothing to bring up to date
    }

    /** Takes the keyboard where work begins, if there is such a place; called when the part is to be seen. */
    default void takeFocus() {
        // the keyboard stays with the tabs
    }
}
