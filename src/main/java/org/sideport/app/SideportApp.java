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
import org.sideport.store.LoginRefusedException;
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
    private @Nullable RefusedWindow refused;

    /**
     * Opens the window on a workspace, which is made if the folder is none; a shared database that refuses the login is
     * signed in to in the window.
     */
    public void start(Stage primary, Path folder) {
        prepare(primary);
        open(primary, folder, SideportApp::begin);
    }

    /** Opens the window on a workspace, which belongs to the program from now on. */
    public void start(Stage primary, Workspace workspace) {
        prepare(primary);
        open(primary, workspace, SideportApp::begin);
    }

    /** Shows why the workspace in a folder cannot be opened, with the ways to a copy of it and to another one. */
    public void refuse(Stage primary, Path folder, InputException why) {
        prepare(primary);
        refuseOn(primary, folder, why);
    }

    private void refuseOn(Stage on, Path folder, InputException why) {
        RefusedWindow tells = new RefusedWindow(on, folder, instead -> {
            refused = null;
            try {
                open(on, instead, SideportApp::begin);
            } catch (InputException again) {
                refuseOn(on, instead, again);
            }
        });
        refused = tells;
        tells.show(why);
    }

    private static void begin(MainWindow shown) {
        shown.show();
        shown.begin();
    }

    private void prepare(Stage primary) {
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

    private void open(Stage on, Path folder, Consumer<MainWindow> then) {
        Workspace workspace;
        try {
            workspace = opened(folder);
        } catch (LoginRefusedException refused) {
            ask(SignInWindow.ofDatabase(on, folder, in -> {
                signIn = null;
                open(on, in, then);
            }));
            return;
        }
        open(on, workspace, then);
    }

    private void ask(SignInWindow asks) {
        signIn = asks;
        asks.show();
    }

    /** @param then hears of the window, at once or when somebody has signed in */
    private void open(Stage on, Workspace workspace, Consumer<MainWindow> then) {
        if (workspace.caller() instanceof Caller.Nobody) {
            ask(SignInWindow.ofPeople(on, workspace, in -> {
                signIn = null;
                then.accept(window(on, in));
            }));
        } else {
            then.accept(window(on, workspace));
        }
    }

    private MainWindow window(Stage on, Workspace workspace) {
        AppContext made = new AppContext(workspace, Clock.system(ZoneId.systemDefault()));
        context = made;
        MainWindow shown = new MainWindow(made, on, this::reopen);
        window = shown;
        NextPicture.of(on.getScene(), () -> {
            if (context == made) {
                made.findPlayer();
                made.backUpIfDue();
            }
        });
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

    /** Closes what is open; the windows may go then. */
    public void stop() {
        if (context != null) {
            context.close();
        }
        if (signIn != null) {
            signIn.close();
        }
        if (refused != null) {
            refused.close();
        }
    }
}
