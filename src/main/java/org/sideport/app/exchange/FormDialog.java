package org.sideport.app.exchange;

import java.io.File;
import java.util.function.Consumer;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.ComboBox;
import javafx.scene.control.TextField;
import javafx.scene.layout.GridPane;
import javafx.stage.FileChooser;
import javafx.stage.Window;
import javafx.util.StringConverter;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.ProblemLabel;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.settings.Language;
import org.sideport.model.Rubric;

/** Asks by which rubric, and for whom, a marking form is written. */
final class FormDialog extends ExchangeDialog {

    private final FormViewModel model;

    FormDialog(Window owner, FormViewModel model, Texts texts) {
        super(owner, texts, texts.get("form.title", model.code()));
        this.model = model;
    }

    void show(Consumer<Scene> look) {
        ComboBox<Rubric> rubrics = new ComboBox<>(model.rubrics());
        rubrics.setId("form-rubric");
        rubrics.setConverter(shown(Rubric::title));
        rubrics.valueProperty().bindBidirectional(model.rubricProperty());
        rubrics.setMaxWidth(Double.MAX_VALUE);
        ComboBox<Language> languages = new ComboBox<>();
        languages.setId("form-language");
        languages.getItems().setAll(Language.offered());
        languages.setConverter(shown(Language::ownName));
        languages.valueProperty().bindBidirectional(model.languageProperty());
        TextField assessor = new TextField();
        assessor.setId("form-assessor");
        assessor.textProperty().bindBidirectional(model.assessorProperty());
        if (model.isAssessorFixed()) {
            Ui.fixed(assessor, texts.get("who.own", assessor.getText()));
        }
        GridPane grid = grid();
        grid.addRow(0, Ui.label(texts.get("form.rubric"), "text-muted"), rubrics);
        rubrics.setAccessibleText(texts.get("form.rubric"));
        line(grid, texts.get("marking.assessor"), assessor);
        grid.addRow(grid.getRowCount(), Ui.label(texts.get("form.language"), "text-muted"), languages);
        languages.setAccessibleText(texts.get("form.language"));
        Button write = Ui.button("form-write", Feather.DOWNLOAD, texts.get("bundle.write"), this::choose);
        show(
                look,
                560,
                0,
                Ui.wrapped(texts.get("form.text"), "text-muted"),
                grid,
                ProblemLabel.of("form-problem", model.problemProperty()),
                foot(model.whyNotProperty(), write, stage::close));
    }

    private static <T> StringConverter<T> shown(java.util.function.Function<T, String> words) {
        return new StringConverter<>() {
            @Override
            public String toString(@Nullable T value) {
                return value == null ? "" : words.apply(value);
            }

            @Override
            public T fromString(String text) {
                throw new UnsupportedOperationException("chosen, not typed");
            }
        };
    }

    private void choose() {
        FileChooser chooser = new FileChooser();
        chooser.setTitle(stage.getTitle());
        chooser.setInitialFileName(model.code() + ".xlsx");
        chooser.getExtensionFilters().add(new FileChooser.ExtensionFilter(texts.get("cases.workbook"), "*.xlsx"));
        File chosen = chooser.showSaveDialog(stage);
        if (chosen != null) {
            model.write(chosen.toPath());
        }
    }
}
