package org.sideport.app.cases;

import java.io.File;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.function.Function;
import java.util.stream.Collectors;
import javafx.beans.binding.Bindings;
import javafx.beans.binding.StringBinding;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.collections.transformation.SortedList;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.ProgressBar;
import javafx.scene.control.TableColumn;
import javafx.scene.control.TableRow;
import javafx.scene.control.TableView;
import javafx.scene.control.TextField;
import javafx.scene.input.DragEvent;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.input.TransferMode;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.StackPane;
import javafx.stage.FileChooser;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Formats;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.frame.EmptyState;
import org.sideport.app.frame.Navigator;
import org.sideport.app.frame.Screen;
import org.sideport.model.Recording;
import org.sideport.workflow.CaseOverview;

/** The list of cases, with what is known of the one selected. */
public final class CasesView implements Screen {

    /** Opens the dialog for a new case with some files in it already. */
    @FunctionalInterface
    public interface CaseAdder {
        void add(List<Path> files);
    }

    private final CasesViewModel model;
    private final Texts texts;
    private final Navigator navigator;
    private final CaseAdder adder;
    private final BorderPane root = Ui.styled(new BorderPane(), "cases");
    private final TableView<CaseOverview> table = new TableView<>();
    private final TextField filter = new TextField();

    public CasesView(CasesViewModel model, Texts texts, Navigator navigator, CaseAdder adder) {
        this.model = model;
        this.texts = texts;
        this.navigator = navigator;
        this.adder = adder;
        root.setTop(tools());
        root.setCenter(middle());
        root.setRight(new CaseDetail(model, texts, navigator));
        root.setOnDragOver(this::dragOver);
        root.setOnDragDropped(this::dropped);
    }

