package org.sideport.app;

import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.function.Consumer;
import javafx.stage.Stage;
import org.jspecify.annotations.Nullable;
import org.sideport.app.frame.MainWindow;
import org.sideport.model.Caller;
import org.sideport.model.InputException;
import org.sideport.store.Workspace;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The program in its window: who signs in, which workspace is open. On the screen's thread. */
public final class SideportApp {

    private static final Logger LOG = LoggerFactory.getLogger(SideportApp.class);

    private @Nullable AppContext context;
    private @Nullable MainWindow window;
    private @Nullable Stage stage;
    private @Nullable SignInWindow signIn;

    /** Opens the window on a workspace, which is made if the folder is none. */
    public void start(Stage primary, Path folder) {
        start(primary, opened(folder));
    }

    /** Opens the window on a workspace, which belongs to the program from now on. */
    public void start(Stage primary, Workspace workspace) {
        stage = primary;
        Thread.currentThread().setUncaughtExceptionHandler((thread, failure) -> {
            LOG.error("fault", failure);
            if (context != null) {
                context.notices().failed(failure);
            }
        });
        primary.setOnHiding(event -> {
            if (window != null) {
                window.remember();
            }
        });
        open(primary, workspace, shown -> {
            shown.show();
            shown.begin();
        });
    }

    /** What the window is built from, once it is started. */
    public @Nullable AppContext context() {
        return context;
    }

    public @Nullable MainWindow window() {
        return window;
    }

    private static Workspace opened(Path folder) {
        return Workspace.isWorkspace(folder) ? Workspace.open(folder) : Workspace.create(folder);
    }

    /** @param then hears of the window, at once or when somebody has signed in */
    private void open(Stage on, Workspace workspace, Consumer<MainWindow> then) {
        if (workspace.caller() instanceof Caller.Nobody) {
            SignInWindow asks = new SignInWindow(on, workspace, in -> {
                signIn = null;
                then.accept(window(on, in));
            });
            signIn = asks;
            asks.show();
        } else {
            then.accept(window(on, workspace));
        }
    }

    private MainWindow window(Stage on, Workspace workspace) {
        AppContext made = new AppContext(workspace, Clock.system(ZoneId.systemDefault()));
        context = made;
        MainWindow shown = new MainWindow(made, on, this::reopen);
        window = shown;
        made.findPlayer();
        made.backUpIfDue();
        return shown;
    }

    /** Closes the workspace that is open and opens another one, or the same anew, in the same window. */
    private void reopen(AppContext from, Path folder) {
        MainWindow old = window;
        Stage on = stage;
        if (old == null || on == null) {
            return;
        }
        Path before = from.folder();
        old.remember();
        from.close();
        window = null;
        context = null;
        try {
            open(on, opened(folder), MainWindow::goBack);
        } catch (InputException problem) {
            open(on, opened(before), again -> {
                again.goBack();
                if (context != null) {
                    context.notices().failed(problem);
                }
            });
        }
    }

    /** Closes what is open; the windows may go then. */
    public void stop() {
        if (context != null) {
            context.close();
        }
        if (signIn != null) {
            signIn.close();
        }
    }
}
