package org.sideport.app.frame;

import javafx.application.Platform;
import javafx.scene.Scene;
import javafx.scene.control.TableColumn;
import javafx.scene.control.TableView;
import javafx.scene.layout.StackPane;
import javafx.stage.Stage;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.sideport.app.RealWindow;
import org.testfx.api.FxRobot;
import org.testfx.api.FxToolkit;

/** Columns in a table of 400 pixels, whatever size of letters was before. */
class TableScaleTest {

    private static final double WIDTH = 400;

    private final FxRobot robot = new FxRobot();
    private TableView<String> table;
    private TableScale scale;

    @AfterEach
    void close() throws Exception {
        FxToolkit.cleanupStages();
    }

    private void show(double width) throws Exception {
        Stage stage = FxToolkit.registerPrimaryStage();
        robot.interact(() -> {
            table = new TableView<>();
            for (int i = 0; i < 2; i++) {
                TableColumn<String, String> column = new TableColumn<>("c");
                column.setPrefWidth(width);
                table.getColumns().add(column);
            }
            // An earlier test may have left the window larger: the table keeps its width whatever the window's is.
            table.setMinWidth(WIDTH);
            table.setMaxWidth(WIDTH);
            Scene scene = new Scene(new StackPane(table), WIDTH, 300);
            scale = new TableScale(scene, 1);
            stage.setScene(scene);
            stage.show();
        });
    }

    /** Waits until each of the two columns is at least so wide, and both together so wide, give or take a bar. */
    private void letters(double factor, double each, double both) throws Exception {
        robot.interact(() -> {
            scale.scale(factor);
            Platform.requestNextPulse();
        });
        RealWindow.until(30, () -> width(0) >= each && width(1) >= each && Math.abs(width(0) + width(1) - both) <= 20);
    }

    private double width(int column) {
        return table.getColumns().get(column).getWidth();
    }

    @Test
    void columnsWithoutRoomAreAsWideAsTheirWordsWantEachTimeThatLettersBecomeLarge() throws Exception {
        show(180);
        letters(1.5, 270, 540);
        letters(1, 180, WIDTH);
        letters(1.5, 270, 540);
    }

    @Test
    void columnsWithRoomFillTheTable() throws Exception {
        show(100);
        letters(1.5, 150, WIDTH);
        letters(1, 100, WIDTH);
        letters(1.5, 150, WIDTH);
    }
}
