package org.sideport.app.frame;

import java.nio.file.Path;
import javafx.scene.Scene;
import javafx.scene.layout.StackPane;
import javafx.stage.Stage;
import org.sideport.app.Settings;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.settings.Language;

/** What the window shows, where it was the last time, while its workspace is being opened. */
public final class OpeningWindow {

    private OpeningWindow() {}

    /** @param settings of the account in {@code folder}; only read */
    public static void show(Stage stage, Path folder, Settings settings) {
        Texts texts = new Texts(Language.of(settings.get("language", "")));
        Path name = folder.getFileName();
        Scene scene = new Scene(
                Ui.styled(
                        new StackPane(Ui.label(
                                texts.get("frame.opening", name == null ? folder.toString() : name.toString()),
                                "opening")),
                        "veil"),
                1280,
                800);
        new Theme(settings).dress(scene);
        stage.setScene(scene);
        stage.setTitle(texts.get("app.name"));
        new WindowPlace(stage, settings).restore();
        stage.show();
    }
}
