package org.sideport.app;

import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.function.Consumer;
import javafx.application.Application;
import javafx.stage.Stage;
import org.jspecify.annotations.Nullable;
import org.sideport.app.frame.MainWindow;
import org.sideport.model.Caller;
import org.sideport.model.InputException;
import org.sideport.store.Workspace;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The JavaFX program. Its one argument is the workspace folder. */
public final class SideportApp extends Application {

    private static final Logger LOG = LoggerFactory.getLogger(SideportApp.class);

    private @Nullable AppContext context;
    private @Nullable MainWindow window;
    private @Nullable Stage stage;
    private @Nullable SignInWindow signIn;

    @Override
    public void start(Stage primary) {
        start(primary, Path.of(getParameters().getRaw().get(0)));
    }

    /** Opens the window on a workspace, which is made if the folder is none. */
    public void start(Stage primary, Path folder) {
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
        open(primary, folder, shown -> {
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

    /** @param then hears of the window, at once or when somebody has signed in */
    private void open(Stage on, Path folder, Consumer<MainWindow> then) {
        Workspace workspace = Workspace.isWorkspace(folder) ? Workspace.open(folder) : Workspace.create(folder);
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
            open(on, folder, MainWindow::goBack);
        } catch (InputException problem) {
            open(on, before, again -> {
                again.goBack();
                if (context != null) {
                    context.notices().failed(problem);
                }
            });
        }
    }

    @Override
    public void stop() {
        if (context != null) {
            context.close();
        }
        if (signIn != null) {
            signIn.close();
        }
    }
}
