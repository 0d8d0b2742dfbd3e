package org.sideport.app.exchange;

import java.io.File;
import java.util.function.Consumer;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.PasswordField;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.VBox;
import javafx.stage.DirectoryChooser;
import javafx.stage.FileChooser;
import javafx.stage.Window;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.ProblemLabel;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.ConsentPurpose;

/** Asks what goes into bundles, and where they go. */
final class ExportBundleDialog extends ExchangeDialog {

    private final ExportBundleViewModel model;
    private final ConsentQuestion consent;

    ExportBundleDialog(Window owner, ExportBundleViewModel model, ConsentQuestion consent, Texts texts) {
        super(owner, texts, texts.get("bundle.out.title", model.codes().size()));
        this.model = model;
        this.consent = consent;
        stage.setOnCloseRequest(event -> model.cancel());
    }

    void show(Consumer<Scene> look) {
        Button write = Ui.button("bundle-write", Feather.DOWNLOAD, texts.get("bundle.write"), this::ask);
        show(
                look,
                640,
                0,
                Ui.wrapped(texts.get("bundle.out.text", String.join(", ", model.codes())), "text-muted"),
                contents(),
                secret(),
                progress("bundle-stop", model.writingProperty(), model::cancel),
                ProblemLabel.of("bundle-problem", model.problemProperty()),
                foot(model.whyNotProperty(), write, () -> {
                    model.cancel();
                    stage.close();
                }));
    }

    private Node contents() {
        CheckBox media = new CheckBox(texts.get("bundle.media", model.codes().size()));
        media.setId("bundle-media");
        media.selectedProperty().bindBidirectional(model.mediaProperty());
        CheckBox tags = new CheckBox(texts.get("bundle.tags"));
        tags.setId("bundle-tags");
        tags.setWrapText(true);
        tags.selectedProperty().bindBidirectional(model.acceptTagsProperty());
        tags.disableProperty().bind(model.mediaProperty().not());
        return new VBox(Ui.STEP, media, tags);
    }

    private Node secret() {
        CheckBox encrypted = new CheckBox(texts.get("bundle.encrypted"));
        encrypted.setId("bundle-encrypted");
        encrypted.selectedProperty().bindBidirectional(model.encryptedProperty());
        PasswordField once = new PasswordField();
        once.setId("bundle-passphrase");
        once.textProperty().bindBidirectional(model.passphraseProperty());
        PasswordField twice = new PasswordField();
        twice.setId("bundle-again");
        twice.textProperty().bindBidirectional(model.againProperty());
        GridPane grid = grid();
        line(grid, texts.get("bundle.passphrase"), once);
        line(grid, texts.get("bundle.again"), twice);
        grid.disableProperty().bind(model.encryptedProperty().not());
        return new VBox(
                Ui.STEP, encrypted, grid, Ui.wrapped(texts.get("bundle.encrypted.text"), "small", "text-muted"));
    }

    private void ask() {
        consent.before(
                model.codes(),
                ConsentPurpose.ASSESSMENT,
                (question, yes) -> question.ask(stage, yes),
                model::failed,
                this::choose);
    }

    private void choose() {
        File chosen;
        if (model.codes().size() == 1) {
            FileChooser chooser = new FileChooser();
            chooser.setTitle(stage.getTitle());
            chooser.setInitialFileName(
                    ExportBundleViewModel.nameOf(model.codes().get(0)));
            chosen = chooser.showSaveDialog(stage);
        } else {
            DirectoryChooser chooser = new DirectoryChooser();
            chooser.setTitle(stage.getTitle());
            chosen = chooser.showDialog(stage);
        }
        if (chosen != null) {
            model.export(chosen.toPath());
        }
    }
}
