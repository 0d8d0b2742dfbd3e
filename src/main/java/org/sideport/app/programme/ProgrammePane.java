package org.sideport.app.programme;

import javafx.scene.Node;
import org.jspecify.annotations.Nullable;
import org.sideport.workflow.access.Permission;

/** One part of the programme's screen, under a tab of its own. */
public interface ProgrammePane {

    /** Id of its tab. */
    String id();

    String title();

    /** What one must be allowed to be offered it; {@code null} for everybody. */
    default @Nullable Permission needs() {
        return null;
    }

    Node node();

    /** Called each time that the part comes up. */
    default void shown() {
        // nothing to bring up to date
    }
}
