package org.sideport.app.review;

import javafx.beans.binding.Bindings;
import javafx.scene.Node;
import javafx.scene.control.ButtonBar;
import javafx.scene.control.ButtonType;
import javafx.scene.control.Dialog;
import javafx.scene.control.Label;
import javafx.scene.control.ListCell;
import javafx.scene.control.ListView;
import javafx.scene.control.TextField;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.ToggleGroup;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import javafx.stage.Window;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Formats;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.PointEvent;
import org.sideport.model.Procedure;
import org.sideport.model.Procedure.EventKind;
import org.sideport.model.Severity;

/** Asks what happened at a frame. */
final class EventDialog extends Dialog<ButtonType> {

    EventDialog(Window owner, Texts texts, ReviewViewModel model, Procedure procedure, EventDraft draft) {
        initOwner(owner);
        PointEvent old = draft.replaces();
        setTitle(texts.get(old == null ? "event.title.new" : "event.title.change"));
        setHeaderText(null);
        ListView<EventKind> kinds = Ui.styled(new ListView<>(), "dense");
        kinds.setId("event-kinds");
        kinds.getItems().setAll(procedure.events());
        kinds.setCellFactory(view -> new KindCell(texts, view));
        kinds.setPrefHeight(300);
        ToggleGroup severities = new ToggleGroup();
        HBox severity = severityBox(texts, severities, old == null ? null : old.severity());
        TextField note = new TextField(old == null ? "" : old.note());
        note.setId("event-note");
        note.setPromptText(texts.get("event.note.prompt"));
        VBox content = new VBox(
                Ui.STEP,
                Ui.label(texts.get("event.at", Formats.clock(draft.at())), "digits"),
                kinds,
                Ui.label(texts.get("event.severity"), "small", "text-muted"),
                severity,
                Ui.label(texts.get("event.note"), "small", "text-muted"),
                note);
        getDialogPane().setContent(content);
        ButtonType keep = new ButtonType(texts.get("event.keep"), ButtonBar.ButtonData.OK_DONE);
        ButtonType cancel = new ButtonType(texts.get("cancel"), ButtonBar.ButtonData.CANCEL_CLOSE);
        getDialogPane().getButtonTypes().setAll(keep, cancel);
        Node keepButton = getDialogPane().lookupButton(keep);
        keepButton.setId("event-keep");
        keepButton
                .disableProperty()
                .bind(Bindings.isNull(kinds.getSelectionModel().selectedItemProperty()));
        if (old != null) {
            procedure
                    .findEvent(old.kind())
                    .ifPresent(kind -> kinds.getSelectionModel().select(kind));
        }
        // the list keeps these keys to itself
        kinds.addEventFilter(KeyEvent.KEY_PRESSED, event -> {
            if (event.getCode() == KeyCode.ESCAPE) {
                event.consume();
                setResult(cancel);
            } else if (event.getCode() == KeyCode.ENTER && !keepButton.isDisabled()) {
                event.consume();
                setResult(keep);
            }
        });
        setOnShown(event -> kinds.requestFocus());
        setResultConverter(button -> button);
        setOnHidden(event -> {
            EventKind kind = kinds.getSelectionModel().getSelectedItem();
            if (getResult() == keep && kind != null) {
                model.saveEvent(kind.id(), chosen(severities), note.getText());
            } else {
                model.cancelEvent();
            }
        });
    }

    private static HBox severityBox(Texts texts, ToggleGroup group, @Nullable Severity chosen) {
        HBox box = Ui.styled(new HBox(), "segmented");
        Severity[] all = Severity.values();
        for (int i = 0; i < all.length; i++) {
            ToggleButton button = new ToggleButton(texts.get("severity." + all[i].name()));
            button.setId("severity-" + all[i].id());
            button.getStyleClass().add(i == 0 ? "left-pill" : i == all.length - 1 ? "right-pill" : "center-pill");
            button.setToggleGroup(group);
            button.setUserData(all[i]);
            button.setSelected(all[i] == chosen);
            box.getChildren().add(button);
        }
        return box;
    }

    private static @Nullable Severity chosen(ToggleGroup group) {
        return group.getSelectedToggle() == null
                ? null
                : (Severity) group.getSelectedToggle().getUserData();
    }

    private static final class KindCell extends ListCell<EventKind> {

        private final Texts texts;
        private final Label name = Ui.label("");
        private final Label what = Ui.wrapped("", "small", "text-muted");
        private final VBox box = new VBox(0, name, what);

        KindCell(Texts texts, ListView<EventKind> list) {
            this.texts = texts;
            setPrefWidth(0);
            // room for the bar that scrolls
            what.prefWidthProperty().bind(list.widthProperty().subtract(Ui.STEP * 6));
        }

        @Override
        protected void updateItem(EventKind kind, boolean empty) {
            super.updateItem(kind, empty);
            if (empty || kind == null) {
                setGraphic(null);
                return;
            }
            name.setText(kind.name());
            what.setText(texts.get(kind.complication() ? "event.complication" : "event.moment", kind.definition()));
            setGraphic(box);
        }
    }
}
