package org.sideport.app.frame;

/** How screens send the user to one another. */
public interface Navigator {

    void toCases();

    /** @param code the case to watch and tag */
    void toReview(String code);

    /** @param code the case to mark */
    void toMarking(String code);

    /** The picture alone fills the window, or no longer. */
    void fullPicture(boolean alone);
}
