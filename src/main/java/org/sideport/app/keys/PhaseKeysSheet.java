package org.sideport.app.keys;

import java.util.Locale;
import javafx.scene.control.Button;
import javafx.scene.control.ButtonBar;
import javafx.scene.control.ButtonType;
import javafx.scene.control.Dialog;
import javafx.scene.control.Label;
import javafx.scene.control.ListCell;
import javafx.scene.control.ListView;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import javafx.stage.Window;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.PhaseColours;
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.Procedure;
import org.sideport.model.Procedure.Term;

/** Shows which key starts which phase; a key pressed on a row becomes that phase's. */
public final class PhaseKeysSheet extends Dialog<ButtonType> {

    private final Texts texts;
    private final PhaseKeys keys;
    private final Procedure file;
    private final ListView<Term> rows = Ui.styled(new ListView<>(), "dense", "phase-keys");
    private final Label message;
    private final Button reset;

    public PhaseKeysSheet(Window owner, Texts texts, PhaseKeys keys, Procedure file) {
        this.texts = texts;
        this.keys = keys;
        this.file = file;
        initOwner(owner);
        setTitle(texts.get("phaseKeys.title"));
        setHeaderText(null);
        rows.setId("phase-keys");
        rows.setPrefSize(432, 420);
        rows.setCellFactory(view -> new Cell());
        rows.addEventFilter(KeyEvent.KEY_PRESSED, this::pressed);
        message = Ui.wrapped(texts.get("keys.how"), "small");
        message.setId("phase-keys-message");
        message.setPrefWidth(432);
        message.setMinHeight(40);
        reset = Ui.button("phase-keys-reset", Feather.ROTATE_CCW, texts.get("keys.reset"), () -> {
            keys.reset(file);
            say(texts.get("keys.reset.done"), false);
            fill();
        });
        VBox content = new VBox(
                Ui.STEP, Ui.wrapped(texts.get("keys.meaning", file.title()), "text-muted"), rows, message, reset);
        VBox.setVgrow(rows, Priority.ALWAYS);
        getDialogPane().setContent(Ui.styled(content, "padded"));
        getDialogPane().setPrefWidth(464);
        getDialogPane().getButtonTypes().setAll(new ButtonType(texts.get("close"), ButtonBar.ButtonData.CANCEL_CLOSE));
        fill();
        rows.getSelectionModel().select(0);
        setOnShown(event -> rows.requestFocus());
    }

    private void fill() {
        int chosen = Math.max(0, rows.getSelectionModel().getSelectedIndex());
        rows.getItems().setAll(keys.applied(file).terms());
        rows.getSelectionModel().select(chosen);
        rows.getFocusModel().focus(chosen);
        reset.setDisable(!keys.isChanged(file));
    }

    private void pressed(KeyEvent event) {
        Term term = rows.getSelectionModel().getSelectedItem();
        boolean modified = event.isControlDown() || event.isAltDown() || event.isMetaDown() || event.isShiftDown();
        if (term == null || modified) {
            return;
        }
        KeyCode code = event.getCode();
        if (code == KeyCode.ESCAPE) {
            close();
        } else if (code == KeyCode.BACK_SPACE || code == KeyCode.DELETE) {
            set(term, "");
        } else if (code.isDigitKey() || code.isKeypadKey()) {
            set(term, code.getName().substring(code.getName().length() - 1));
        } else if (!event.getText().isBlank()
                && !Character.isISOControl(event.getText().charAt(0))) {
            set(term, event.getText());
        } else {
            return;
        }
        event.consume();
    }

    private void set(Term term, String key) {
        String cap = key.toUpperCase(Locale.ROOT);
        PhaseKeys.Conflict conflict = keys.set(file, term, key).orElse(null);
        if (conflict instanceof PhaseKeys.Conflict.WithTerm with) {
            say(texts.get("keys.taken.phase", cap, nameOf(with.term())), true);
        } else if (conflict instanceof PhaseKeys.Conflict.WithShortcut with) {
            say(texts.get("keys.taken.shortcut", cap, texts.get(with.shortcut().textKey())), true);
        } else if (conflict != null) {
            say(texts.get("keys.noKey"), true);
        } else {
            say(texts.get(key.isEmpty() ? "keys.none" : "keys.set", nameOf(term), cap), false);
            fill();
        }
    }

    private void say(String words, boolean problem) {
        message.setText(words);
        message.getStyleClass().remove("warning-note");
        if (problem) {
            message.getStyleClass().add("warning-note");
        }
    }

    private String nameOf(Term term) {
        return term.phase().idle() ? texts.get("palette.idle") : term.name();
    }

    /** Words for the button and the tooltip that open the sheet. */
    public static String tooltip(Texts texts) {
        return Ui.withKey(texts, Shortcut.PHASE_KEYS);
    }

    private final class Cell extends ListCell<Term> {

        private final Label swatch = Ui.label("", "swatch");
        private final Label name = Ui.label("");
        private final Label cap = Ui.label("", "key-cap");
        private final HBox box = new HBox(Ui.STEP, swatch, name, Ui.spring(), cap);

        Cell() {
            box.setAlignment(javafx.geometry.Pos.CENTER_LEFT);
            cap.setMinWidth(24);
            setPrefWidth(0);
        }

        @Override
        protected void updateItem(Term term, boolean empty) {
            super.updateItem(term, empty);
            if (empty || term == null) {
                setGraphic(null);
                return;
            }
            boolean idle = term.phase().idle();
            swatch.setText(idle ? "" : term.shortName());
            swatch.getStyleClass().remove("idle-swatch");
            if (idle) {
                swatch.getStyleClass().add("idle-swatch");
                swatch.setStyle("");
            } else {
                swatch.setStyle(PhaseColours.of(file, termInFile(term)).style());
            }
            name.setText(nameOf(term));
            cap.setText(term.key().isEmpty() ? " " : term.key().toUpperCase(Locale.ROOT));
            box.setPadding(new javafx.geometry.Insets(0, 0, 0, term.isStep() ? Ui.STEP * 3 : 0));
            setGraphic(box);
        }

        /** Colours go by the phase of the file: one with another key is not equal to it. */
        private Term termInFile(Term term) {
            return file.find(term.id()).orElse(term);
        }
    }
}
