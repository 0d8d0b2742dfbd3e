package org.sideport.app.frame;

import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.layout.VBox;
import org.kordamp.ikonli.feather.Feather;
import org.kordamp.ikonli.javafx.FontIcon;
import org.sideport.app.Ui;

/** What a screen shows when there is nothing on it yet: what to do next, and the button for it. */
public final class EmptyState extends VBox {

    public EmptyState(Feather icon, String title, String text, Node... actions) {
        super(Ui.STEP);
        getStyleClass().add("empty-state");
        setAlignment(Pos.CENTER);
        FontIcon picture = Ui.styled(new FontIcon(icon), "empty-icon");
        Label words = Ui.wrapped(text, "text-muted");
        words.setAlignment(Pos.CENTER);
        words.setStyle("-fx-text-alignment: center;");
        getChildren().addAll(picture, Ui.label(title, "large"), words);
        getChildren().addAll(actions);
    }
}
