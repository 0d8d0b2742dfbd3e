package org.sideport.app.compare;

import java.util.List;
import javafx.geometry.Bounds;
import javafx.scene.control.ListCell;
import javafx.scene.control.ListView;
import javafx.scene.control.TextField;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.stage.Popup;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.Veiled;
import org.sideport.app.compare.PairDesk.Side;
import org.sideport.model.SurgicalCase;
import org.sideport.workflow.CompareCases.Candidate;
import org.sideport.workflow.CompareCases.Choice;

/** Where the case of one side is typed or chosen from a list that narrows while one types. */
final class CaseField extends TextField {

    private static final double ROW = 28;
    private static final int ROWS = 10;

    private final CompareViewModel model;
    private final Side side;
    private final ListView<Candidate> list = new ListView<>();
    private final Popup popup = new Popup();
    private boolean setting;
    /** Nothing was clicked or typed since the field got the keyboard. */
    private boolean fresh;

    CaseField(CompareViewModel model, Side side, Texts texts) {
        this.model = model;
        this.side = side;
        String name = texts.get(side == Side.LEFT ? "compare.left" : "compare.right");
        setId(side == Side.LEFT ? "case-left" : "case-right");
        setPromptText(texts.get("compare.choose"));
        setAccessibleText(texts.get("compare.choose") + " " + name);
        setPrefColumnCount(9);
        list.setId(side == Side.LEFT ? "cases-left" : "cases-right");
        list.setFixedCellSize(ROW);
        list.setPrefWidth(320);
        list.setFocusTraversable(false);
        list.setCellFactory(view -> new ListCell<>() {
            @Override
            protected void updateItem(@Nullable Candidate item, boolean empty) {
                super.updateItem(item, empty);
                setText(empty || item == null ? "" : words(item, texts));
            }
        });
        list.setOnMouseClicked(event -> take(list.getSelectionModel().getSelectedItem()));
        popup.getContent().add(Ui.styled(new javafx.scene.layout.StackPane(list), "case-popup"));
        popup.setAutoHide(true);
        textProperty().addListener((property, old, now) -> {
            if (!setting && isFocused()) {
                offer(now);
            }
        });
        focusedProperty().addListener((property, old, now) -> {
            fresh = now;
            if (now) {
                selectAll();
            } else {
                popup.hide();
                showChoice(model.choiceProperty(side).get());
            }
        });
        setOnMouseClicked(event -> {
            // the click that came in has set the caret: what is typed next is another case all the same
            if (fresh) {
                fresh = false;
                selectAll();
            }
            offer(getSelection().getLength() == 0 ? getText() : "");
        });
        addEventFilter(KeyEvent.KEY_PRESSED, this::key);
        model.choiceProperty(side).addListener((property, old, now) -> showChoice(now));
        showChoice(model.choiceProperty(side).get());
    }

    static String words(Candidate candidate, Texts texts) {
        SurgicalCase one = candidate.surgicalCase();
        String text = texts.get("compare.candidate", one.code(), Veiled.trainee(one, texts), Veiled.day(one, texts));
        return candidate.exemplar() ? text + "  " + texts.get("compare.exemplarMark") : text;
    }

    private void showChoice(@Nullable Choice choice) {
        setting = true;
        setText(choice == null ? "" : choice.caseCode());
        setting = false;
    }

    private void offer(String text) {
        List<Candidate> found = model.search(text);
        if (found.isEmpty() || getScene() == null) {
            popup.hide();
            return;
        }
        list.getItems().setAll(found);
        list.getSelectionModel().selectFirst();
        list.setPrefHeight(Math.min(found.size(), ROWS) * ROW + 4);
        if (!popup.isShowing()) {
            Bounds at = localToScreen(getBoundsInLocal());
            popup.show(this, at.getMinX(), at.getMaxY() + 2);
        }
    }

    private void key(KeyEvent event) {
        KeyCode code = event.getCode();
        if (code == KeyCode.DOWN || code == KeyCode.UP) {
            if (!popup.isShowing()) {
                offer("");
            } else if (code == KeyCode.DOWN) {
                list.getSelectionModel().selectNext();
            } else {
                list.getSelectionModel().selectPrevious();
            }
            list.scrollTo(list.getSelectionModel().getSelectedIndex());
            event.consume();
        } else if (code == KeyCode.ENTER) {
            if (popup.isShowing() && list.getSelectionModel().getSelectedItem() != null) {
                take(list.getSelectionModel().getSelectedItem());
            } else {
                model.choose(side, getText());
                leave();
            }
            event.consume();
        } else if (code == KeyCode.ESCAPE && popup.isShowing()) {
            popup.hide();
            event.consume();
        }
    }

    private void take(@Nullable Candidate chosen) {
        popup.hide();
        if (chosen != null) {
            model.choose(side, chosen.surgicalCase().code());
            leave();
        }
    }

    /** Gives the keyboard back to the screen, whose keys then work. */
    private void leave() {
        if (getParent() != null) {
            getParent().requestFocus();
        }
    }
}
