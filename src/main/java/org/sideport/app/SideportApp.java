package org.sideport.app;

import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import javafx.application.Application;
import javafx.stage.Stage;
import org.jspecify.annotations.Nullable;
import org.sideport.app.frame.MainWindow;
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
        MainWindow shown = open(primary, folder);
        shown.show();
        shown.begin();
    }

    /** What the window is built from, once it is started. */
    public @Nullable AppContext context() {
        return context;
    }

    public @Nullable MainWindow window() {
        return window;
    }

    private MainWindow open(Stage on, Path folder) {
        Workspace workspace = Workspace.isWorkspace(folder) ? Workspace.open(folder) : Workspace.create(folder);
        AppContext made = new AppContext(workspace, Clock.system(ZoneId.systemDefault()));
        context = made;
        MainWindow shown = new MainWindow(made, on, this::reopen);
        window = shown;
        made.findPlayer();
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
        try {
            open(on, folder).goBack();
        } catch (InputException problem) {
            MainWindow again = open(on, before);
            again.goBack();
            if (context != null) {
                context.notices().failed(problem);
            }
        }
    }

    @Override
    public void stop() {
        if (context != null) {
            context.close();
        }
    }
}
