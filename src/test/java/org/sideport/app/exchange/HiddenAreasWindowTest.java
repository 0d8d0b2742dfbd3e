package org.sideport.app.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.List;
import javafx.geometry.Bounds;
import javafx.scene.control.Slider;
import javafx.scene.input.KeyCode;
import javafx.scene.input.MouseButton;
import javafx.stage.Stage;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.Bench;
import org.sideport.app.RealWindow;
import org.sideport.app.RunNow;
import org.sideport.app.Texts;
import org.sideport.model.MaskArea;
import org.sideport.model.MediaTime;
import org.sideport.player.DemoRecordings;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.HideAreas;
import org.testfx.api.FxRobot;
import org.testfx.api.FxToolkit;

/** Areas are drawn on the picture, or typed, and are stored when the user says so. */
class HiddenAreasWindowTest {

    private final FxRobot robot = new FxRobot();

    @TempDir
    Path folder;

    private Workspace workspace;
    private HiddenAreasDialog dialog;
    private int saved;

    @BeforeEach
    void open() throws Exception {
        workspace = FreshWorkspace.in(folder.resolve("unit"));
        Bench.addCase(workspace, "D-001", DemoRecordings.D001);
        Stage stage = FxToolkit.registerPrimaryStage();
        Texts texts = new Texts();
        robot.interact(() -> {
            HiddenAreasViewModel model =
                    new HiddenAreasViewModel(new HideAreas(workspace), "D-001", new RunNow(), texts, () -> saved++);
            dialog = new HiddenAreasDialog(stage, model, texts);
            dialog.show(scene -> {});
        });
    }

    @AfterEach
    void close() throws Exception {
        robot.interact(dialog::close);
        FxToolkit.cleanupStages();
        workspace.close();
    }

    @Test
    void aDrawnAreaIsStoredInPixelsOfThePictureAndATypedOneBesideIt() throws Exception {
        Bounds picture = robot.lookup("#hide-picture .image-view").query().getBoundsInLocal();
        Bounds place = robot.lookup("#hide-picture .image-view").query().localToScreen(picture);
        // D-001 is 640 by 480 (demo-data/README.md)
        double scale = place.getWidth() / 640;
        robot.moveTo(place.getMinX() + 100 * scale, place.getMinY() + 50 * scale)
                .press(MouseButton.PRIMARY)
                .moveTo(place.getMinX() + 150 * scale, place.getMinY() + 100 * scale)
                .moveTo(place.getMinX() + 260 * scale, place.getMinY() + 90 * scale)
                .release(MouseButton.PRIMARY);
        RealWindow.until(30, () -> robot.lookup("#hide-remove-0").tryQuery().isPresent());
        robot.clickOn("#hide-typed").write("nowhere").type(KeyCode.ENTER);
        RealWindow.until(30, () -> robot.lookup("#hide-problem").query().isVisible());
        robot.doubleClickOn("#hide-typed").write("0,0,64,32@0:05-0:12").type(KeyCode.ENTER);
        RealWindow.until(30, () -> robot.lookup("#hide-remove-1").tryQuery().isPresent());
        assertThat(new HideAreas(workspace).of("D-001"))
                .as("not before it is said")
                .isEmpty();
        // at the start of the recording the second is not hidden yet
        assertThat(robot.lookup("#hide-picture .hidden-area").queryAll()).hasSize(1);
        robot.interact(() -> robot.lookup("#hide-time").queryAs(Slider.class).setValue(6_000_000));
        RealWindow.until(
                10, () -> robot.lookup("#hide-picture .hidden-area").queryAll().size() == 2);
        // the demo's strip at the foot of each picture holds the time and the frame's number (demo-data/README.md)
        robot.clickOn("#hide-find");
        RealWindow.until(60, () -> robot.lookup("#hide-remove-2").tryQuery().isPresent());
        robot.clickOn("#hide-save");
        RealWindow.until(30, () -> saved == 1);
        List<MaskArea> stored = new HideAreas(workspace).of("D-001");
        assertThat(stored).hasSizeGreaterThan(2);
        assertThat(stored.subList(2, stored.size())).anyMatch(area -> area.y() > 440);
        MaskArea drawn = stored.get(0);
        assertThat(drawn.x()).isCloseTo(100, within(2));
        assertThat(drawn.y()).isCloseTo(50, within(2));
        assertThat(drawn.width()).isCloseTo(160, within(3));
        assertThat(drawn.height()).isCloseTo(40, within(3));
        assertThat(stored.get(1))
                .isEqualTo(new MaskArea(0, 0, 64, 32, MediaTime.ofSeconds(5), MediaTime.ofSeconds(12)));
    }
}
