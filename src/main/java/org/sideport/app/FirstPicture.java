package org.sideport.app;

import javafx.application.Platform;
import javafx.scene.Scene;

/** When a scene has been drawn for the first time. */
public final class FirstPicture {

    private static final int DRAWN = 2;

    private FirstPicture() {}

    /** @param then is called once, on the screen's thread, when the scene's first picture is on the screen */
    public static void of(Scene scene, Runnable then) {
        FxThread screen = new FxThread();
        scene.addPostLayoutPulseListener(new Runnable() {
            private int pulses;

            @Override
            public void run() {
                // the second layout comes after the first picture
                if (++pulses == DRAWN) {
                    scene.removePostLayoutPulseListener(this);
                    // not within the layout
                    screen.execute(then);
                } else {
                    Platform.requestNextPulse();
                }
            }
        });
    }
}
