package org.sideport.app;

import atlantafx.base.theme.PrimerDark;
import java.nio.file.Path;
import java.util.concurrent.CompletableFuture;
import java.util.function.Consumer;
import javafx.application.Application;
import javafx.application.Platform;
import javafx.collections.ListChangeListener;
import javafx.stage.Stage;
import javafx.stage.Window;
import org.sideport.store.Workspace;

/** Starts JavaFX, and the program in it; at most once in a program's life. */
public final class AppLauncher {

    private final CompletableFuture<Boolean> ready = new CompletableFuture<>();
    private final CompletableFuture<Boolean> ended = new CompletableFuture<>();
    private final FxThread screen = new FxThread();
    private final CompletableFuture<SideportApp> app = new CompletableFuture<>();

    private AppLauncher() {}

    /** Begins to start JavaFX and returns at once, so that the workspace can be opened meanwhile. */
    public static AppLauncher begin() {
        AppLauncher launcher = new AppLauncher();
        Platform.setImplicitExit(false);
        Thread starting = new Thread(launcher::startToolkit, "sideport-toolkit");
        starting.setDaemon(true);
        starting.start();
        return launcher;
    }

    private void startToolkit() {
        try {
            // logging begins here too, beside the store
            app.complete(new SideportApp());
            // the rules of the usual theme are read while there is nothing else to do
            Platform.startup(() -> {
                Application.setUserAgentStylesheet(new PrimerDark().getUserAgentStylesheet());
                ready.complete(true);
            });
        } catch (RuntimeException | LinkageError failure) {
            app.completeExceptionally(failure);
            ready.completeExceptionally(failure);
        }
    }

    /** Opens the window on a workspace and returns when all windows are closed; so is the workspace then. */
    public void launch(Workspace workspace) {
        launch(workspace, stage -> {});
    }

    /** As {@link #launch(Workspace)}, on a folder; a shared database is signed in to in the window. */
    public void launch(Path folder) {
        show(stage -> app.join().start(stage, folder));
    }

    /** @param started gets the window on the screen's thread, once it has been told to show itself */
    public void launch(Workspace workspace, Consumer<Stage> started) {
        show(stage -> {
            app.join().start(stage, workspace);
            started.accept(stage);
        });
    }

    private void show(Consumer<Stage> start) {
        ready.join();
        screen.execute(() -> {
            try {
                Stage stage = new Stage();
                start.accept(stage);
                endWithTheLastWindow();
            } catch (RuntimeException | LinkageError failure) {
                app.join().stop();
                ended.completeExceptionally(failure);
            }
        });
        try {
            ended.join();
        } finally {
            Platform.exit();
        }
    }

    private void endWithTheLastWindow() {
        Window.getWindows().addListener((ListChangeListener<Window>) change -> screen.execute(() -> {
            if (Window.getWindows().isEmpty() && !ended.isDone()) {
                app.join().stop();
                ended.complete(true);
            }
        }));
    }
}
