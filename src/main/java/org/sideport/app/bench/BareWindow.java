package org.sideport.app.bench;

import java.util.concurrent.CountDownLatch;
import javafx.application.Platform;
import javafx.scene.Scene;
import javafx.scene.control.Label;
import javafx.scene.layout.StackPane;
import javafx.stage.Stage;

/** A window with one word in it, of the size of the program's: the least that JavaFX can do. */
public final class BareWindow {

    private static final double WIDTH = 1280;
    private static final double HEIGHT = 800;

    private BareWindow() {}

    /**
     * Returns when the window has been drawn and closed; once in the life of a program.
     *
     * @param drawn is told when the window is there
     */
    public static void run(Runnable drawn) throws InterruptedException {
        CountDownLatch ended = new CountDownLatch(1);
        Platform.startup(() -> {
            Stage stage = new Stage();
            stage.setScene(new Scene(new StackPane(new Label("A window")), WIDTH, HEIGHT));
            stage.show();
            stage.setOnHidden(event -> ended.countDown());
            FirstWindow.whenDrawn(stage, drawn);
        });
        ended.await();
        Platform.exit();
    }
}
