package org.sideport.app.exchange;

import java.io.File;
import java.util.function.Consumer;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.layout.GridPane;
import javafx.stage.DirectoryChooser;
import javafx.stage.Window;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.ProblemLabel;
import org.sideport.app.Texts;
import org.sideport.app.Ui;

/** Asks whose phases become chapters, and where the copies go. */
final class ChaptersDialog extends ExchangeDialog {

    private final ChaptersViewModel model;
    private final ConsentQuestion consent;

    ChaptersDialog(Window owner, ChaptersViewModel model, ConsentQuestion consent, Texts texts) {
        super(owner, texts, texts.get("chapters.title", model.code()));
        this.model = model;
        this.consent = consent;
        stage.setOnCloseRequest(event -> model.cancel());
    }

    void show(Consumer<Scene> look) {
        CheckBox sound = new CheckBox(texts.get("chapters.sound"));
        sound.setId("chapters-sound");
        sound.setWrapText(true);
        sound.selectedProperty().bindBidirectional(model.soundProperty());
        GridPane grid = grid();
        line(grid, texts.get("open.annotator"), annotators("chapters-annotator", model));
        Button write = Ui.button("chapters-write", Feather.DOWNLOAD, texts.get("bundle.write"), this::ask);
        show(
                look,
                600,
                0,
                Ui.wrapped(texts.get("chapters.text"), "text-muted"),
                grid,
                sound,
                progress("chapters-stop", model.writingProperty(), model::cancel),
                ProblemLabel.of("chapters-problem", model.problemProperty()),
                foot(model.whyNotProperty(), write, () -> {
                    model.cancel();
                    stage.close();
                }));
    }

    private void ask() {
        consent.beforeTeaching(stage, model.code(), model::failed, this::choose);
    }

    private void choose() {
        DirectoryChooser chooser = new DirectoryChooser();
        chooser.setTitle(stage.getTitle());
        File chosen = chooser.showDialog(stage);
        if (chosen != null) {
            model.copy(chosen.toPath());
        }
    }
}
