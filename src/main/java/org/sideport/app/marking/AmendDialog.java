package org.sideport.app.marking;

import java.util.function.Consumer;
import javafx.beans.binding.Bindings;
import javafx.scene.control.Alert;
import javafx.scene.control.ButtonBar;
import javafx.scene.control.ButtonType;
import javafx.scene.control.TextField;
import javafx.scene.layout.VBox;
import javafx.stage.Window;
import org.sideport.app.Texts;
import org.sideport.app.Ui;

/** Asks why signed marks are to change. */
record AmendDialog(Texts texts) {

    private static final double WIDTH = 480;

    /** Does it with the reason, if one was given. Does not wait. */
    void ask(Window owner, Consumer<String> amend) {
        Alert alert = new Alert(Alert.AlertType.CONFIRMATION);
        alert.initOwner(owner);
        alert.setTitle(texts.get("amend.title"));
        alert.setHeaderText(null);
        alert.setGraphic(null);
        TextField reason = new TextField();
        reason.setId("amend-reason");
        reason.setPromptText(texts.get("amend.reason"));
        reason.setAccessibleText(texts.get("amend.reason"));
        VBox asked = Ui.styled(new VBox(Ui.STEP, Ui.wrapped(texts.get("amend.text")), reason), "padded");
        asked.setPrefWidth(WIDTH);
        alert.getDialogPane().setContent(asked);
        alert.getDialogPane().getStylesheets().setAll(owner.getScene().getStylesheets());
        ButtonType yes = new ButtonType(texts.get("amend.yes"), ButtonBar.ButtonData.OK_DONE);
        alert.getButtonTypes().setAll(yes, new ButtonType(texts.get("amend.no"), ButtonBar.ButtonData.CANCEL_CLOSE));
        var button = alert.getDialogPane().lookupButton(yes);
        button.setId("amend-yes");
        button.disableProperty()
                .bind(Bindings.createBooleanBinding(() -> reason.getText().isBlank(), reason.textProperty()));
        alert.setOnShown(event -> reason.requestFocus());
        alert.setOnHidden(event -> {
            if (alert.getResult() == yes) {
                amend.accept(reason.getText());
            }
        });
        alert.show();
    }
}
