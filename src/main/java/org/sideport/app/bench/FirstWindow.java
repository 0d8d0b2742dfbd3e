package org.sideport.app.bench;

import java.util.function.Supplier;
import javafx.application.Platform;
import javafx.stage.Stage;
import org.sideport.app.AppLauncher;
import org.sideport.store.Workspace;

/** Opens the program's window as {@code open} does, says so when it has been drawn, and ends. */
public final class FirstWindow {

    private FirstWindow() {}

    /**
     * Returns when the window has been drawn and closed; once in the life of a program.
     *
     * @param opening opens the workspace
     * @param drawn is told when the window is there
     */
    public static void run(Supplier<Workspace> opening, Runnable drawn) {
        AppLauncher app = AppLauncher.begin();
        app.launch(opening.get(), stage -> whenDrawn(stage, drawn));
    }

    /** The second layout comes after the first picture is on the screen. Closes the window then. */
    static void whenDrawn(Stage stage, Runnable drawn) {
        stage.getScene().addPostLayoutPulseListener(new Runnable() {
            private int pulses;

            @Override
            public void run() {
                pulses++;
                if (pulses == 2) {
                    drawn.run();
                    stage.close();
                } else {
                    Platform.requestNextPulse();
                }
            }
        });
    }
}
