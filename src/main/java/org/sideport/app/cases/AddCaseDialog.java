package org.sideport.app.cases;

import java.io.File;
import java.nio.file.Path;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.function.Consumer;
import javafx.beans.binding.Bindings;
import javafx.collections.ListChangeListener;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.ButtonBar;
import javafx.scene.control.CheckBox;
import javafx.scene.control.ComboBox;
import javafx.scene.control.DatePicker;
import javafx.scene.control.Label;
import javafx.scene.control.ListCell;
import javafx.scene.control.ListView;
import javafx.scene.control.ProgressBar;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.TextField;
import javafx.scene.input.TransferMode;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import javafx.stage.FileChooser;
import javafx.stage.Modality;
import javafx.stage.Screen;
import javafx.stage.Stage;
import javafx.stage.Window;
import javafx.util.StringConverter;
import javafx.util.converter.LocalDateStringConverter;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Formats;
import org.sideport.app.ProblemLabel;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.media.MediaWarning;
import org.sideport.model.MediaTime;
import org.sideport.model.Procedure;
import org.sideport.model.Segment;

/** Takes in a case: its codes and descriptors on the left, its files on the right. */
public final class AddCaseDialog {

    private static final double ROOMY = 1280;

    private final AddCaseViewModel model;
    private final Texts texts;
    private final Stage stage = new Stage();
    private final GridPane form = new GridPane();
    private final ListView<Segment> files = new ListView<>();
    private final VBox warnings = new VBox(Ui.STEP / 2);

    public AddCaseDialog(Window owner, AddCaseViewModel model, Texts texts) {
        this.model = model;
        this.texts = texts;
        stage.initOwner(owner);
        stage.initModality(Modality.WINDOW_MODAL);
        stage.setTitle(texts.get("add.title"));
    }

    /**
     * Shows the window.
     *
     * @param look dresses the scene like the main window
     */
    public void show(Consumer<Scene> look) {
        Node details = details();
        HBox columns = new HBox(Ui.STEP * 3, details, recording());
        VBox.setVgrow(columns, Priority.ALWAYS);
        VBox content = Ui.styled(
                new VBox(Ui.STEP * 2, columns, ProblemLabel.of("add-problem", model.problemProperty()), buttons()),
                "dialog-content");
        Scene scene = new Scene(content, 1000, 640);
        look.accept(scene);
        // the whole name of the operation, where the screen has room for it beside the files
        if (Screen.getPrimary().getVisualBounds().getWidth() / Ui.letters(content) >= ROOMY) {
            details.getStyleClass().add("roomy");
        }
        stage.setScene(scene);
        Ui.growWithLetters(stage);
        stage.setOnCloseRequest(event -> model.cancelMeasuring());
        stage.show();
    }

    public void close() {
        stage.close();
    }

    private Node details() {
        form.setHgap(Ui.STEP);
        form.setVgap(Ui.STEP);
        TextField code = new TextField();
        code.setId("new-code");
        code.setPromptText(texts.get("add.code.prompt"));
        code.textProperty().bindBidirectional(model.codeProperty());
        TextField trainee = new TextField();
        trainee.setId("new-trainee");
        trainee.setPromptText(texts.get("add.trainee.prompt"));
        trainee.textProperty().bindBidirectional(model.traineeProperty());
        DatePicker date = new DatePicker();
        date.setId("new-date");
        date.valueProperty().bindBidirectional(model.dateProperty());
        date.setConverter(
                new LocalDateStringConverter(DateTimeFormatter.ISO_LOCAL_DATE, DateTimeFormatter.ISO_LOCAL_DATE));
        date.setMaxWidth(Double.MAX_VALUE);
        ComboBox<Procedure> procedure = new ComboBox<>(model.procedures());
        procedure.setConverter(new StringConverter<>() {
            @Override
            public String toString(@Nullable Procedure shown) {
                return shown == null ? "" : shown.title();
            }

            @Override
            public Procedure fromString(String text) {
                throw new UnsupportedOperationException("chosen, not typed");
            }
        });
        procedure.valueProperty().bindBidirectional(model.procedureProperty());
        procedure.setMaxWidth(Double.MAX_VALUE);
        row(texts.get("cases.column.code"), code);
        row(texts.get("cases.column.trainee"), trainee);
        row(texts.get("cases.column.date"), date);
        row(texts.get("add.procedure"), procedure);
        model.procedureProperty().addListener((property, old, now) -> descriptors(now));
        descriptors(model.procedureProperty().get());
        ScrollPane scroll = Ui.styled(new ScrollPane(form), "edge-to-edge");
        scroll.setFitToWidth(true);
        scroll.getStyleClass().add("case-form");
        return scroll;
    }

