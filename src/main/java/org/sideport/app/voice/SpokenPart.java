package org.sideport.app.voice;

import java.io.File;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import javafx.stage.FileChooser;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.Caption;
import org.sideport.model.Comment;
import org.sideport.model.Voice;

/** What a comment's card shows of its voice: a button to hear it, its length, and what is said. */
public final class SpokenPart extends VBox {

    public SpokenPart(SpokenViewModel model, Texts texts, Comment comment) {
        super(Ui.STEP / 2);
        Voice voice = comment.voice();
        if (voice == null) {
            return;
        }
        String place = String.valueOf(comment.from().micros());
        Button play = Ui.button(
                "hear-" + place,
                Feather.PLAY,
                texts.get("spoken.hear", clock(voice.lengthUs())),
                () -> model.play(comment));
        play.getStyleClass().add("small");
        play.setFocusTraversable(false);
        HBox row = new HBox(Ui.STEP, play, Ui.spring());
        row.setAlignment(Pos.CENTER_LEFT);
        if (model.isOwn(comment)) {
            Button captions = Ui.iconButton(
                    "captions-" + place,
                    Feather.FILE_TEXT,
                    texts.get("spoken.captions"),
                    () -> choose(model, texts, comment));
            captions.getStyleClass().add("small");
            row.getChildren().add(captions);
        }
        getChildren().add(row);
        if (!voice.captions().isEmpty()) {
            getChildren()
                    .add(Ui.wrapped(
                            String.join(
                                    " ",
                                    voice.captions().stream().map(Caption::text).toList()),
                            "text-muted"));
        }
    }

    /** Minutes and seconds. */
    static String clock(long us) {
        long seconds = us / 1_000_000;
        return seconds / 60 + ":" + (seconds % 60 < 10 ? "0" : "") + seconds % 60;
    }

    private void choose(SpokenViewModel model, Texts texts, Comment comment) {
        FileChooser chooser = new FileChooser();
        chooser.setTitle(texts.get("spoken.captions"));
        chooser.getExtensionFilters()
                .add(new FileChooser.ExtensionFilter(texts.get("spoken.captions.files"), "*.vtt", "*.srt"));
        File file = chooser.showOpenDialog(getScene().getWindow());
        if (file != null) {
            model.importCaptions(comment, file.toPath());
        }
    }
}
