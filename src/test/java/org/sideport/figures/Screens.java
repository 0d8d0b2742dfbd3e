package org.sideport.figures;

import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import javafx.scene.Node;
import javafx.scene.Parent;
import javafx.scene.control.ButtonBase;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Labeled;
import javafx.scene.control.ToggleButton;
import javafx.scene.input.KeyCode;
import javafx.scene.layout.GridPane;
import javafx.stage.Stage;
import org.sideport.app.AppContext;
import org.sideport.app.RealWindow;
import org.sideport.app.frame.MainWindow;
import org.sideport.store.Workspace;
import org.testfx.api.FxRobot;
import org.testfx.api.FxToolkit;

/** Reads words off the screens of the program in its real window. */
final class Screens implements AutoCloseable {

    private static final int SECONDS = 30;

    private final FxRobot robot = new FxRobot();
    private final Path folder;
    private AppContext context;

    Screens(Path folder, Clock clock) throws Exception {
        this.folder = folder;
        Workspace workspace = Workspace.open(folder);
        Stage stage = FxToolkit.registerPrimaryStage();
        robot.interact(() -> {
            context = new AppContext(workspace, clock);
            RealWindow.show(new MainWindow(context, stage), stage, 1600, 1000);
        });
        RealWindow.untilCasesAreListed(robot, SECONDS);
    }

    void go(KeyCode digit) {
        robot.press(KeyCode.ALT).type(digit).release(KeyCode.ALT);
    }

    void part(String tab) throws Exception {
        RealWindow.selectTab(robot, "#programme", "programme-" + tab);
    }

    void section(String name, String shows) throws Exception {
        until("#cohort-section-" + name);
        robot.interact(() -> robot.lookup("#cohort-section-" + name)
                .queryAs(ToggleButton.class)
                .fire());
        until(shows);
    }

    void press(String button, String shows) throws Exception {
        until(button);
        robot.interact(() -> robot.lookup(button).queryAs(ButtonBase.class).fire());
        until(shows);
    }

    /** Chooses from a list what is written so there. */
    <T> void choose(String list, String words) throws Exception {
        until(list);
        RealWindow.until(SECONDS, () -> !box(list).getItems().isEmpty());
        robot.interact(() -> box(list).getItems().stream()
                .filter(item -> shown(box(list), item).startsWith(words))
                .findFirst()
                .ifPresent(item -> box(list).setValue(item)));
    }

    @SuppressWarnings("unchecked")
    private ComboBox<Object> box(String list) {
        return robot.lookup(list).queryAs(ComboBox.class);
    }

    private static String shown(ComboBox<Object> box, Object item) {
        return box.getConverter() == null
                ? String.valueOf(item)
                : box.getConverter().toString(item);
    }

    void until(String id) throws Exception {
        RealWindow.until(SECONDS, () -> robot.lookup(id).tryQuery().isPresent());
    }

    /** Until what stands in a node begins or goes on with these words. */
    void until(String id, String words) throws Exception {
        RealWindow.until(
                SECONDS,
                () -> robot.lookup(id).tryQuery().map(Screens::words).orElse("").contains(words));
    }

    /** Everything written in a node, part by part. */
    String words(String id) {
        return words((Node) robot.lookup(id).query());
    }

    /** The row of a table that begins with these words. */
    String row(String grid, String first) {
        GridPane table = robot.lookup(grid).queryAs(GridPane.class);
        int row = table.getChildren().stream()
                .filter(n -> n instanceof Labeled label && label.getText().equals(first))
                .map(GridPane::getRowIndex)
                .findFirst()
                .orElseThrow();
        return String.join(
                " | ",
                table.getChildren().stream()
                        .filter(n -> GridPane.getRowIndex(n) == row)
                        .map(Screens::words)
                        .toList());
    }

    private static String words(Node node) {
        List<String> all = new ArrayList<>();
        collect(node, all);
        return String.join(" ", all);
    }

    private static void collect(Node node, List<String> all) {
        if (node instanceof Labeled labeled) {
            all.add(labeled.getText());
        } else if (node instanceof Parent parent) {
            if (parent.getAccessibleText() != null) {
                all.add(parent.getAccessibleText());
            }
            parent.getChildrenUnmodifiable().forEach(child -> collect(child, all));
        }
    }

    @Override
    public void close() throws Exception {
        RealWindow.close(robot, context, folder);
    }
}
