package org.sideport.app.bench;

import java.nio.file.Path;
import java.util.function.Supplier;
import javafx.stage.Stage;
import org.sideport.app.AppLauncher;
import org.sideport.app.NextPicture;
import org.sideport.store.Workspace;

/** Opens the program's window as {@code open} does, says so when it has been drawn, and ends. */
public final class FirstWindow {

    private FirstWindow() {}

    /**
     * Returns when the window has been drawn and closed; once in the life of a program.
     *
     * @param opening opens the workspace in {@code folder}
     * @param early is told when the window is there
     * @param filled is told when it shows the workspace's cases
     */
    public static void run(Path folder, Supplier<Workspace> opening, Runnable early, Runnable filled) {
        AppLauncher app = AppLauncher.begin();
        app.opening(folder, early);
        app.launch(opening.get(), stage -> whenDrawn(stage, filled));
    }

    /** Closes the window when it has been drawn. */
    static void whenDrawn(Stage stage, Runnable drawn) {
        NextPicture.surely(stage.getScene(), () -> {
            drawn.run();
            stage.close();
        });
    }
}
