package org.sideport.app.frame;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import org.sideport.model.MediaTime;

/** How screens send the user to one another. */
public interface Navigator {

    void toCases();

    /** @param code the case to watch and tag */
    void toReview(String code);

    /**
     * @param code the case to watch and tag
     * @param at where in its recording; {@code null} for its start
     */
    void toReview(String code, @Nullable MediaTime at);

    /** As {@link #toReview(String, MediaTime)}, with the comments beside the picture. */
    void toComments(String code, MediaTime at);

    /** To the programme, for those who may see it; else to the cases. */
    void toProgramme();

    /** @param code the case to mark */
    void toMarking(String code);

    /** Ends the session; the window asks who comes next. */
    void signOut();

    /** Closes the workspace and opens another one in this window. */
    void toWorkspace(Path folder);

    /** The picture alone fills the window, or no longer. */
    void fullPicture(boolean alone);
}
