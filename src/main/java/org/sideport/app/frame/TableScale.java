package org.sideport.app.frame;

import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.TableColumn;
import javafx.scene.control.TableView;
import org.sideport.app.Headings;

/** Gives the columns of tables the room that the size of the letters asks for: style sheets cannot. */
final class TableScale {

    private static final String SEEN = "sideport.table.factor";
    private static final String FITTED = "table-fitted";

    /** Room that a bar for moving up and down takes, pixels. */
    private static final double BAR = 16;

    private final Scene scene;
    private double factor;

    TableScale(Scene scene, double factor) {
        this.scene = scene;
        this.factor = factor;
        scene.addPreLayoutPulseListener(this::apply);
    }

    void scale(double wanted) {
        factor = wanted;
    }

    private void apply() {
        for (Node node : scene.getRoot().lookupAll(".table-view")) {
            Object seen = node.getProperties().get(SEEN);
            double had = seen instanceof Double number ? number : 1.0;
            if (node instanceof TableView<?> table && had != factor) {
                node.getProperties().put(SEEN, factor);
                if (factor <= 1) {
                    // larger letters, if they come back, are fitted anew
                    node.getProperties().remove(FITTED);
                    table.setColumnResizePolicy(TableView.CONSTRAINED_RESIZE_POLICY_FLEX_LAST_COLUMN);
                }
                // those that grow with their headings would grow twice
                if (!Headings.grow(table)) {
                    for (TableColumn<?, ?> column : table.getColumns()) {
                        column.setPrefWidth(column.getPrefWidth() / had * factor);
                    }
                }
            }
            if (node instanceof TableView<?> table && factor > 1) {
                fit(table);
            }
        }
    }

    /** Squeezed columns would cut their words: large letters scroll sideways, where the columns have not the room. */
    private static void fit(TableView<?> table) {
        double wanted = 0;
        for (TableColumn<?, ?> column : table.getVisibleLeafColumns()) {
            wanted += Math.max(column.getMinWidth(), column.getPrefWidth());
        }
        boolean fits = wanted <= table.getWidth() - BAR;
        String state = fits + " " + Math.round(wanted);
        if (table.getWidth() <= 0 || state.equals(table.getProperties().put(FITTED, state))) {
            return;
        }
        table.setColumnResizePolicy(TableView.UNCONSTRAINED_RESIZE_POLICY);
        for (TableColumn<?, ?> column : table.getVisibleLeafColumns()) {
            // a width is taken from the wish only when that changes
            double width = column.getPrefWidth();
            column.setPrefWidth(width + 1);
            column.setPrefWidth(width);
        }
        if (fits) {
            table.setColumnResizePolicy(TableView.CONSTRAINED_RESIZE_POLICY_FLEX_LAST_COLUMN);
        }
    }
}
