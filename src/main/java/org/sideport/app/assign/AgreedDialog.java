package org.sideport.app.assign;

import javafx.collections.FXCollections;
import javafx.event.ActionEvent;
import javafx.scene.Node;
import javafx.scene.control.ButtonBar;
import javafx.scene.control.ButtonType;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Dialog;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.TextField;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.VBox;
import javafx.stage.Window;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.Rating;

/** Asks for marks that people agree upon together, who they are, and why. */
final class AgreedDialog extends Dialog<ButtonType> {

    /** What follows; the window closes before. */
    interface Use {
        void take(Rating agreed, String by, String why);
    }

    private final AgreedDraft draft;
    private final Texts texts;
    private final TextField by = new TextField();
    private final TextField why = new TextField();
    private final Label problem = Ui.wrapped("", "warning-note");

    AgreedDialog(Window owner, Texts texts, String title, String text, AgreedDraft draft, Use use) {
        this.draft = draft;
        this.texts = texts;
        initOwner(owner);
        setTitle(title);
        setHeaderText(null);
        setResizable(true);
        problem.setId("agreed-problem");
        Ui.showIf(problem, problem.textProperty().isNotEmpty());
        ScrollPane items = new ScrollPane(items());
        items.setId("agreed-items");
        items.setFitToWidth(true);
        items.setPrefViewportHeight(380);
        VBox content = new VBox(
                Ui.STEP,
                Ui.wrapped(text, "small", "text-muted"),
                items,
                named("agreed-by", "differ.by", by),
                named("agreed-why", "differ.why", why),
                problem);
        content.setPrefWidth(760);
        getDialogPane().setContent(content);
        ButtonType does = new ButtonType(texts.get("differ.settle"), ButtonBar.ButtonData.OK_DONE);
        getDialogPane()
                .getButtonTypes()
                .setAll(does, new ButtonType(texts.get("cancel"), ButtonBar.ButtonData.CANCEL_CLOSE));
        Node button = getDialogPane().lookupButton(does);
        button.setId("agreed-go");
        button.addEventFilter(ActionEvent.ACTION, event -> {
            problem.setText(fault());
            if (!problem.getText().isEmpty()) {
                event.consume();
            }
        });
        setResultConverter(pressed -> {
            if (pressed == does) {
                use.take(draft.rating(), by.getText(), why.getText());
            }
            return pressed;
        });
    }

    private String fault() {
        if (!draft.missing().isEmpty()) {
            return texts.get("agreed.missing", String.join(", ", draft.missing()));
        }
        return why.getText().isBlank() ? texts.get("agreed.why") : "";
    }

    private GridPane items() {
        GridPane grid = new GridPane();
        grid.setHgap(Ui.STEP * 2);
        grid.setVgap(Ui.STEP);
        for (int i = 0; i < draft.lines().size(); i++) {
            AgreedDraft.Line line = draft.lines().get(i);
            Label title = Ui.wrapped(line.item().title());
            title.setPrefWidth(250);
            Label marks = Ui.wrapped(line.marks(), "digits", "text-muted");
            marks.setPrefWidth(180);
            ComboBox<AgreedDraft.Choice> choice = new ComboBox<>(FXCollections.observableArrayList(line.choices()));
            choice.setId("agreed-" + line.item().id());
            choice.setPrefWidth(240);
            choice.setPromptText(texts.get("agreed.choose"));
            choice.setAccessibleText(line.item().title() + ", " + line.marks());
            choice.setValue(draft.chosen(line));
            choice.valueProperty().addListener((property, old, now) -> draft.choose(line, now));
            title.setLabelFor(choice);
            grid.addRow(i, title, marks, choice);
        }
        return grid;
    }

    private Node named(String id, String key, TextField field) {
        field.setId(id);
        field.setAccessibleText(texts.get(key));
        Label label = Ui.label(texts.get(key), "small", "text-muted");
        label.setLabelFor(field);
        return new VBox(2, label, field);
    }
}
