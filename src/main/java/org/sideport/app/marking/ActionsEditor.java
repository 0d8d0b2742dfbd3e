package org.sideport.app.marking;

import java.util.List;
import java.util.stream.IntStream;
import javafx.scene.control.TextField;
import javafx.scene.control.TitledPane;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.VBox;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.Rating;

/** What trainee and assessor agreed to work on next. */
final class ActionsEditor extends TitledPane {

    private final MarkingViewModel model;
    private final Texts texts;
    private final List<TextField> fields;

    ActionsEditor(MarkingViewModel model, Texts texts) {
        this.model = model;
        this.texts = texts;
        setId("actions");
        setExpanded(false);
        setAnimated(false);
        setFocusTraversable(false);
        setTooltip(new Tooltip(Ui.withKey(texts, Shortcut.ACTIONS)));
        getStyleClass().add("dense");
        fields = IntStream.rangeClosed(1, Rating.MOST_ACTIONS)
                .mapToObj(this::field)
                .toList();
        VBox box = new VBox(Ui.STEP / 2);
        box.getChildren().addAll(fields);
        setContent(box);
    }

    private TextField field(int number) {
        TextField field = new TextField();
        field.setId("action-" + number);
        field.setPromptText(texts.get("actions.prompt", number));
        field.getStyleClass().add("small");
        field.setOnAction(event -> onward(field, number));
        field.textProperty().addListener((property, old, now) -> {
            if (field.isFocused()) {
                keep();
            }
        });
        field.focusedProperty().addListener((property, old, now) -> {
            if (!now) {
                keep();
            }
        });
        return field;
    }

    /** Opens it, at the first action that is still to be written. */
    void edit() {
        if (isDisabled()) {
            return;
        }
        setExpanded(true);
        Ui.focusByKey(fields.stream()
                .filter(field -> field.getText().isBlank())
                .findFirst()
                .orElse(fields.get(0)));
    }

    /** On to the next action; an empty one, or the last, ends the writing and gives its room back. */
    private void onward(TextField field, int number) {
        keep();
        if (number < fields.size() && !field.getText().isBlank()) {
            fields.get(number).requestFocus();
        } else {
            requestFocus();
            setExpanded(false);
        }
    }

    private void keep() {
        model.agree(fields.stream().map(TextField::getText).toList());
    }

    /** Shows what is stored; what is being typed stays. */
    void show(@Nullable Rating rating, boolean closed) {
        List<String> actions = rating == null ? List.of() : rating.actions();
        setText(texts.get("actions.title", actions.size()));
        setDisable(rating == null);
        if (fields.stream().anyMatch(TextField::isFocused)) {
            return;
        }
        for (int i = 0; i < fields.size(); i++) {
            fields.get(i).setText(i < actions.size() ? actions.get(i) : "");
            fields.get(i).setEditable(!closed);
        }
    }
}
