package org.sideport.app;

import java.util.function.Function;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.beans.value.ObservableValue;
import javafx.scene.control.Label;
import javafx.scene.control.OverrunStyle;
import javafx.scene.control.TableCell;
import javafx.scene.control.TableColumn;
import javafx.scene.control.TableView;

/** Columns of words for the tables of all screens. */
public final class Columns {

    private Columns() {}

    /**
     * Adds one behind the others.
     *
     * @param key of the text at its head
     * @param width preferred, pixels
     */
    public static <T> TableColumn<T, String> add(
            TableView<T> table, Texts texts, String key, double width, Function<T, String> words) {
        TableColumn<T, String> column = new TableColumn<>(texts.get(key));
        column.setPrefWidth(width);
        column.setCellValueFactory(row -> new ReadOnlyStringWrapper(words.apply(row.getValue())));
        table.getColumns().add(column);
        return column;
    }

    /** As {@link #add}, of codes, which differ at their ends: one that has no room is shortened in the middle. */
    public static <T> TableColumn<T, String> codes(
            TableView<T> table, Texts texts, String key, double width, Function<T, String> code) {
        TableColumn<T, String> column = add(table, texts, key, width, code);
        column.setCellFactory(of -> {
            TableCell<T, String> cell = new TableCell<>();
            cell.setTextOverrun(OverrunStyle.CENTER_ELLIPSIS);
            cell.textProperty().bind(cell.itemProperty());
            return cell;
        });
        return column;
    }

    /** What an empty table says once it is known to be empty. */
    public static void whenEmpty(TableView<?> table, Label words, ObservableValue<Boolean> read) {
        words.visibleProperty().bind(read);
        table.setPlaceholder(words);
    }

    /** As {@link #add}, but not sorted by a click on its head: the order of the lines is what counts. */
    public static <T> TableColumn<T, String> inOrder(
            TableView<T> table, Texts texts, String key, double width, Function<T, String> words) {
        TableColumn<T, String> column = add(table, texts, key, width, words);
        column.setSortable(false);
        return column;
    }
}
