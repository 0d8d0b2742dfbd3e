package org.sideport.app.rubric;

import java.util.List;
import javafx.beans.binding.Bindings;
import javafx.collections.ListChangeListener;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.MenuButton;
import javafx.scene.control.MenuItem;
import javafx.scene.control.TableRow;
import javafx.scene.control.TableView;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.kordamp.ikonli.javafx.FontIcon;
import org.sideport.app.Columns;
import org.sideport.app.Headings;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.Procedure;
import org.sideport.workflow.RubricWorkshop.Shelf;

/** The rubrics at hand: make one, copy one, change one. */
final class ShelfView extends VBox {

    private final RubricEditorViewModel model;
    private final Texts texts;
    private final TableView<Shelf> table = new TableView<>();
    private @Nullable Shelf last;

    ShelfView(RubricEditorViewModel model, Texts texts) {
        super(Ui.STEP);
        this.model = model;
        this.texts = texts;
        setId("rubric-shelf");
        getStyleClass().add("padded");
        table.setId("rubrics");
        Headings.whole(table);
        table.setItems(model.shelves());
        table.setColumnResizePolicy(TableView.CONSTRAINED_RESIZE_POLICY_FLEX_LAST_COLUMN);
        Columns.add(table, texts, "rubrics.column.title", 290, Shelf::title);
        Columns.add(table, texts, "rubrics.column.version", 80, Shelf::version);
        Columns.add(table, texts, "rubrics.column.procedure", 100, Shelf::procedure);
        Columns.add(table, texts, "rubrics.column.items", 80, s -> s.faults() > 0 ? "" : String.valueOf(s.items()));
        Columns.add(
                table, texts, "rubrics.column.ratings", 130, s -> s.faults() > 0 ? "" : String.valueOf(s.ratings()));
        Columns.add(table, texts, "rubrics.column.state", 260, this::state);
        Label none = Ui.label(texts.get("rubrics.none"), "text-muted");
        Columns.whenEmpty(table, none, model.loadedProperty());
        table.setRowFactory(view -> {
            TableRow<Shelf> row = new TableRow<>();
            row.setOnMouseClicked(event -> {
                if (event.getClickCount() == 2 && !row.isEmpty()) {
                    model.change(row.getItem());
                }
            });
            return row;
        });
        // before the table's own keys, which take Enter for themselves
        table.addEventFilter(KeyEvent.KEY_PRESSED, event -> {
            Shelf chosen = table.getSelectionModel().getSelectedItem();
            if (event.getCode() == KeyCode.ENTER && chosen != null) {
                model.change(chosen);
                event.consume();
            }
        });
        VBox.setVgrow(table, Priority.ALWAYS);
        table.getSelectionModel().selectedItemProperty().addListener((property, old, now) -> {
            if (now != null) {
                last = now;
            }
        });
        // after the table's own listener to changes, which clears what is chosen
        model.shelves().addListener((ListChangeListener<Shelf>) read -> choose());
        getChildren().addAll(tools(), Ui.wrapped(texts.get("rubrics.hint"), "small", "text-muted"), table);
    }

    /** What was chosen before the list was read anew, in the version that is there now; or else the first. */
    private void choose() {
        Shelf before = last;
        List<Shelf> items = table.getItems();
        if (items.isEmpty() || (!table.getSelectionModel().isEmpty() && items.contains(before))) {
            return;
        }
        int at = items.indexOf(before);
        for (int i = 0; at < 0 && before != null && i < items.size(); i++) {
            if (items.get(i).id().equals(before.id())) {
                at = i;
            }
        }
        table.getSelectionModel().clearAndSelect(Math.max(0, at));
        table.getFocusModel().focus(Math.max(0, at));
    }

    private FlowPane tools() {
        MenuButton fresh = new MenuButton(texts.get("rubrics.new"), new FontIcon(Feather.PLUS));
        fresh.setId("rubric-new");
        fresh.setMinWidth(Region.USE_PREF_SIZE);
        fresh.setOnShowing(event -> {
            fresh.getItems().clear();
            for (Procedure procedure : model.procedures()) {
                MenuItem item = new MenuItem(procedure.title());
                item.setId("rubric-new-" + procedure.id());
                item.setOnAction(chosen -> model.fresh(procedure));
                fresh.getItems().add(item);
            }
        });
        // an empty menu would not open
        fresh.getItems().add(new MenuItem(""));
        Button change = Ui.button("rubric-change", Feather.EDIT_2, texts.get("rubrics.change"), () -> {
            Shelf chosen = table.getSelectionModel().getSelectedItem();
            if (chosen != null) {
                model.change(chosen);
            }
        });
        Button copy = Ui.button("rubric-copy", Feather.COPY, texts.get("rubrics.copy"), () -> {
            Shelf chosen = table.getSelectionModel().getSelectedItem();
            if (chosen != null) {
                model.copy(chosen);
            }
        });
        var selected = table.getSelectionModel().selectedItemProperty();
        FlowPane tools = new FlowPane(
                Ui.STEP,
                Ui.STEP / 2,
                Ui.reasoned(
                        change,
                        Bindings.createStringBinding(
                                () -> selected.get() == null ? texts.get("rubrics.why.none") : "", selected)),
                Ui.reasoned(copy, Bindings.createStringBinding(() -> whyNoCopy(selected.get()), selected)),
                fresh);
        tools.setAlignment(Pos.CENTER_LEFT);
        return tools;
    }

    private String whyNoCopy(@Nullable Shelf chosen) {
        return chosen == null
                ? texts.get("rubrics.why.none")
                : chosen.faults() > 0 ? texts.get("rubrics.why.mend") : "";
    }

    private String state(Shelf shelf) {
        if (shelf.faults() > 0) {
            return texts.get("rubrics.state.faulty", shelf.faults());
        }
        String whose = texts.get(shelf.file() == null ? "rubrics.state.shipped" : "rubrics.state.own");
        return shelf.ratings() > 0 ? texts.get("rubrics.state.used", whose) : whose;
    }

    void takeFocus() {
        table.requestFocus();
    }
}
