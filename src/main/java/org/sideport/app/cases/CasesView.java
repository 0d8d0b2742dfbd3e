package org.sideport.app.cases;

import java.io.File;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.function.Function;
import javafx.beans.binding.Bindings;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.collections.ListChangeListener;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.MenuButton;
import javafx.scene.control.MenuItem;
import javafx.scene.control.ProgressBar;
import javafx.scene.control.SelectionMode;
import javafx.scene.control.SeparatorMenuItem;
import javafx.scene.control.TableCell;
import javafx.scene.control.TableColumn;
import javafx.scene.control.TableRow;
import javafx.scene.control.TableView;
import javafx.scene.control.TextField;
import javafx.scene.input.DragEvent;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.input.TransferMode;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.StackPane;
import javafx.scene.layout.VBox;
import javafx.scene.text.Text;
import javafx.stage.FileChooser;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.kordamp.ikonli.javafx.FontIcon;
import org.sideport.app.Formats;
import org.sideport.app.NextPicture;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.assign.ToMarkBar;
import org.sideport.app.frame.EmptyState;
import org.sideport.app.frame.Navigator;
import org.sideport.app.frame.Screen;
import org.sideport.model.CaseSummary;
import org.sideport.model.Hidden;
import org.sideport.model.MediaTime;

/** The list of cases, with what is known of the one selected. */
public final class CasesView implements Screen {

    /** Size of letters that widths are written for, pixels. */
    private static final double USUAL_LETTERS = 14;
    /** Widest column of codes at that size, pixels. */
    private static final double MOST_FOR_A_CODE = 90;

    private static final double AROUND_A_CODE = 22;

    private final CasesViewModel model;
    private final Texts texts;
    private final Navigator navigator;
    private final CaseIntake intake;
    private final Thumbnails thumbnails;
    private final ToMarkBar toMark;
    private final BorderPane root = Ui.styled(new BorderPane(), "cases");
    private final TableView<CaseSummary> table = new TableView<>();
    private final TextField words = new TextField();

    /** @param toMark what the person at work has to mark, above the list */
    public CasesView(
            CasesViewModel model,
            ToMarkBar toMark,
            Texts texts,
            Navigator navigator,
            CaseIntake intake,
            Thumbnails thumbnails) {
        this.model = model;
        this.texts = texts;
        this.navigator = navigator;
        this.intake = intake;
        this.thumbnails = thumbnails;
        this.toMark = toMark;
        FilterBar filters = new FilterBar(model, texts);
        root.setTop(new VBox(toMark, tools(filters), filters.row()));
        root.setCenter(middle());
        CaseDetail detail = new CaseDetail(model, texts, navigator, intake);
        Ui.showIf(detail, model.emptyProperty().not());
        root.setRight(detail);
        model.readRestAfter(this::afterPicture);
        root.setOnDragOver(this::dragOver);
        root.setOnDragDropped(this::dropped);
    }

    private void afterPicture(Runnable then) {
        Scene scene = root.getScene();
        if (scene == null) {
            then.run();
        } else {
            NextPicture.of(scene, then);
        }
    }

