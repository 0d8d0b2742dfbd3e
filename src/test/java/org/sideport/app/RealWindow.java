package org.sideport.app;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.concurrent.Callable;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import javafx.scene.Node;
import javafx.scene.control.TabPane;
import javafx.scene.image.Image;
import javafx.scene.input.KeyCode;
import javafx.stage.Stage;
import javax.imageio.ImageIO;
import org.sideport.app.frame.MainWindow;
import org.testfx.api.FxRobot;
import org.testfx.api.FxToolkit;
import org.testfx.util.WaitForAsyncUtils;

/** What every test of the program in a real window does. */
public final class RealWindow {

    private RealWindow() {}

    /** Shows the main window at the screen's corner in a size. On the screen's thread. */
    public static void show(MainWindow window, Stage stage, double width, double height) {
        stage.setX(0);
        stage.setY(0);
        stage.setWidth(width);
        stage.setHeight(height);
        window.show();
    }

    /** Waits until the list of cases has a row. */
    public static void untilCasesAreListed(FxRobot robot, int seconds) throws Exception {
        until(
                seconds,
                () -> robot.lookup(".table-row-cell")
                        .match(Node::isVisible)
                        .tryQuery()
                        .isPresent());
    }

    /** Types the code of who tags, and waits until tags can be set: they are read from the store first. */
    public static void enterAnnotator(FxRobot robot, String code) throws Exception {
        robot.clickOn("#annotator").write(code).type(KeyCode.ENTER);
        until(30, () -> robot.lookup("#running-phase").query().isVisible());
    }

    /** Goes to a tab by its id. */
    public static void selectTab(FxRobot robot, String pane, String tab) throws Exception {
        until(30, () -> robot.lookup(pane).tryQuery().isPresent());
        robot.interact(() -> {
            TabPane tabs = robot.lookup(pane).queryAs(TabPane.class);
            tabs.getTabs().stream()
                    .filter(one -> tab.equals(one.getId()))
                    .findFirst()
                    .ifPresent(tabs.getSelectionModel()::select);
        });
    }

    public static void until(int seconds, Callable<Boolean> condition) throws Exception {
        WaitForAsyncUtils.waitFor(seconds, TimeUnit.SECONDS, condition);
        WaitForAsyncUtils.waitForFxEvents();
    }

    /** Closes the program and deletes what it worked on. */
    public static void close(FxRobot robot, AppContext context, Path folder) throws Exception {
        FxToolkit.cleanupStages();
        robot.interact(context::close);
        delete(folder);
    }

    public static void delete(Path folder) throws IOException {
        try (var files = Files.walk(folder)) {
            for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(file);
            }
        }
    }

    /** Writes a picture to a folder named by the property "sideport.pictures", for a person to look at; else nothing. */
    public static void picture(String name, Supplier<Image> shot) throws IOException {
        String target = System.getProperty("sideport.pictures");
        if (target == null) {
            return;
        }
        Image image = shot.get();
        BufferedImage pixels =
                new BufferedImage((int) image.getWidth(), (int) image.getHeight(), BufferedImage.TYPE_INT_RGB);
        for (int y = 0; y < pixels.getHeight(); y++) {
            for (int x = 0; x < pixels.getWidth(); x++) {
                pixels.setRGB(x, y, image.getPixelReader().getArgb(x, y));
            }
        }
        ImageIO.write(pixels, "png", Path.of(target, name + ".png").toFile());
    }
}
