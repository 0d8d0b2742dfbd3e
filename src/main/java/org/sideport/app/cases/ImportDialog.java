package org.sideport.app.cases;

import java.nio.file.Path;
import java.util.List;
import java.util.function.Consumer;
import javafx.beans.binding.Bindings;
import javafx.beans.value.ObservableValue;
import javafx.collections.ListChangeListener;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.DatePicker;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressBar;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.TextField;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import javafx.stage.Modality;
import javafx.stage.Stage;
import javafx.stage.Window;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.ProblemLabel;
import org.sideport.app.Texts;
import org.sideport.app.Ui;

/** Dropped files as cases, to be corrected before anything is stored. */
final class ImportDialog {

    private static final int NAMES_SHOWN = 3;

    private final ImportViewModel model;
    private final Texts texts;
    private final Stage stage = new Stage();
    private final VBox list = new VBox(Ui.STEP);

    ImportDialog(Window owner, ImportViewModel model, Texts texts) {
        this.model = model;
        this.texts = texts;
        stage.initOwner(owner);
        stage.initModality(Modality.WINDOW_MODAL);
        stage.setTitle(texts.get("import.title"));
    }

    void show(Consumer<Scene> look) {
        list.setId("import-rows");
        ScrollPane scroll = Ui.styled(new ScrollPane(list), "edge-to-edge");
        scroll.setFitToWidth(true);
        VBox.setVgrow(scroll, Priority.ALWAYS);
        model.rows().addListener((ListChangeListener<ProposedRow>) change -> rows());
        rows();
        VBox content = Ui.styled(
                new VBox(
                        Ui.STEP * 2,
                        Ui.wrapped(texts.get("import.text"), "text-muted"),
                        everyone(),
                        scroll,
                        measuring(),
                        ProblemLabel.of("import-problem", model.problemProperty()),
                        buttons()),
                "dialog-content");
        Scene scene = new Scene(content, 1040, 640);
        look.accept(scene);
        stage.setScene(scene);
        stage.setOnCloseRequest(event -> model.cancel());
        stage.show();
    }

    void close() {
        stage.close();
    }

    private Node everyone() {
        TextField trainee = new TextField();
        trainee.setId("import-trainee");
        trainee.setPromptText(texts.get("add.trainee.prompt"));
        trainee.setPrefColumnCount(8);
        Button fill =
                Ui.button("import-fill", null, texts.get("import.fill"), () -> model.fillTrainee(trainee.getText()));
        trainee.setOnAction(event -> model.fillTrainee(trainee.getText()));
        fill.disableProperty().bind(Bindings.isEmpty(trainee.textProperty()));
        HBox box = new HBox(Ui.STEP, Ui.label(texts.get("import.trainee"), "text-muted"), trainee, fill);
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private void rows() {
        list.getChildren().clear();
        for (int i = 0; i < model.rows().size(); i++) {
            list.getChildren().add(row(model.rows().get(i), i));
        }
    }

    private Node row(ProposedRow row, int index) {
        CheckBox wanted = new CheckBox();
        wanted.setAccessibleText(texts.get("import.wanted"));
        wanted.selectedProperty().bindBidirectional(row.wantedProperty());
        TextField code = new TextField();
        code.setId("import-code-" + index);
        code.setPromptText(texts.get("cases.column.code"));
        code.setPrefWidth(144);
        code.textProperty().bindBidirectional(row.codeProperty());
        TextField trainee = new TextField();
        trainee.setId("import-trainee-" + index);
        trainee.setPromptText(texts.get("cases.column.trainee"));
        trainee.setPrefWidth(104);
        trainee.textProperty().bindBidirectional(row.traineeProperty());
        DatePicker date = DaysDialog.picker("import-date-" + index, null);
        date.setPrefWidth(144);
        date.valueProperty().bindBidirectional(row.dateProperty());
        Label files = Ui.label("", "small");
        Runnable names = () -> files.setText(names(row.files()));
        row.files().addListener((ListChangeListener<Path>) change -> names.run());
        names.run();
        files.setMinWidth(0);
        HBox.setHgrow(files, Priority.ALWAYS);
        files.setMaxWidth(Double.MAX_VALUE);
        Button split = Ui.button("import-split-" + index, null, texts.get("import.split"), () -> model.split(row));
        split.getStyleClass().add("small");
        split.disableProperty().bind(Bindings.size(row.files()).lessThan(2));
        Button join = Ui.button("import-join-" + index, null, texts.get("import.join"), () -> model.join(row));
        join.getStyleClass().add("small");
        join.setDisable(index == 0);
        HBox line = new HBox(Ui.STEP, wanted, code, trainee, date, files, split, join);
        line.setAlignment(Pos.CENTER_LEFT);
        for (Node node : List.of(code, trainee, date)) {
            node.disableProperty().bind(row.wantedProperty().not());
        }
        VBox box = Ui.styled(new VBox(Ui.STEP / 2, line), "import-row");
        if (!row.hints().isEmpty()) {
            box.getChildren()
                    .add(Ui.wrapped(
                            texts.get("import.identity", String.join("; ", row.hints())), "small", "warning-note"));
        }
        box.getChildren().add(note(row.warningProperty(), "warning-note"));
        box.getChildren().add(note(row.problemProperty(), "critical-note"));
        return box;
    }

    private String names(List<Path> files) {
        String shown = String.join(
                ", ",
                files.stream()
                        .limit(NAMES_SHOWN)
                        .map(file -> String.valueOf(file.getFileName()))
                        .toList());
        return files.size() > NAMES_SHOWN ? texts.get("import.more", shown, files.size() - NAMES_SHOWN) : shown;
    }

    private static Label note(ObservableValue<String> text, String style) {
        Label label = Ui.wrapped("", "small", style);
        label.textProperty().bind(text);
        Ui.showIf(label, Bindings.isNotEmpty(label.textProperty()));
        return label;
    }

    private Node measuring() {
        ProgressBar bar = new ProgressBar();
        bar.progressProperty().bind(model.measuringProperty());
        bar.setPrefWidth(160);
        Label doing = Ui.label("", "small", "text-muted");
        doing.textProperty().bind(model.measuredProperty());
        Button cancel = Ui.button("import-stop", null, texts.get("cuts.cancel"), model::cancel);
        HBox box = new HBox(Ui.STEP, bar, doing, Ui.spring(), cancel);
        box.setAlignment(Pos.CENTER_LEFT);
        Ui.showIf(box, Bindings.createBooleanBinding(model::isMeasuring, model.measuringProperty()));
        return box;
    }

    private Node buttons() {
        Button take = Ui.button("import-take", Feather.CHECK, texts.get("import.take"), model::take);
        take.getStyleClass().add("accent");
        take.setDefaultButton(true);
        Button cancel = Ui.button("import-cancel", null, texts.get("cancel"), () -> {
            model.cancel();
            stage.close();
        });
        cancel.setCancelButton(true);
        Label why = Ui.label("", "small", "text-muted");
        why.textProperty().bind(model.whyNotProperty());
        HBox box = new HBox(
                Ui.STEP,
                Ui.label(texts.get("add.codesOnly"), "small", "text-muted"),
                Ui.spring(),
                why,
                cancel,
                Ui.reasoned(take, model.whyNotProperty()));
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }
}
