package org.sideport.app.marking;

import javafx.css.PseudoClass;
import javafx.geometry.Pos;
import javafx.scene.AccessibleRole;
import javafx.scene.control.Label;
import javafx.scene.input.MouseButton;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import org.sideport.app.Ui;

/**
 * One of the things an item can be given: its key, its name and, if it has one, the whole anchor, wrapped. A toggle
 * button would not grow with its text.
 */
final class Choice extends HBox {

    private static final PseudoClass SELECTED = PseudoClass.getPseudoClass("selected");

    private final Object value;
    private boolean selected;

    /** @param value points or a reason */
    Choice(String id, Object value, String key, String name, String anchor, Runnable action) {
        super(Ui.STEP);
        this.value = value;
        setId(id);
        getStyleClass().add("choice");
        setAlignment(Pos.CENTER_LEFT);
        Label cap = Ui.label(key, "key-cap");
        cap.setMinWidth(24);
        Label title = Ui.label(name, "level-name");
        title.setMinWidth(Region.USE_PREF_SIZE);
        VBox words = new VBox(0, title);
        words.setAlignment(Pos.CENTER_LEFT);
        if (!anchor.isEmpty()) {
            words.getChildren().add(Ui.wrapped(anchor, "small", "anchor"));
        }
        HBox.setHgrow(words, Priority.ALWAYS);
        getChildren().addAll(cap, words);
        setAccessibleRole(AccessibleRole.RADIO_BUTTON);
        setAccessibleText(key + " " + name + ". " + anchor);
        setOnMouseClicked(event -> {
            if (event.getButton() == MouseButton.PRIMARY) {
                action.run();
            }
        });
    }

    Object value() {
        return value;
    }

    boolean isSelected() {
        return selected;
    }

    void setSelected(boolean now) {
        selected = now;
        pseudoClassStateChanged(SELECTED, now);
    }
}
