package org.sideport.app.exchange;

import java.io.File;
import java.util.function.Consumer;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.ComboBox;
import javafx.scene.layout.GridPane;
import javafx.stage.FileChooser;
import javafx.stage.Window;
import javafx.util.StringConverter;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.ProblemLabel;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.workflow.exchange.OpenFormat;

/** Asks in which published format a case goes to another program, and where to. */
final class OpenFormatDialog extends ExchangeDialog {

    private final OpenFormatViewModel model;
    private final ConsentQuestion consent;

    OpenFormatDialog(Window owner, OpenFormatViewModel model, ConsentQuestion consent, Texts texts) {
        super(owner, texts, texts.get("open.title", model.code()));
        this.model = model;
        this.consent = consent;
    }

    void show(Consumer<Scene> look) {
        ComboBox<OpenFormat> formats = new ComboBox<>();
        formats.setId("open-format");
        formats.getItems().setAll(model.formats());
        formats.setConverter(new StringConverter<>() {
            @Override
            public String toString(@Nullable OpenFormat value) {
                return value == null ? "" : model.nameOf(value);
            }

            @Override
            public OpenFormat fromString(String text) {
                throw new UnsupportedOperationException("chosen, not typed");
            }
        });
        formats.valueProperty().bindBidirectional(model.formatProperty());
        formats.setMaxWidth(Double.MAX_VALUE);
        formats.setAccessibleText(texts.get("open.format"));
        ComboBox<String> annotators = new ComboBox<>(model.annotators());
        annotators.setId("open-annotator");
        annotators.valueProperty().bindBidirectional(model.annotatorProperty());
        annotators.setAccessibleText(texts.get("open.annotator"));
        GridPane grid = grid();
        line(grid, texts.get("open.format"), formats);
        line(grid, texts.get("open.annotator"), annotators);
        Button write = Ui.button("open-write", Feather.DOWNLOAD, texts.get("bundle.write"), this::ask);
        show(
                look,
                600,
                0,
                Ui.wrapped(texts.get("open.text"), "text-muted"),
                grid,
                ProblemLabel.of("open-problem", model.problemProperty()),
                foot(model.whyNotProperty(), write, stage::close));
    }

    private void ask() {
        consent.beforeTeaching(stage, model.code(), model::failed, this::choose);
    }

    private void choose() {
        FileChooser chooser = new FileChooser();
        chooser.setTitle(stage.getTitle());
        chooser.setInitialFileName(model.fileName());
        File chosen = chooser.showSaveDialog(stage);
        if (chosen != null) {
            model.write(chosen.toPath());
        }
    }
}
