package org.sideport.app.cohort;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import javafx.beans.value.ObservableValue;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.TableView;
import javafx.scene.input.KeyCode;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Columns;
import org.sideport.app.FxThread;
import org.sideport.app.Headings;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.frame.EmptyState;
import org.sideport.app.frame.Navigator;
import org.sideport.workflow.OutstandingWork.Item;
import org.sideport.workflow.OutstandingWork.Kind;

/** What is still to be done, the most pressing first, each with the next step. */
final class WorkBox extends VBox {

    /** Pixels of a line at the usual size of letters. */
    private static final double LINE = 40;

    /** What else stands in the window, pixels. */
    private static final double AROUND = 160;

    /** And in sizes of a letter. */
    private static final double LINES = 13;

    private static final double HEIGHT = 300;

    private final Texts texts;
    private final Navigator navigator;
    private final TableView<Item> table = new TableView<>();

    WorkBox(List<Item> items, Texts texts, Navigator navigator) {
        super(Ui.STEP);
        this.texts = texts;
        this.navigator = navigator;
        setId("cohort-work");
        if (items.isEmpty()) {
            getChildren()
                    .add(new EmptyState(
                            Feather.CHECK,
                            texts.get("cohort.work.none"),
                            texts.get("cohort.work.none.text"),
                            Ui.button(
                                    "cohort-work-cases",
                                    Feather.LIST,
                                    texts.get("progress.toCases"),
                                    navigator::toCases)));
            return;
        }
        Map<Kind, Long> counts = items.stream()
                .collect(Collectors.groupingBy(Item::kind, () -> new EnumMap<>(Kind.class), Collectors.counting()));
        Label summary = Ui.wrapped(counts.entrySet().stream()
                .map(e -> texts.get("cohort.work.count." + e.getKey().name(), e.getValue()))
                .collect(Collectors.joining(" · ")));
        summary.setId("cohort-work-summary");
        table.setId("cohort-work-table");
        table.getItems().setAll(items);
        table.setPrefHeight(HEIGHT);
        ObservableValue<Number> window = sceneProperty().flatMap(Scene::heightProperty);
        window.addListener((property, old, now) -> grow(now, items.size(), summary));
        // the size of letters is known only in the window
        summary.fontProperty().addListener((property, old, now) -> grow(window.getValue(), items.size(), summary));
        table.setColumnResizePolicy(TableView.CONSTRAINED_RESIZE_POLICY_FLEX_LAST_COLUMN);
        Headings.whole(table);
        Columns.add(
                table,
                texts,
                "cohort.work.what",
                165,
                i -> texts.get("cohort.work." + i.kind().name()));
        Columns.codes(table, texts, "assign.column.case", 110, Item::caseCode);
        Columns.codes(table, texts, "decision.trainee", 80, Item::trainee);
        Columns.codes(table, texts, "cohort.work.who", 110, Item::who);
        Columns.add(table, texts, "cohort.work.since", 116, i -> texts.day(i.since()));
        Columns.add(
                table,
                texts,
                "cohort.work.next",
                330,
                i -> texts.get("cohort.work.next." + i.kind().name(), i.who()));
        table.setOnMouseClicked(event -> {
            if (event.getClickCount() == 2) {
                open(table.getSelectionModel().getSelectedItem());
            }
        });
        table.setOnKeyPressed(event -> {
            if (event.getCode() == KeyCode.ENTER) {
                open(table.getSelectionModel().getSelectedItem());
                event.consume();
            }
        });
        table.getSelectionModel().select(0);
        // a line that is selected before the list is laid out is left half under the heads
        table.heightProperty()
                .addListener((property, old, now) -> new FxThread().execute(() -> {
                    table.layout();
                    table.scrollTo(table.getSelectionModel().getSelectedIndex());
                }));
        Label next = Ui.wrapped("", "text-muted");
        next.setId("cohort-work-next");
        table.getSelectionModel().selectedItemProperty().addListener((property, old, now) -> next.setText(next(now)));
        next.setText(next(items.get(0)));
        Button open = Ui.button(
                "cohort-work-open",
                Feather.ARROW_RIGHT,
                texts.get("cohort.work.open"),
                () -> open(table.getSelectionModel().getSelectedItem()));
        HBox bar = new HBox(2 * Ui.STEP, open, next);
        bar.setAlignment(javafx.geometry.Pos.CENTER_LEFT);
        getChildren().addAll(summary, table, bar);
    }

    /** A long list takes the room that a high window has below the choices. */
    private void grow(@Nullable Number window, int lines, Label summary) {
        if (window != null) {
            double all = (lines + 1) * LINE;
            table.setPrefHeight(Math.max(
                    HEIGHT,
                    Math.min(
                            all,
                            window.doubleValue()
                                    - AROUND
                                    - LINES * summary.getFont().getSize())));
        }
    }

    private String next(@Nullable Item item) {
        return item == null
                ? ""
                : texts.get(
                        "cohort.work.line",
                        item.caseCode(),
                        texts.get("cohort.work.next." + item.kind().name(), item.who()));
    }

    private void open(@Nullable Item item) {
        if (item == null) {
            return;
        }
        if (item.kind() == Kind.UNTAGGED) {
            navigator.toReview(item.caseCode());
        } else {
            navigator.toMarking(item.caseCode());
        }
    }
}
