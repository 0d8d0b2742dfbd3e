package org.sideport.app.compare;

import java.util.function.BiConsumer;
import javafx.beans.binding.Bindings;
import javafx.scene.Node;
import javafx.scene.control.ButtonBar;
import javafx.scene.control.ButtonType;
import javafx.scene.control.CheckBox;
import javafx.scene.control.Dialog;
import javafx.scene.control.TextField;
import javafx.scene.layout.VBox;
import javafx.stage.Window;
import org.sideport.app.Texts;
import org.sideport.app.Ui;

/** Asks what a case shows, why it was chosen and by whom. */
final class ExemplarDialog extends Dialog<ButtonType> {

    /**
     * What was written.
     *
     * @param usual true to offer it first
     */
    record Answer(String title, String why, String person, boolean usual) {}

    /** @param own true if the person is who signed in */
    ExemplarDialog(
            Window owner,
            Texts texts,
            String code,
            String annotator,
            String person,
            boolean own,
            BiConsumer<String, Answer> use) {
        initOwner(owner);
        setTitle(texts.get("exemplar.title", code));
        setHeaderText(null);
        TextField title = field("exemplar-title", texts.get("exemplar.shows.prompt"), "");
        TextField why = field("exemplar-why", "", "");
        TextField who = field("exemplar-person", "", person);
        if (own) {
            Ui.fixed(who, texts.get("who.own", person));
        }
        CheckBox usual = new CheckBox(texts.get("exemplar.usual"));
        usual.setId("exemplar-usual");
        usual.setWrapText(true);
        VBox content = new VBox(
                Ui.STEP,
                Ui.wrapped(texts.get("exemplar.text", annotator), "small", "text-muted"),
                Ui.label(texts.get("exemplar.shows"), "small", "text-muted"),
                title,
                Ui.label(texts.get("exemplar.why"), "small", "text-muted"),
                why,
                Ui.label(texts.get("exemplar.person"), "small", "text-muted"),
                who,
                usual);
        content.getStyleClass().add("small-form");
        getDialogPane().setContent(content);
        ButtonType keep = new ButtonType(texts.get("exemplar.keep"), ButtonBar.ButtonData.OK_DONE);
        ButtonType cancel = new ButtonType(texts.get("cancel"), ButtonBar.ButtonData.CANCEL_CLOSE);
        getDialogPane().getButtonTypes().setAll(keep, cancel);
        Node keepButton = getDialogPane().lookupButton(keep);
        keepButton.setId("exemplar-keep");
        keepButton
                .disableProperty()
                .bind(Bindings.createBooleanBinding(
                        () -> title.getText().isBlank() || who.getText().isBlank(),
                        title.textProperty(),
                        who.textProperty()));
        setOnShown(event -> title.requestFocus());
        setResultConverter(button -> button);
        setOnHidden(event -> {
            if (getResult() == keep) {
                use.accept(code, new Answer(title.getText(), why.getText(), who.getText(), usual.isSelected()));
            }
        });
    }

    private static TextField field(String id, String prompt, String value) {
        TextField field = new TextField(value);
        field.setId(id);
        field.setPromptText(prompt);
        return field;
    }
}
