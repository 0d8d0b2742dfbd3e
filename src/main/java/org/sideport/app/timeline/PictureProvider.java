package org.sideport.app.timeline;

import java.util.function.BiConsumer;
import javafx.scene.image.Image;

/** Makes the pictures of a filmstrip, in the background. Screen's thread only. */
public interface PictureProvider {

    /** Width to height of the pictures. */
    double aspect();

    /**
     * Asks for the picture at a time; {@code use} gets the time and the picture later, or never if it is not to be had.
     *
     * @param height wanted, pixels
     */
    void ask(long us, int height, BiConsumer<Long, Image> use);

    /** What was asked for and has not come is no longer wanted. */
    void forget();
}
