package org.sideport.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import javafx.application.Platform;
import javafx.scene.control.Labeled;
import javafx.stage.Stage;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.model.SurgicalCase;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.upkeep.KeepBackups;
import org.testfx.api.FxRobot;
import org.testfx.api.FxToolkit;
import org.testfx.util.WaitForAsyncUtils;

/** A store that cannot be opened, met in the window. */
class RefusedWindowTest {

    @TempDir
    Path dir;

    private final FxRobot robot = new FxRobot();

    @AfterEach
    void close() throws Exception {
        FxToolkit.cleanupStages();
        robot.interact(() -> Platform.setImplicitExit(false));
    }

    private static void until(Callable<Boolean> condition) throws Exception {
        WaitForAsyncUtils.waitFor(60, TimeUnit.SECONDS, condition);
        WaitForAsyncUtils.waitForFxEvents();
    }

    private String why() {
        return robot.lookup("#refused-why").queryAs(Labeled.class).getText();
    }

    @Test
    void itSaysWhatIsWrongAndLeadsBackToTheCopy() throws Exception {
        Path folder = dir.resolve("unit");
        Path copy;
        try (Workspace made = FreshWorkspace.in(folder)) {
            made.change(s ->
                    s.cases().add(new SurgicalCase("C-1", "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of(), null)));
            copy = new KeepBackups(made, Clock.systemUTC()).now(Progress.NONE).file();
        }
        Files.writeString(folder.resolve("sideport.db"), "no store any more, only words".repeat(400));
        InputException refused = catchThrowableOfType(
                InputException.class, () -> Workspace.open(folder).close());
        assertThat(refused).isNotNull();

        Stage stage = FxToolkit.registerPrimaryStage();
        AtomicReference<Path> opened = new AtomicReference<>();
        AtomicReference<RefusedWindow> window = new AtomicReference<>();
        robot.interact(() -> {
            window.set(new RefusedWindow(stage, folder, opened::set));
            window.get().show(refused);
        });
        assertThat(robot.lookup("#refused-title").queryAs(Labeled.class).getText())
                .isEqualTo("unit cannot be opened");
        assertThat(why()).contains(refused.what()).contains(String.valueOf(refused.remedy()));

        // not over what is there
        robot.interact(() -> window.get().restore(copy, folder));
        until(() -> !why().contains(refused.what()));
        assertThat(why()).contains("folder");
        assertThat(opened.get()).isNull();

        Path back = dir.resolve("back");
        robot.interact(() -> window.get().restore(copy, back));
        until(() -> opened.get() != null);
        try (Workspace restored = Workspace.open(opened.get())) {
            assertThat(restored.<String>read(s -> s.cases().get("C-1").trainee()))
                    .isEqualTo("T03");
        }
    }
}
