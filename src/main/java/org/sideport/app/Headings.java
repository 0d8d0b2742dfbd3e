package org.sideport.app;

import javafx.beans.Observable;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.control.TableColumnBase;
import javafx.scene.control.TableView;
import javafx.scene.control.skin.TableColumnHeader;
import org.jspecify.annotations.Nullable;

/** Columns of tables that have room for the words at their heads, in any language and size of letters. */
public final class Headings {

    /** Size of letters that the widths of columns are written for, pixels. */
    private static final double USUAL = 14;

    private static final String LETTERS = "letters-of-headings";

    private static final String GROWS = "headings-grow";

    private Headings() {}

    /** Lets columns grow with the letters, and none become narrower than the words at its head. */
    public static void whole(TableView<?> table) {
        table.getProperties().put(GROWS, true);
        // told in the first layout, when the letters are known, and again when they become larger
        table.widthProperty().addListener((Observable laidOut) -> fit(table));
        table.heightProperty().addListener((Observable laidOut) -> fit(table));
    }

    /** Whether the columns of a table grow with the letters by {@link #whole}. */
    public static boolean grow(TableView<?> table) {
        return table.getProperties().containsKey(GROWS);
    }

    private static void fit(TableColumnBase<?, ?> column, Label words) {
        double letters = words.getFont().getSize() / USUAL;
        // as the column was made, or as somebody dragged it: larger letters take it along
        Object known = column.getProperties().put(LETTERS, letters);
        double before = known instanceof Double size ? size : 1;
        if (letters != before) {
            column.setPrefWidth(column.getPrefWidth() * letters / before);
        }
        column.setMinWidth(Math.max(column.getMinWidth(), Math.ceil(words.prefWidth(-1)) + Ui.STEP));
    }

    private static void fit(TableView<?> table) {
        for (Node node : table.lookupAll(".column-header")) {
            if (node instanceof TableColumnHeader header && header.lookup(".label") instanceof Label words) {
                @Nullable TableColumnBase<?, ?> column = header.getTableColumn();
                if (column != null && column.getColumns().isEmpty()) {
                    fit(column, words);
                }
            }
        }
    }
}
