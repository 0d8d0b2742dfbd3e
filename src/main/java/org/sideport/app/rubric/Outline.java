package org.sideport.app.rubric;

import java.util.List;
import javafx.beans.binding.Bindings;
import javafx.scene.control.Label;
import javafx.scene.control.ListCell;
import javafx.scene.control.ListView;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.rubric.Finding;
import org.sideport.rubric.RubricDraft;

/** The parts of the draft under each other, each with the number of its faults. */
final class Outline extends ListView<Part> {

    /** Beside a name: indent, number of faults, scroll bar; in sizes of a letter. */
    private static final double AROUND = 6.9;

    /** Pixels. */
    private static final double LEAST_NAME = 48;

    private final RubricEditorViewModel model;
    private final Texts texts;
    private boolean showing;

    Outline(RubricEditorViewModel model, Texts texts) {
        this.model = model;
        this.texts = texts;
        setId("rubric-parts");
        getStyleClass().addAll("edge-to-edge", "dense");
        setAccessibleText(texts.get("rubrics.parts"));
        setCellFactory(list -> new Cell());
        getSelectionModel().selectedItemProperty().addListener((property, old, now) -> {
            if (!showing && now != null) {
                model.go(now);
            }
        });
        model.draftProperty().addListener((property, old, now) -> show());
        model.partProperty().addListener((property, old, now) -> show());
        model.findingsProperty().addListener((property, old, now) -> refresh());
        show();
    }

    private void show() {
        RubricDraft draft = model.draftProperty().get();
        showing = true;
        List<Part> parts = draft == null ? List.of() : Part.all(draft);
        if (!parts.equals(getItems())) {
            getItems().setAll(parts);
        } else {
            refresh();
        }
        if (draft != null
                && !model.partProperty().get().equals(getSelectionModel().getSelectedItem())) {
            getSelectionModel().select(model.partProperty().get());
            scrollTo(Math.max(0, getSelectionModel().getSelectedIndex() - 4));
        }
        showing = false;
    }

    private String name(Part part, RubricDraft draft) {
        if (part.kind() == Part.Kind.ITEM) {
            String title = draft.text(part.path() + "/title");
            return title.isBlank() ? texts.get("rubrics.untitled") : title;
        }
        return texts.get("rubrics.part." + part.kind().name());
    }

    private final class Cell extends ListCell<Part> {
        private final Label name = Ui.wrapped("", "data");
        private final Label faults = Ui.label("", "small", "critical-note", "digits");
        private final HBox line = new HBox(Ui.STEP, name, faults);

        Cell() {
            HBox.setHgrow(name, Priority.ALWAYS);
            name.setMaxWidth(Double.MAX_VALUE);
            faults.setMinWidth(Region.USE_PREF_SIZE);
            // as wide as the list, so that long titles are wrapped
            setPrefWidth(0);
            name.prefWidthProperty()
                    .bind(Bindings.createDoubleBinding(
                            () -> Math.max(
                                    LEAST_NAME,
                                    Outline.this.getWidth()
                                            - AROUND * name.getFont().getSize()),
                            Outline.this.widthProperty(),
                            name.fontProperty()));
        }

        @Override
        protected void updateItem(@Nullable Part part, boolean empty) {
            super.updateItem(part, empty);
            RubricDraft draft = model.draftProperty().get();
            if (empty || part == null || draft == null) {
                setGraphic(null);
                setAccessibleText("");
                return;
            }
            boolean item = part.kind() == Part.Kind.ITEM;
            long wrong = model.findingsProperty().get().stream()
                    .filter(Finding::isError)
                    .filter(f -> Part.of(f.path(), draft).equals(part))
                    .count();
            name.setText(name(part, draft));
            line.setStyle(item ? "-fx-padding: 0 0 0 1em;" : "");
            faults.setText(wrong == 0 ? "" : "▲ " + wrong);
            setAccessibleText(wrong == 0 ? name.getText() : texts.get("rubrics.part.faults", name.getText(), wrong));
            setGraphic(line);
        }
    }
}
