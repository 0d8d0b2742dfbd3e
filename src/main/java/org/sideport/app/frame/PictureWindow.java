package org.sideport.app.frame;

import java.util.function.Consumer;
import javafx.collections.ObservableList;
import javafx.geometry.Rectangle2D;
import javafx.scene.Scene;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.StackPane;
import javafx.stage.Screen;
import javafx.stage.Stage;
import org.sideport.app.AppContext;
import org.sideport.app.picture.PictureView;

/**
 * The picture in a window of its own, which follows the desk: on a second screen, where there is one, it fills that. Its
 * keys do what they do in the main window; Esc closes it.
 */
final class PictureWindow {

    private final Stage stage = new Stage();
    private final Stage main;

    PictureWindow(AppContext context, Stage main, Consumer<KeyEvent> keys) {
        this.main = main;
        PictureView picture = new PictureView(context.desk(), context.texts());
        picture.setId("second-picture");
        Scene scene = new Scene(new StackPane(picture), 960, 540);
        context.theme().dress(scene);
        scene.addEventFilter(KeyEvent.KEY_PRESSED, event -> {
            if (event.getCode() == KeyCode.ESCAPE) {
                stage.hide();
                event.consume();
            } else {
                keys.accept(event);
            }
        });
        stage.setScene(scene);
        stage.setTitle(context.texts().get("second.title"));
        stage.setFullScreenExitHint("");
        stage.setFullScreenExitKeyCombination(javafx.scene.input.KeyCombination.NO_MATCH);
    }

    boolean isShowing() {
        return stage.isShowing();
    }

    void toggle() {
        if (stage.isShowing()) {
            stage.hide();
            return;
        }
        ObservableList<Screen> here =
                Screen.getScreensForRectangle(main.getX(), main.getY(), main.getWidth(), main.getHeight());
        Screen other = Screen.getScreens().stream()
                .filter(screen -> !here.contains(screen))
                .findFirst()
                .orElse(null);
        if (other != null) {
            Rectangle2D room = other.getBounds();
            stage.setX(room.getMinX());
            stage.setY(room.getMinY());
            stage.setFullScreen(true);
        }
        stage.show();
    }

    void close() {
        stage.close();
    }
}