    private HBox tools(FilterBar filters) {
        words.setId("case-filter");
        words.setPromptText(texts.get("cases.filter"));
        words.textProperty().bindBidirectional(model.wordsProperty());
        words.setOnAction(event -> {
            table.getSelectionModel().clearAndSelect(0);
            table.requestFocus();
        });
        Button add = Ui.button("add-case", Feather.PLUS, texts.get("cases.add"), () -> intake.add(List.of()));
        add.getStyleClass().add("accent");
        Button sheet = Ui.button("import-sheet", Feather.GRID, texts.get("cases.sheet"), intake::chooseSheet);
        Button export = Ui.button("export", Feather.DOWNLOAD, texts.get("cases.export"), () -> chooseExport(false));
        MenuButton exchange = exchange();
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
        // on two lines where words are long and letters large
        FlowPane actions = new FlowPane(
                Ui.STEP, Ui.STEP, exporting, exchange, Ui.reasoned(export, model.whyNoExportProperty()), sheet, add);
        actions.setAlignment(Pos.CENTER_RIGHT);
        actions.setMinWidth(0);
        HBox.setHgrow(actions, Priority.ALWAYS);
        HBox box = Ui.styled(new HBox(Ui.STEP, words, filters.menu(), actions), "toolbar");
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    /** What goes to other stores and to paper-like forms, and comes back. */
    private MenuButton exchange() {
        MenuItem out = item("bundle-out", "bundle.out", () -> intake.exchange().handOut(chosen()));
        MenuItem others = item("open-out", "open.out", () -> intake.exchange().toOtherPrograms(chosen().get(0)));
        MenuItem film = item("film-out", "film.out", () -> intake.exchange().makeFilm(chosen().get(0)));
        MenuItem chapters =
                item("chapters-out", "chapters.out", () -> intake.exchange().copyWithChapters(chosen().get(0)));
        MenuItem hide = item("hide-areas", "hide.menu", () -> intake.exchange().hideAreas(chosen().get(0)));
        MenuItem form = item("form-out", "form.out", () -> intake.exchange().writeForm(chosen().get(0)));
        MenuItem feedback = item("feedback-out", "feedback.out", this::writeFeedback);
        MenuItem shared = item("export-shared", "cases.export.shared", () -> chooseExport(true));
        MenuButton menu = new MenuButton(
                texts.get("exchange.menu"),
                new FontIcon(Feather.REPEAT),
                feedback,
                film,
                chapters,
                hide,
                new SeparatorMenuItem(),
                shared,
                new SeparatorMenuItem(),
                out,
                others,
                item("bundle-in", "bundle.in", intake.exchange()::chooseBundle),
                new SeparatorMenuItem(),
                form,
                item("form-in", "form.in", intake.exchange()::chooseForm));
        menu.setId("exchange");
        menu.setMinWidth(Region.USE_PREF_SIZE);
        menu.setOnShowing(event -> {
            int count = chosen().size();
            out.setText(texts.get("bundle.out", count));
            out.setDisable(count == 0);
            others.setDisable(count != 1);
            boolean seen = count == 1 && isRecorded();
            film.setDisable(!seen);
            chapters.setDisable(!seen);
            hide.setDisable(!seen);
            form.setDisable(count != 1);
            shared.setDisable(!model.whyNoExportProperty().get().isEmpty());
            feedback.setDisable(count != 1 || !model.isFeedbackOffered());
        });
        return menu;
    }

    private MenuItem item(String id, String key, Runnable action) {
        MenuItem item = new MenuItem(texts.get(key, 1));
        item.setId(id);
        item.setOnAction(event -> action.run());
        return item;
    }

    /** Codes of the rows that are selected. */
    private List<String> chosen() {
        return table.getSelectionModel().getSelectedItems().stream()
                .filter(Objects::nonNull)
                .map(CaseSummary::code)
                .toList();
    }

    private boolean isRecorded() {
        CaseSummary one = table.getSelectionModel().getSelectedItem();
        return one != null && one.durationUs() != null;
    }

    private StackPane middle() {
        table.setId("cases-table");
        table.getSelectionModel().setSelectionMode(SelectionMode.MULTIPLE);
        table.setItems(model.shown());
        table.setColumnResizePolicy(TableView.CONSTRAINED_RESIZE_POLICY_FLEX_LAST_COLUMN);
        table.setFixedCellSize(40);
        TableColumn<CaseSummary, CaseSummary> picture =
                column("cases.column.picture", 68, null, () -> new CaseCells.Picture(thumbnails, texts));
        picture.setText("");
        picture.setMaxWidth(68);
        picture.setMinWidth(68);
        TableColumn<CaseSummary, CaseSummary> code = words(
                "cases.column.code", 70, Comparator.comparing(CaseSummary::code, NaturalText.ORDER), CaseSummary::code);
        TableColumn<CaseSummary, CaseSummary> trainee = words(
                "cases.column.trainee",
                84,
                Comparator.comparing(CaseSummary::trainee, NaturalText.ORDER),
                this::trainee);
        TableColumn<CaseSummary, CaseSummary> date = words(
                "cases.column.date",
                100,
                Comparator.comparing(CaseSummary::date),
                one -> one.hidden().contains(Hidden.DATE)
                        ? texts.get("blind.hidden")
                        : one.date().toString());
        words("cases.column.length", 80, Comparator.comparingLong(CasesView::micros), CasesView::length)
                .setMinWidth(72);
        column("cases.column.state", 106, Comparator.comparingInt(CasesView::stages), () -> new CaseCells.Stages(texts))
                .setMinWidth(104);
        words(
                        "cases.column.annotators",
                        104,
                        Comparator.comparing(one -> String.join(", ", one.annotators())),
                        one -> String.join(", ", one.annotators()))
                .setMinWidth(98);
        words(
                        "cases.column.assessors",
                        104,
                        Comparator.comparing(one -> String.join(", ", one.assessors())),
                        one -> String.join(", ", one.assessors()))
                .setMinWidth(104);
        column(
                "cases.column.consent",
                100,
                Comparator.comparing(CaseSummary::consent),
                () -> new CaseCells.Agreement(texts));
        column(
                "cases.column.review",
                104,
                Comparator.comparing(CaseSummary::reviewBy, Comparator.nullsLast(Comparator.naturalOrder())),
                () -> new CaseCells.Review(texts, model.today()));
        // a day is read whole or not at all
        date.setMinWidth(104);
        Runnable fit = () -> {
            widenFor(code, CaseSummary::code);
            widenFor(trainee, this::trainee);
        };
        model.shown().addListener((ListChangeListener<CaseSummary>) change -> fit.run());
        words.fontProperty().addListener((property, old, now) -> fit.run());
        date.setSortType(TableColumn.SortType.DESCENDING);
        table.setSortPolicy(sorted -> {
            model.sort(order(sorted));
            return true;
        });
        table.getSortOrder().add(date);
        Label nothing = Ui.label(texts.get("cases.noMatch"), "text-muted");
        Button clear = Ui.button("clear-filter-empty", null, texts.get("filter.clear"), model::clearFilter);
        VBox noMatch = new VBox(Ui.STEP, nothing, clear);
        noMatch.setAlignment(Pos.CENTER);
        noMatch.visibleProperty().bind(model.loadedProperty());
        table.setPlaceholder(noMatch);
        table.setRowFactory(view -> row());
        table.getSelectionModel().selectedItemProperty().addListener((property, old, now) -> {
            if (now != null) {
                model.selectedProperty().set(now);
            }
        });
        model.selectedProperty().addListener((property, old, now) -> {
            if (now != null && !now.equals(table.getSelectionModel().getSelectedItem())) {
                table.getSelectionModel().clearSelection();
                table.getSelectionModel().select(now);
                table.scrollTo(now);
            }
        });
        return new StackPane(table, emptyCover());
    }

    private String trainee(CaseSummary one) {
        return one.hidden().contains(Hidden.TRAINEE) ? texts.get("blind.hidden") : one.trainee();
    }

    /** Codes are what cases are known by: the columns take the longest, up to a bound. */
    private void widenFor(TableColumn<CaseSummary, CaseSummary> column, Function<CaseSummary, String> code) {
        Text longest = new Text(model.shown().stream()
                .map(code)
                .max(Comparator.comparingInt(String::length))
                .orElse(""));
        longest.setFont(words.getFont());
        double letters = words.getFont().getSize() / USUAL_LETTERS;
        column.setMinWidth(Math.min(
                MOST_FOR_A_CODE * letters, Math.ceil(longest.getLayoutBounds().getWidth()) + AROUND_A_CODE));
    }

    private TableRow<CaseSummary> row() {
        TableRow<CaseSummary> row = new TableRow<>();
        row.setOnMouseClicked(event -> {
            if (event.getClickCount() == 2 && !row.isEmpty()) {
                navigator.toReview(row.getItem().code());
            }
        });
        return row;
    }

    private StackPane emptyCover() {
        Button first = Ui.button("add-first-case", Feather.PLUS, texts.get("cases.add"), () -> intake.add(List.of()));
        first.getStyleClass().add("accent");
        Button sheet = Ui.button("import-first-sheet", Feather.GRID, texts.get("cases.sheet"), intake::chooseSheet);
        HBox actions = new HBox(Ui.STEP, first, sheet);
        actions.setAlignment(Pos.CENTER);
        EmptyState empty =
                new EmptyState(Feather.FILM, texts.get("cases.empty"), texts.get("cases.empty.text"), actions);
        StackPane cover = Ui.styled(new StackPane(empty), "cover");
        cover.visibleProperty().bind(model.emptyProperty());
        return cover;
    }

    private TableColumn<CaseSummary, CaseSummary> words(
            String key, double width, Comparator<CaseSummary> order, Function<CaseSummary, String> text) {
        return column(key, width, order, () -> new CaseCells.Words(text));
    }

    private TableColumn<CaseSummary, CaseSummary> column(
            String key,
            double width,
            @Nullable Comparator<CaseSummary> order,
            java.util.function.Supplier<TableCell<CaseSummary, CaseSummary>> cell) {
        TableColumn<CaseSummary, CaseSummary> column = new TableColumn<>(texts.get(key));
        column.setPrefWidth(width);
        column.setCellValueFactory(value -> new ReadOnlyObjectWrapper<>(value.getValue()));
        column.setCellFactory(made -> cell.get());
        column.setSortable(order != null);
        if (order != null) {
            column.setComparator(order);
        }
        table.getColumns().add(column);
        return column;
    }

    /** What the headers ask for, on the lines themselves: quicker than through the cells. */
    private static @Nullable Comparator<CaseSummary> order(TableView<CaseSummary> table) {
        Comparator<CaseSummary> order = null;
        for (TableColumn<CaseSummary, ?> column : table.getSortOrder()) {
            @SuppressWarnings("unchecked") // every column's value is the line itself
            Comparator<CaseSummary> by = (Comparator<CaseSummary>) column.getComparator();
            Comparator<CaseSummary> directed =
                    column.getSortType() == TableColumn.SortType.DESCENDING ? by.reversed() : by;
            order = order == null ? directed : order.thenComparing(directed);
        }
        return order;
    }

    private static int stages(CaseSummary one) {
        return (one.signed() ? 8 : 0) + (one.marked() ? 4 : 0) + (one.selfMarked() ? 2 : 0) + (one.tagged() ? 1 : 0);
    }

    private static long micros(CaseSummary one) {
        return Objects.requireNonNullElse(one.durationUs(), -1L);
    }

    private static String length(CaseSummary one) {
        Long micros = one.durationUs();
        return micros == null ? Formats.UNKNOWN : Formats.shortClock(MediaTime.ofMicros(micros));
    }

    /** @param shared true for one to be passed on */
    private void chooseExport(boolean shared) {
        FileChooser chooser = new FileChooser();
        chooser.setTitle(texts.get(shared ? "cases.export.shared" : "cases.export"));
        chooser.setInitialFileName(shared ? "sideport-shared.xlsx" : "sideport.xlsx");
        chooser.getExtensionFilters().add(new FileChooser.ExtensionFilter(texts.get("cases.workbook"), "*.xlsx"));
        File chosen = chooser.showSaveDialog(root.getScene().getWindow());
        if (chosen != null) {
            model.export(chosen.toPath(), shared);
        }
    }

    private void writeFeedback() {
        String code = chosen().get(0);
        FileChooser chooser = new FileChooser();
        chooser.setTitle(texts.get("feedback.title", code));
        chooser.setInitialFileName(code + ".html");
        chooser.getExtensionFilters()
                .addAll(
                        new FileChooser.ExtensionFilter(texts.get("feedback.kind.page"), "*.html"),
                        new FileChooser.ExtensionFilter(texts.get("feedback.kind.paper"), "*.pdf"));
        File chosen = chooser.showSaveDialog(root.getScene().getWindow());
        if (chosen != null) {
            model.exportFeedback(code, chosen.toPath());
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
            intake.drop(files.stream().map(File::toPath).toList());
        }
    }

    @Override
    public Node node() {
        return root;
    }

    @Override
    public void shown() {
        model.refresh();
        toMark.refresh();
        table.requestFocus();
    }

    @Override
    public void takeFocus() {
        table.requestFocus();
    }

    @Override
    public boolean handle(KeyEvent event) {
        CaseSummary selected = model.selectedProperty().get();
        if (event.getCode() == KeyCode.ENTER && selected != null && table.isFocused()) {
            navigator.toReview(selected.code());
            return true;
        }
        if (event.getCode() == KeyCode.F2 && selected != null) {
            intake.edit(selected.code());
            return true;
        }
        if (event.getCode() == KeyCode.F && event.isShortcutDown()) {
            words.requestFocus();
            return true;
        }
        return false;
    }
}
