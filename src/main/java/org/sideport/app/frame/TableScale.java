package org.sideport.app.frame;

import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.TableColumn;
import javafx.scene.control.TableView;
import org.sideport.app.Headings;

/** Gives the columns of tables the room that the size of the letters asks for: style sheets cannot. */
final class TableScale {

    private static final String SEEN = "sideport.table.factor";

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
                // squeezed columns would cut their words: large letters scroll sideways instead
                if (factor > 1) {
                    table.setColumnResizePolicy(TableView.UNCONSTRAINED_RESIZE_POLICY);
                } else {
                    table.setColumnResizePolicy(TableView.CONSTRAINED_RESIZE_POLICY_FLEX_LAST_COLUMN);
                }
                // those that grow with their headings would grow twice
                if (!Headings.grow(table)) {
                    for (TableColumn<?, ?> column : table.getColumns()) {
                        column.setPrefWidth(column.getPrefWidth() / had * factor);
                    }
                }
            }
        }
    }
}
