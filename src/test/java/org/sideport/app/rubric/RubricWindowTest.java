package org.sideport.app.rubric;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.concurrent.Callable;
import javafx.scene.Node;
import javafx.scene.control.Labeled;
import javafx.scene.control.TabPane;
import javafx.scene.control.TextInputControl;
import javafx.scene.input.KeyCode;
import javafx.stage.Stage;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.sideport.app.AppContext;
import org.sideport.app.RealWindow;
import org.sideport.app.frame.MainWindow;
import org.sideport.model.Rubric;
import org.sideport.rubric.RubricReader;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.testfx.api.FxRobot;
import org.testfx.api.FxToolkit;

/** A rubric is written in a real window, with the keyboard alone. */
@Timeout(240)
class RubricWindowTest {

    private final FxRobot robot = new FxRobot();
    private Path folder;
    private AppContext context;
    private Stage stage;

    @BeforeEach
    void openWindow() throws Exception {
        folder = Files.createTempDirectory("sideport-rubrics");
        Workspace workspace = FreshWorkspace.in(folder);
        stage = FxToolkit.registerPrimaryStage();
        robot.interact(() -> {
            context = new AppContext(workspace, Clock.systemUTC());
            RealWindow.show(new MainWindow(context, stage), stage, 1280, 800);
        });
        robot.press(KeyCode.ALT).type(KeyCode.DIGIT6).release(KeyCode.ALT);
        // along the tabs, and in
        until(() -> robot.lookup("#programme").tryQuery().isPresent());
        TabPane tabs = robot.lookup("#programme").queryAs(TabPane.class);
        until(tabs::isFocused);
        for (int i = 0; i < tabs.getTabs().size() && !isSelected(tabs, "programme-rubrics"); i++) {
            robot.type(KeyCode.RIGHT);
        }
        assertThat(isSelected(tabs, "programme-rubrics")).isTrue();
        robot.type(KeyCode.ENTER);
        until(() -> robot.lookup("#rubrics .table-row-cell")
                .match(n -> n.isVisible())
                .tryQuery()
                .isPresent());
    }

    private static boolean isSelected(TabPane tabs, String id) {
        return id.equals(tabs.getSelectionModel().getSelectedItem().getId());
    }

    @AfterEach
    void closeWindow() throws Exception {
        RealWindow.close(robot, context, folder);
    }

    private static void until(Callable<Boolean> condition) throws Exception {
        RealWindow.until(30, condition);
    }

    private void with(KeyCode modifier, KeyCode key) {
        robot.press(modifier).type(key).release(modifier);
    }

    private boolean isThere(String id) {
        return robot.lookup(id).match(Node::isVisible).tryQuery().isPresent();
    }

    private String focus() {
        Node focus = stage.getScene().getFocusOwner();
        return focus == null || focus.getId() == null ? "" : focus.getId();
    }

    private String value(String id) {
        return robot.lookup(id)
                .<TextInputControl>queryAs(TextInputControl.class)
                .getText();
    }

    private String text(String id) {
        return robot.lookup(id).<Labeled>queryAs(Labeled.class).getText();
    }

    @Test
    void aRubricIsChangedPreviewedUndoneAndSavedWithKeysAlone() throws Exception {
        until(() -> focus().equals("rubrics"));
        robot.type(KeyCode.DOWN);
        robot.type(KeyCode.ENTER);
        until(() -> isThere("#field-title"));
        until(() -> focus().equals("field-title"));

        // the first item, three parts on
        with(KeyCode.ALT, KeyCode.DOWN);
        with(KeyCode.ALT, KeyCode.DOWN);
        with(KeyCode.ALT, KeyCode.DOWN);
        until(() -> focus().equals("field-items-0-title"));
        with(KeyCode.CONTROL, KeyCode.A);
        robot.write("Calm");
        until(() -> robot.lookup("#rubric-preview .item-title")
                .tryQueryAs(Labeled.class)
                .map(title -> title.getText().equals("Calm"))
                .orElse(false));

        // a fault stands beside its field, and in the list
        with(KeyCode.CONTROL, KeyCode.A);
        robot.type(KeyCode.DELETE);
        until(() -> isThere("#field-items-0-title-faults") && isThere("#rubric-fault-count"));
        assertThat(text("#field-items-0-title-faults")).contains("empty").contains("write it");
        with(KeyCode.CONTROL, KeyCode.S);
        assertThat(Files.exists(folder.resolve("rubrics"))).isFalse();

        // one step back is what was typed before it was emptied
        with(KeyCode.CONTROL, KeyCode.Z);
        assertThat(value("#field-items-0-title")).isNotEqualTo("");
        until(() -> !isThere("#field-items-0-title-faults"));
        with(KeyCode.CONTROL, KeyCode.A);
        robot.write("Steady");
        until(() -> text("#rubric-name").contains("1.1.0"));
        with(KeyCode.CONTROL, KeyCode.S);
        Path file = folder.resolve("rubrics").resolve("phaco-global-1.1.0.json");
        until(() -> Files.exists(file));
        Rubric saved = RubricReader.read(file);
        assertThat(saved.items().get(0).title()).isEqualTo("Steady");
        assertThat(saved.replaces()).hasSize(1);
    }

    @Test
    void everyPartIsShownAndTheNextFaultIsGoneTo() throws Exception {
        until(() -> focus().equals("rubrics"));
        robot.clickOn("#rubric-copy");
        until(() -> isThere("#field-title"));
        for (int i = 0; i < 26; i++) {
            with(KeyCode.ALT, KeyCode.DOWN);
            int at = i;
            RealWindow.picture("rubric part " + at, () -> stage.getScene().snapshot(null));
        }
        with(KeyCode.CONTROL, KeyCode.ENTER);
        until(() -> focus().startsWith("field-items"));
        String item = focus();
        with(KeyCode.ALT, KeyCode.UP);
        robot.type(KeyCode.F4);
        until(() -> focus().startsWith("field-items"));
        assertThat(focus()).isEqualTo(item);
    }
}
