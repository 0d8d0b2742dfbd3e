package org.sideport.app.people;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.concurrent.TimeUnit;
import javafx.application.Platform;
import javafx.scene.control.ButtonBase;
import javafx.scene.control.Labeled;
import javafx.scene.control.TableView;
import javafx.scene.control.TextInputControl;
import javafx.stage.Stage;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.SideportApp;
import org.sideport.model.SurgicalCase;
import org.sideport.store.TestPostgres;
import org.sideport.store.Workspace;
import org.testfx.api.FxRobot;
import org.testfx.api.FxToolkit;
import org.testfx.util.WaitForAsyncUtils;

/** A workspace on a real PostgreSQL, opened where no environment says who signs in. */
class DatabaseWindowTest {

    @TempDir
    Path dir;

    private final FxRobot robot = new FxRobot();
    private final SideportApp app = new SideportApp();

    @AfterEach
    void close() throws Exception {
        robot.interact(() -> {
            if (app.window() != null) {
                app.window().remember();
            }
        });
        FxToolkit.cleanupStages();
        robot.interact(() -> {
            app.stop();
            Platform.setImplicitExit(false);
        });
    }

    private static void until(Callable<Boolean> condition) throws Exception {
        WaitForAsyncUtils.waitFor(60, TimeUnit.SECONDS, condition);
        WaitForAsyncUtils.waitForFxEvents();
    }

    private void signIn(String code, String password) {
        robot.interact(() -> {
            robot.lookup("#sign-in-code").queryAs(TextInputControl.class).setText(code);
            robot.lookup("#sign-in-password").queryAs(TextInputControl.class).setText(password);
            robot.lookup("#sign-in-go").queryAs(ButtonBase.class).fire();
        });
    }

    @Test
    void theWindowAsksForTheLoginThatTheDatabaseWants() throws Exception {
        Path folder = dir.resolve("unit");
        try (Workspace made = Workspace.create(folder, TestPostgres.shared().newDatabase(), TestPostgres.KEEPER)) {
            made.change(s ->
                    s.cases().add(new SurgicalCase("C-1", "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of(), null)));
        }
        Stage stage = FxToolkit.registerPrimaryStage();
        robot.interact(() -> app.start(stage, folder));
        until(() -> robot.lookup("#sign-in-code").tryQuery().isPresent());
        assertThat(app.context()).isNull();

        signIn(String.valueOf(TestPostgres.KEEPER.user()), "wrong");
        until(() -> robot.lookup("#sign-in-problem")
                .queryAs(Labeled.class)
                .getText()
                .startsWith("The database does not take this code"));
        assertThat(app.context()).isNull();

        signIn(String.valueOf(TestPostgres.KEEPER.user()), String.valueOf(TestPostgres.KEEPER.password()));
        until(() -> app.context() != null
                && robot.lookup("#cases-table").tryQuery().isPresent()
                && robot.lookup("#cases-table")
                                .queryAs(TableView.class)
                                .getItems()
                                .size()
                        == 1);
    }
}