    private void row(String name, Node field) {
        int row = form.getRowCount();
        Label label = Ui.wrapped(name, "text-muted", "form-name");
        form.add(label, 0, row);
        form.add(field, 1, row);
        GridPane.setHgrow(field, Priority.ALWAYS);
    }

    private void descriptors(@Nullable Procedure procedure) {
        form.getChildren().removeIf(node -> GridPane.getRowIndex(node) >= 4);
        if (procedure != null) {
            new DescriptorForm(texts, model.descriptors(), form).addAll(procedure);
        }
    }

    private Node recording() {
        files.setItems(model.files());
        files.setId("new-files");
        files.setCellFactory(view -> new FileCell());
        files.setPlaceholder(Ui.wrapped(texts.get("add.files.empty"), "text-muted", "padded"));
        VBox.setVgrow(files, Priority.ALWAYS);
        Button choose = Ui.button("choose-files", Feather.FILE_PLUS, texts.get("add.files.choose"), this::choose);
        Button up = Ui.button("file-up", Feather.ARROW_UP, texts.get("add.files.up"), () -> move(-1));
        Button down = Ui.button("file-down", Feather.ARROW_DOWN, texts.get("add.files.down"), () -> move(1));
        Button remove = Ui.button("file-remove", Feather.X, texts.get("add.files.remove"), this::remove);
        for (Button button : List.of(up, down, remove)) {
            button.disableProperty()
                    .bind(Bindings.isNull(files.getSelectionModel().selectedItemProperty()));
        }
        ProgressBar bar = new ProgressBar();
        bar.progressProperty().bind(model.measuringProperty());
        bar.setPrefWidth(160);
        Label doing = Ui.label("", "small", "text-muted");
        doing.textProperty().bind(model.measuredProperty());
        HBox.setHgrow(doing, Priority.ALWAYS);
        Button cancel = Ui.button("cancel-measuring", null, texts.get("cancel"), model::cancelMeasuring);
        HBox measuring = new HBox(Ui.STEP, bar, doing, Ui.spring(), cancel);
        measuring.setAlignment(Pos.CENTER_LEFT);
        Ui.showIf(measuring, Bindings.createBooleanBinding(model::isMeasuring, model.measuringProperty()));
        model.warnings().addListener((ListChangeListener<MediaWarning>) change -> showWarnings());
        model.files().addListener((ListChangeListener<Segment>) change -> showWarnings());
        VBox box = new VBox(
                Ui.STEP,
                Ui.label(texts.get("add.files"), "section"),
                files,
                new FlowPane(Ui.STEP / 2, Ui.STEP / 2, choose, up, down, remove),
                measuring,
                warnings);
        HBox.setHgrow(box, Priority.ALWAYS);
        box.setOnDragOver(event -> {
            if (event.getDragboard().hasFiles()) {
                event.acceptTransferModes(TransferMode.COPY);
            }
            event.consume();
        });
        box.setOnDragDropped(event -> {
            List<File> dropped = event.getDragboard().getFiles();
            event.setDropCompleted(!dropped.isEmpty());
            event.consume();
            model.addFiles(dropped.stream().map(File::toPath).toList());
        });
        return box;
    }

