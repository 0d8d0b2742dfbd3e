package org.sideport.app;

import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import javafx.application.Application;
import javafx.stage.Stage;
import org.jspecify.annotations.Nullable;
import org.sideport.app.frame.MainWindow;
import org.sideport.store.Workspace;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The JavaFX program. Its one argument is the workspace folder. */
public final class SideportApp extends Application {

    private static final Logger LOG = LoggerFactory.getLogger(SideportApp.class);

    private @Nullable AppContext context;

    @Override
    public void start(Stage stage) {
        Path folder = Path.of(getParameters().getRaw().get(0));
        Workspace workspace = Workspace.isWorkspace(folder) ? Workspace.open(folder) : Workspace.create(folder);
        AppContext made = new AppContext(workspace, Clock.system(ZoneId.systemDefault()));
        context = made;
        Thread.currentThread().setUncaughtExceptionHandler((thread, failure) -> {
            LOG.error("fault", failure);
            made.notices().failed(failure);
        });
        MainWindow shown = new MainWindow(made, stage);
        stage.setOnHiding(event -> shown.remember());
        shown.show();
        made.findPlayer();
    }

    @Override
    public void stop() {
        if (context != null) {
            context.close();
        }
    }
}
