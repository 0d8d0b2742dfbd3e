package org.sideport.app;

import atlantafx.base.theme.PrimerDark;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import javafx.application.Application;
import javafx.application.Platform;
import javafx.collections.ListChangeListener;
import javafx.stage.Stage;
import javafx.stage.Window;
import org.jspecify.annotations.Nullable;
import org.sideport.app.frame.OpeningWindow;
import org.sideport.model.InputException;
import org.sideport.store.Workspace;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Starts JavaFX, and the program in it; at most once in a program's life. */
public final class AppLauncher {

    private static final Logger LOG = LoggerFactory.getLogger(AppLauncher.class);

    private static final long LONGEST_S = 2;

    private final CompletableFuture<Boolean> ready = new CompletableFuture<>();
    private final CompletableFuture<Boolean> ended = new CompletableFuture<>();
    private final FxThread screen = new FxThread();
    private final CompletableFuture<SideportApp> app = new CompletableFuture<>();

    /** The window before the workspace is there; on the screen's thread. */
    private @Nullable Stage early;

    /** Done when that window has been drawn, or there is none. */
    private final CompletableFuture<Boolean> drawn = new CompletableFuture<>();

    private boolean awaited;

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

    /** Shows the window as soon as JavaFX is there, saying that {@code folder} is being opened; returns at once. */
    public void opening(Path folder) {
        opening(folder, () -> {});
    }

    /** @param shown is told on the screen's thread when the window has been drawn */
    public void opening(Path folder, Runnable shown) {
        awaited = true;
        CompletableFuture<Void> unused = ready.thenRun(() -> screen.execute(() -> {
            try {
                Stage stage = new Stage();
                OpeningWindow.show(stage, folder, AppContext.settings(folder, ""));
                early = stage;
                NextPicture.surely(stage.getScene(), () -> {
                    shown.run();
                    drawn.complete(true);
                });
            } catch (RuntimeException failure) {
                // the window comes with its workspace then
                LOG.warn("no early window", failure);
                drawn.complete(false);
            }
        }));
    }

    /**
     * Says in the window why there is no workspace in it, and returns when all windows are closed.
     *
     * @return what was opened in its place, if anything
     */
    public Optional<Path> refused(Path folder, InputException why) {
        show(stage -> app.join().refuse(stage, folder, why), () -> {});
        AppContext opened = app.join().context();
        return opened == null ? Optional.empty() : Optional.of(opened.folder());
    }

    /** Opens the window on a workspace and returns when all windows are closed; so is the workspace then. */
    public void launch(Workspace workspace) {
        launch(workspace, stage -> {});
    }

    /** As {@link #launch(Workspace)}, on a folder; a shared database is signed in to in the window. */
    public void launch(Path folder) {
        show(stage -> app.join().start(stage, folder), () -> {});
    }

    /** @param shown gets the window on the screen's thread, once it has been told to show itself */
    public void launch(Workspace workspace, Consumer<Stage> shown) {
        show(
                stage -> {
                    app.join().start(stage, workspace);
                    shown.accept(stage);
                },
                workspace::close);
    }

    /** @param unwanted what to do if the window was closed before it could be filled */
    private void show(Consumer<Stage> start, Runnable unwanted) {
        ready.join();
        if (awaited) {
            // a window that nobody can see may never be drawn
            drawn.completeOnTimeout(false, LONGEST_S, TimeUnit.SECONDS).join();
        }
        screen.execute(() -> {
            try {
                if (early != null && !early.isShowing()) {
                    unwanted.run();
                    ended.complete(true);
                    return;
                }
                start.accept(early == null ? new Stage() : early);
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