    private void showWarnings() {
        warnings.getChildren().clear();
        for (MediaWarning warning : model.warnings()) {
            warnings.getChildren().add(Ui.wrapped(warning.text(), "small", "warning-note"));
        }
        for (String reminder : model.reminders()) {
            warnings.getChildren().add(Ui.wrapped(reminder, "small", "text-muted"));
        }
        if (model.isCutShort()) {
            CheckBox accept = new CheckBox(texts.get("add.cutShort"));
            accept.setId("accept-cut-short");
            accept.selectedProperty().bindBidirectional(model.acceptsCutShortProperty());
            warnings.getChildren().add(accept);
        }
    }

    private void choose() {
        FileChooser chooser = new FileChooser();
        chooser.setTitle(texts.get("add.files.choose"));
        chooser.getExtensionFilters()
                .addAll(
                        new FileChooser.ExtensionFilter(
                                texts.get("add.files.video"),
                                "*.mp4",
                                "*.mov",
                                "*.m4v",
                                "*.mkv",
                                "*.avi",
                                "*.dcm",
                                "*.mpg",
                                "*.mpeg",
                                "*.ts",
                                "*.mts",
                                "*.m2ts",
                                "*.vob",
                                "*.wmv",
                                "*.webm"),
                        new FileChooser.ExtensionFilter(texts.get("add.files.all"), "*.*"));
        Path folder = files.getItems().isEmpty()
                ? model.recordings()
                : files.getItems().get(files.getItems().size() - 1).file().getParent();
        if (folder != null) {
            chooser.setInitialDirectory(folder.toFile());
        }
        List<File> chosen = chooser.showOpenMultipleDialog(stage);
        if (chosen != null) {
            model.addFiles(chosen.stream().map(File::toPath).toList());
        }
    }

    private void move(int by) {
        Segment selected = files.getSelectionModel().getSelectedItem();
        if (selected != null) {
            model.move(selected, by);
            files.getSelectionModel().select(selected);
        }
    }

    private void remove() {
        Segment selected = files.getSelectionModel().getSelectedItem();
        if (selected != null) {
            model.remove(selected);
        }
    }

    private Node buttons() {
        Button save = Ui.button("save-case", Feather.CHECK, texts.get("add.save"), model::save);
        save.getStyleClass().add("accent");
        save.setDefaultButton(true);
        Button cancel = Ui.button("cancel-case", null, texts.get("cancel"), () -> {
            model.cancelMeasuring();
            stage.close();
        });
        cancel.setCancelButton(true);
        Label why = Ui.wrapped("", "small", "text-muted");
        why.textProperty().bind(model.whyNotProperty());
        ButtonBar.setButtonData(save, ButtonBar.ButtonData.OK_DONE);
        HBox box = new HBox(
                Ui.STEP,
                Ui.wrapped(texts.get("add.codesOnly"), "small", "text-muted"),
                Ui.spring(),
                why,
                cancel,
                Ui.reasoned(save, model.whyNotProperty()));
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private final class FileCell extends ListCell<Segment> {

        private final Label name = Ui.label("");
        private final Label detail = Ui.label("", "small", "text-muted", "digits");
        private final VBox box = new VBox(0, name, detail);

        FileCell() {
            setPrefWidth(0);
        }

        @Override
        protected void updateItem(Segment file, boolean empty) {
            super.updateItem(file, empty);
            if (empty || file == null) {
                setGraphic(null);
                return;
            }
            Path path = file.file();
            name.setText((getIndex() + 1) + ".  " + path.getFileName());
            detail.setText(texts.get(
                    "add.file.detail",
                    Formats.shortClock(MediaTime.ofMicros(file.durationUs())),
                    file.width(),
                    file.height(),
                    texts.get(file.audio() ? "add.file.sound" : "add.file.silent")));
            setGraphic(box);
        }
    }
}
