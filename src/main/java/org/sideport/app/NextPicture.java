package org.sideport.app;

import javafx.application.Platform;
import javafx.scene.Scene;

/** When a scene has been drawn with what is in it now. */
public final class NextPicture {

    /** The second layout comes after the first picture was begun. */
    private static final int BEGUN = 2;

    /** By then a picture was begun, drawn and handed over, since each layout that changes something waits for the last. */
    private static final int SURE = 4;

    private NextPicture() {}

    /** @param then is called once, on the screen's thread, when the scene's next picture is on its way to the screen */
    public static void of(Scene scene, Runnable then) {
        after(scene, BEGUN, then);
    }

    /** As {@link #of}, but when the picture is on the screen for sure; the scene is drawn some times more for it. */
    public static void surely(Scene scene, Runnable then) {
        after(scene, SURE, then);
    }

    private static void after(Scene scene, int layouts, Runnable then) {
        FxThread screen = new FxThread();
        scene.addPostLayoutPulseListener(new Runnable() {
            private int pulses;

            @Override
            public void run() {
                if (++pulses == layouts) {
                    scene.removePostLayoutPulseListener(this);
                    // not within the layout
                    screen.execute(then);
                    return;
                }
                if (layouts == SURE) {
                    // too little to be seen, enough to be drawn again
                    scene.getRoot().setTranslateX(pulses * 1e-6);
                }
                Platform.requestNextPulse();
            }
        });
        Platform.requestNextPulse();
    }
}
