package org.sideport.app;

import java.util.concurrent.Executor;
import javafx.application.Platform;

/** The JavaFX thread as an executor: the only way onto it from other threads. */
public final class FxThread implements Executor {

    /** Runs {@code work} on the JavaFX thread, later. */
    @Override
    public void execute(Runnable work) {
        Platform.runLater(work);
    }
}
