package org.sideport.app.cases;

import java.util.function.Consumer;
import javafx.beans.binding.Bindings;
import javafx.geometry.Pos;
import javafx.geometry.VPos;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.ComboBox;
import javafx.scene.control.DatePicker;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.TextField;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import javafx.stage.Modality;
import javafx.stage.Stage;
import javafx.stage.Window;
import javafx.util.StringConverter;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.ProblemLabel;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.ConsentState;

/** The sheet of a case: descriptors and machine readings on the left, consent and its keeping on the right. */
final class EditCaseDialog {

    private final EditCaseViewModel model;
    private final Texts texts;
    private final Stage stage = new Stage();

    EditCaseDialog(Window owner, EditCaseViewModel model, Texts texts) {
        this.model = model;
        this.texts = texts;
        stage.initOwner(owner);
        stage.initModality(Modality.WINDOW_MODAL);
        stage.setTitle(texts.get("edit.title", model.surgicalCase().code()));
    }

    void show(Consumer<Scene> look) {
        ScrollPane left = Ui.styled(new ScrollPane(descriptors()), "edge-to-edge");
        left.setFitToWidth(true);
        HBox.setHgrow(left, Priority.ALWAYS);
        HBox columns = new HBox(Ui.STEP * 3, left, right());
        VBox.setVgrow(columns, Priority.ALWAYS);
        VBox content = Ui.styled(
                new VBox(Ui.STEP * 2, columns, ProblemLabel.of("edit-problem", model.problemProperty()), buttons()),
                "dialog-content");
        Scene scene = new Scene(content, 960, 640);
        look.accept(scene);
        stage.setScene(scene);
        Ui.growWithLetters(stage);
        stage.show();
    }

    void close() {
        stage.close();
    }

    private static GridPane grid() {
        GridPane grid = new GridPane();
        grid.setHgap(Ui.STEP);
        grid.setVgap(Ui.STEP);
        return grid;
    }

    private Node descriptors() {
        GridPane grid = grid();
        TextField trainee = new TextField();
        trainee.setId("edit-trainee");
        trainee.textProperty().bindBidirectional(model.traineeProperty());
        row(grid, texts.get("cases.column.trainee"), trainee);
        DatePicker date = DaysDialog.picker("edit-date", null);
        date.valueProperty().bindBidirectional(model.dateProperty());
        row(grid, texts.get("cases.column.date"), date);
        new DescriptorForm(texts, model.descriptors(), grid).addAll(model.procedure());
        return grid;
    }

    private static void row(GridPane grid, String name, Node field) {
        int row = grid.getRowCount();
        Label label = Ui.wrapped(name, "text-muted", "field-name", "form-name");
        label.setLabelFor(field);
        grid.add(label, 0, row);
        grid.add(field, 1, row);
        GridPane.setValignment(label, VPos.TOP);
        GridPane.setHgrow(field, Priority.ALWAYS);
    }

    private Node right() {
        GridPane grid = grid();
        ComboBox<ConsentState> state = new ComboBox<>();
        state.setId("edit-consent");
        state.getItems().setAll(ConsentState.values());
        state.setConverter(new StringConverter<>() {
            @Override
            public String toString(ConsentState shown) {
                return shown == null ? "" : texts.get("consent.state." + shown.name());
            }

            @Override
            public ConsentState fromString(String text) {
                throw new UnsupportedOperationException("chosen, not typed");
            }
        });
        state.setMaxWidth(Double.MAX_VALUE);
        state.valueProperty().bindBidirectional(model.consentProperty());
        row(grid, texts.get("cases.column.consent"), state);
        VBox purposes = new VBox(Ui.STEP / 2);
        for (ConsentPurpose purpose : ConsentPurpose.values()) {
            CheckBox check = new CheckBox(texts.get("consent.purpose." + purpose.name()));
            check.setId("purpose-" + purpose.id());
            check.setSelected(model.purposes().contains(purpose));
            check.selectedProperty().addListener((property, old, now) -> {
                if (now) {
                    model.purposes().add(purpose);
                } else {
                    model.purposes().remove(purpose);
                }
            });
            purposes.getChildren().add(check);
        }
        row(grid, texts.get("consent.purposes"), purposes);
        TextField by = new TextField();
        by.setId("edit-consent-by");
        by.setPromptText(texts.get("edit.consent.byMe"));
        by.textProperty().bindBidirectional(model.consentByProperty());
        row(grid, texts.get("consent.recorded"), by);
        DatePicker on = DaysDialog.picker("edit-consent-on", null);
        on.valueProperty().bindBidirectional(model.consentOnProperty());
        row(grid, texts.get("edit.consent.on"), on);
        for (Node node : java.util.List.of(purposes, by, on)) {
            node.disableProperty()
                    .bind(Bindings.createBooleanBinding(
                            () -> model.consentProperty().get() == ConsentState.UNKNOWN, model.consentProperty()));
        }
        GridPane keeping = grid();
        DatePicker review = DaysDialog.picker("edit-review", null);
        review.valueProperty().bindBidirectional(model.reviewByProperty());
        row(keeping, texts.get("cases.column.review"), review);
        VBox box = new VBox(
                Ui.STEP,
                Ui.label(texts.get("detail.consent"), "section"),
                grid,
                Ui.wrapped(texts.get("edit.consent.text"), "small", "text-muted"),
                Ui.label(texts.get("edit.keeping"), "section", "group-heading"),
                keeping,
                Ui.wrapped(texts.get("edit.keeping.text"), "small", "text-muted"));
        box.getStyleClass().add("keeping-form");
        return box;
    }

    private Node buttons() {
        TextField by = new TextField();
        by.setId("edit-by");
        by.setPrefColumnCount(7);
        by.setPromptText(texts.get("review.annotator.prompt"));
        by.textProperty().bindBidirectional(model.byProperty());
        if (model.isByFixed()) {
            Ui.fixed(by, texts.get("who.own", by.getText()));
        }
        Label who = Ui.label(texts.get("edit.by"), "text-muted");
        who.setLabelFor(by);
        Button save = Ui.button("edit-save", Feather.CHECK, texts.get("edit.save"), model::save);
        save.getStyleClass().add("accent");
        save.setDefaultButton(true);
        Button cancel = Ui.button("edit-cancel", null, texts.get("cancel"), stage::close);
        cancel.setCancelButton(true);
        Label why = Ui.label("", "small", "text-muted");
        why.textProperty().bind(model.whyNotProperty());
        HBox box = new HBox(Ui.STEP, who, by, Ui.spring(), why, cancel, Ui.reasoned(save, model.whyNotProperty()));
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }
}
