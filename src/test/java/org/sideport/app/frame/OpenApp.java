package org.sideport.app.frame;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.concurrent.Callable;
import java.util.function.Consumer;
import javafx.application.Platform;
import javafx.stage.Stage;
import org.sideport.app.AppContext;
import org.sideport.app.Bench;
import org.sideport.app.RealWindow;
import org.sideport.app.Settings;
import org.sideport.app.settings.Persons;
import org.sideport.player.DemoRecordings;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.testfx.api.FxRobot;
import org.testfx.api.FxToolkit;

/** The program in a real window on a fresh workspace with one case, C-1, of the demo's first recording. */
final class OpenApp implements AutoCloseable {

    final FxRobot robot = new FxRobot();
    final Path folder = Files.createTempDirectory("sideport-frame");
    final AppContext context;
    final MainWindow window;
    final Stage stage;

    OpenApp(String language, double percent, boolean light, double width, double height) throws Exception {
        this(language, percent, light, width, height, empty -> Bench.addCase(empty, "C-1", DemoRecordings.D001));
    }

    /** @param fill puts into the fresh workspace what is to be in it; may be nothing */
    OpenApp(String language, double percent, boolean light, double width, double height, Consumer<Workspace> fill)
            throws Exception {
        Workspace workspace = FreshWorkspace.in(folder);
        fill.accept(workspace);
        boolean any = workspace.read(stores -> !stores.cases().all().isEmpty());
        Settings settings = new Settings(folder.resolve("window-" + Persons.mark() + ".properties"));
        settings.put("language", language);
        settings.put("font.percent", (int) percent);
        settings.put("light", light);
        settings.close();
        stage = FxToolkit.registerPrimaryStage();
        AppContext[] made = new AppContext[1];
        MainWindow[] shown = new MainWindow[1];
        robot.interact(() -> {
            made[0] = new AppContext(workspace, Clock.systemUTC());
            shown[0] = new MainWindow(made[0], stage);
            RealWindow.show(shown[0], stage, width, height);
        });
        context = made[0];
        window = shown[0];
        if (any) {
            RealWindow.untilCasesAreListed(robot, 30);
        }
    }

    static void until(Callable<Boolean> condition) throws Exception {
        RealWindow.until(30, condition);
    }

    @Override
    public void close() throws Exception {
        FxToolkit.cleanupStages();
        robot.interact(() -> {
            context.close();
            Platform.setImplicitExit(false);
        });
        RealWindow.delete(folder);
    }
}