    private HBox tools() {
        filter.setId("case-filter");
        filter.setPromptText(texts.get("cases.filter"));
        filter.setPrefWidth(280);
        model.filterProperty().bind(filter.textProperty());
        filter.setOnAction(event -> {
            table.getSelectionModel().selectFirst();
            table.requestFocus();
        });
        CheckBox onlyRecorded = new CheckBox(texts.get("cases.onlyRecorded"));
        onlyRecorded.setId("only-recorded");
        onlyRecorded.selectedProperty().bindBidirectional(model.onlyRecordedProperty());
        Button add = Ui.button("add-case", Feather.PLUS, texts.get("cases.add"), () -> adder.add(List.of()));
        add.getStyleClass().add("accent");
        Button export = Ui.button("export", Feather.DOWNLOAD, texts.get("cases.export"), this::chooseExport);
        StringBinding whyNoExport =
                Bindings.createStringBinding(() -> Objects.requireNonNullElse(model.whyNoExport(), ""), model.all());
        ProgressBar progress = new ProgressBar();
        progress.progressProperty().bind(model.exportingProperty());
        progress.setPrefWidth(96);
        Button cancel = Ui.button("cancel-export", null, texts.get("cancel"), model::cancelExport);
        HBox exporting = new HBox(Ui.STEP, progress, cancel);
        exporting.setAlignment(Pos.CENTER_LEFT);
        Ui.showIf(
                exporting,
                Bindings.createBooleanBinding(
                        () -> !Double.isNaN(model.exportingProperty().get()), model.exportingProperty()));
        HBox box = Ui.styled(
                new HBox(Ui.STEP, filter, onlyRecorded, Ui.spring(), exporting, Ui.reasoned(export, whyNoExport), add),
                "toolbar");
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private StackPane middle() {
        table.setId("cases-table");
        SortedList<CaseOverview> sorted = new SortedList<>(model.shown());
        sorted.comparatorProperty().bind(table.comparatorProperty());
        table.setItems(sorted);
        table.setColumnResizePolicy(TableView.CONSTRAINED_RESIZE_POLICY_FLEX_LAST_COLUMN);
        table.setFixedCellSize(36);
        column("cases.column.code", 96, o -> o.surgicalCase().code());
        column("cases.column.trainee", 80, o -> o.surgicalCase().trainee());
        TableColumn<CaseOverview, String> date =
                column("cases.column.date", 104, o -> o.surgicalCase().date().toString());
        column("cases.column.length", 88, CasesView::length);
        column("cases.column.annotators", 96, o -> String.join(", ", o.annotators()));
        column("cases.column.marks", 232, this::marks);
        column("cases.column.state", 96, model::stateOf);
        date.setSortType(TableColumn.SortType.DESCENDING);
        table.getSortOrder().add(date);
        table.setPlaceholder(Ui.label(texts.get("cases.noMatch"), "text-muted"));
        table.setRowFactory(view -> {
            TableRow<CaseOverview> row = new TableRow<>();
            row.setOnMouseClicked(event -> {
                if (event.getClickCount() == 2 && !row.isEmpty()) {
                    navigator.toReview(row.getItem().surgicalCase().code());
                }
            });
            return row;
        });
        table.getSelectionModel().selectedItemProperty().addListener((property, old, now) -> {
            if (now != null) {
                model.selectedProperty().set(now);
            }
        });
        model.selectedProperty().addListener((property, old, now) -> {
            if (now != null && !now.equals(table.getSelectionModel().getSelectedItem())) {
                table.getSelectionModel().select(now);
            }
        });
        Button first = Ui.button("add-first-case", Feather.PLUS, texts.get("cases.add"), () -> adder.add(List.of()));
        first.getStyleClass().add("accent");
        EmptyState empty = new EmptyState(Feather.FILM, texts.get("cases.empty"), texts.get("cases.empty.text"), first);
        StackPane cover = Ui.styled(new StackPane(empty), "cover");
        cover.visibleProperty().bind(Bindings.isEmpty(model.all()).and(model.loadedProperty()));
        return new StackPane(table, cover);
    }

    private TableColumn<CaseOverview, String> column(String key, double width, Function<CaseOverview, String> text) {
        TableColumn<CaseOverview, String> column = new TableColumn<>(texts.get(key));
        column.setPrefWidth(width);
        column.setCellValueFactory(cell -> new ReadOnlyStringWrapper(text.apply(cell.getValue())));
        table.getColumns().add(column);
        return column;
    }

    private static String length(CaseOverview overview) {
        Recording recording = overview.surgicalCase().recording();
        return recording == null ? Formats.UNKNOWN : Formats.shortClock(recording.duration());
    }

    private String marks(CaseOverview overview) {
        return CasesViewModel.current(overview).stream()
                .map(r -> texts.get(
                        "cases.mark",
                        r.assessor(),
                        Formats.percent(r.score().share()),
                        r.score().marked()))
                .collect(Collectors.joining(", "));
    }

    private void chooseExport() {
        FileChooser chooser = new FileChooser();
        chooser.setTitle(texts.get("cases.export"));
        chooser.setInitialFileName("sideport.xlsx");
        chooser.getExtensionFilters().add(new FileChooser.ExtensionFilter(texts.get("cases.workbook"), "*.xlsx"));
        File chosen = chooser.showSaveDialog(root.getScene().getWindow());
        if (chosen != null) {
            model.export(chosen.toPath());
        }
    }

    private void dragOver(DragEvent event) {
        if (event.getDragboard().hasFiles()) {
            event.acceptTransferModes(TransferMode.COPY);
        }
        event.consume();
    }

    private void dropped(DragEvent event) {
        List<File> files = event.getDragboard().getFiles();
        event.setDropCompleted(!files.isEmpty());
        event.consume();
        if (!files.isEmpty()) {
            adder.add(files.stream().map(File::toPath).toList());
        }
    }

    @Override
    public Node node() {
        return root;
    }

    @Override
    public void shown() {
        model.refresh();
        table.requestFocus();
    }

    @Override
    public void takeFocus() {
        table.requestFocus();
    }

    @Override
    public boolean handle(KeyEvent event) {
        CaseOverview selected = model.selectedProperty().get();
        if (event.getCode() == KeyCode.ENTER && selected != null && table.isFocused()) {
            navigator.toReview(selected.surgicalCase().code());
            return true;
        }
        if (event.getCode() == KeyCode.F && event.isShortcutDown()) {
            filter.requestFocus();
            return true;
        }
        return false;
    }
}
