package org.sideport.app.rubric;

import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import javafx.scene.Node;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Control;
import javafx.scene.control.Label;
import javafx.scene.control.TextArea;
import javafx.scene.control.TextField;
import javafx.scene.control.TextInputControl;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.VBox;
import javafx.util.StringConverter;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Ui;
import org.sideport.rubric.Finding;
import org.sideport.rubric.RubricDraft;

/** One place of the draft: its name, what is written into it, and what is wrong with it. */
final class DraftField extends VBox {

    private static final double LINE = 20;
    private static final int LONGEST_LINE = 56;

    /** When what is typed goes into the draft. */
    enum When {
        AT_EACH_STROKE,
        /** for names that other places follow: a half-typed one would mix them up */
        ON_LEAVING
    }

    private final RubricEditorViewModel model;
    private final String path;
    private final Control control;
    private final Label faults = Ui.wrapped("", "small", "critical-note");
    private boolean showing;

    private DraftField(RubricEditorViewModel model, String path, String name, Control control) {
        super(2);
        this.model = model;
        this.path = path;
        this.control = control;
        control.setId(idOf(path));
        control.setAccessibleText(name);
        Label label = Ui.wrapped(name, "small", "text-muted");
        label.setLabelFor(control);
        faults.setId(idOf(path) + "-faults");
        faults.setVisible(false);
        faults.setManaged(false);
        control.setMaxWidth(Double.MAX_VALUE);
        getChildren().addAll(label, control, faults);
    }

    /** Id of the control for a place. */
    static String idOf(String path) {
        return "field" + path.replaceAll("[^A-Za-z0-9_-]", "-");
    }

    static DraftField line(RubricEditorViewModel model, String path, String name, When when) {
        TextField field = new TextField();
        field.getStyleClass().add("draft-line");
        DraftField made = new DraftField(model, path, name, field);
        made.typed(field, when);
        return made;
    }

    /** For sentences: grows with its lines; Tab goes on to the next field. */
    static DraftField lines(RubricEditorViewModel model, String path, String name) {
        TextArea area = new TextArea();
        area.setWrapText(true);
        area.addEventFilter(KeyEvent.KEY_PRESSED, event -> {
            if (event.getCode() == KeyCode.TAB && !event.isControlDown() && !event.isAltDown()) {
                // what the text field of one line would have done with it
                TabKey.go(area, event.isShiftDown());
                event.consume();
            }
        });
        area.getStyleClass().add("draft-lines");
        DraftField made = new DraftField(model, path, name, area);
        area.textProperty().addListener((property, old, now) -> made.grow(area));
        area.widthProperty().addListener((property, old, now) -> made.grow(area));
        made.typed(area, When.AT_EACH_STROKE);
        return made;
    }

    /**
     * @param values what can be written there; empty for nothing, where that is possible
     * @param names of the values, in their order
     */
    static DraftField choice(
            RubricEditorViewModel model, String path, String name, List<String> values, List<String> names) {
        ComboBox<String> box = new ComboBox<>();
        box.getItems().setAll(values);
        box.setConverter(new StringConverter<>() {
            @Override
            public String toString(@Nullable String value) {
                int at = value == null ? -1 : values.indexOf(value);
                return at < 0 ? Objects.requireNonNullElse(value, "") : names.get(at);
            }

            @Override
            public String fromString(String text) {
                throw new UnsupportedOperationException("chosen, not typed");
            }
        });
        DraftField made = new DraftField(model, path, name, box);
        box.valueProperty().addListener((property, old, now) -> {
            if (!made.showing && now != null) {
                model.pause();
                model.type(path, now);
                model.pause();
            }
        });
        return made;
    }

    /** Around a control that does its own work. */
    static DraftField made(RubricEditorViewModel model, String path, String name, Control control) {
        return new DraftField(model, path, name, control);
    }

    private void typed(TextInputControl field, When when) {
        field.textProperty().addListener((property, old, now) -> {
            if (!showing && when == When.AT_EACH_STROKE) {
                model.type(path, now);
            }
        });
        field.focusedProperty().addListener((property, old, now) -> {
            if (!now) {
                if (when == When.ON_LEAVING) {
                    model.type(path, field.getText());
                }
                model.pause();
            }
        });
        if (field instanceof TextField one) {
            one.setOnAction(event -> model.type(path, one.getText()));
        }
    }

    private void grow(TextArea area) {
        double columns = area.getWidth() > 0 ? Math.max(20, area.getWidth() / 9) : LONGEST_LINE;
        long rows = area.getText()
                .lines()
                .mapToLong(line -> 1 + (long) (line.length() / columns))
                .sum();
        area.setPrefRowCount((int) Math.max(1, Math.min(12, rows)));
        area.setMinHeight(2 * LINE);
    }

    String path() {
        return path;
    }

    Node control() {
        return control;
    }

    /** Shows what the draft says, but for what is just being typed here. */
    void show(RubricDraft draft) {
        if (model.typing().equals(path)) {
            return;
        }
        String text = draft.text(path);
        showing = true;
        if (control instanceof TextInputControl field && !field.getText().equals(text)) {
            field.setText(text);
            if (field instanceof TextArea area) {
                area.positionCaret(0);
                area.setScrollTop(0);
            } else {
                field.end();
            }
        } else if (control instanceof ComboBox<?> box) {
            choose(box, text);
        }
        showing = false;
    }

    @SuppressWarnings("unchecked") // made by choice(), of texts
    private static void choose(ComboBox<?> box, String text) {
        ((ComboBox<String>) box).setValue(text);
    }

    void showFaults(List<Finding> found) {
        faults.setText(found.stream()
                .map(f -> f.text() + " — " + f.remedy())
                .distinct()
                .collect(Collectors.joining("\n")));
        faults.setVisible(!found.isEmpty());
        faults.setManaged(!found.isEmpty());
        control.setAccessibleHelp(faults.getText());
        control.pseudoClassStateChanged(javafx.css.PseudoClass.getPseudoClass("error"), !found.isEmpty());
    }
}
