package org.sideport.app.frame;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import javafx.geometry.Bounds;
import javafx.scene.Node;
import javafx.scene.Parent;
import javafx.scene.control.Labeled;
import javafx.scene.control.ScrollPane;
import javafx.scene.layout.StackPane;
import javafx.scene.text.Text;

/** Goes through everything that is to be seen below a node, and finds cut words and words that lie on one another. */
final class ScreenWalk {

    /** Less than this is rounding, pixels. */
    private static final double SLACK = 1.5;

    private ScreenWalk() {}

    static void each(Node node, Consumer<Node> use) {
        if (!node.isVisible()) {
            return;
        }
        use.accept(node);
        if (node instanceof Parent parent) {
            List.copyOf(parent.getChildrenUnmodifiable()).forEach(child -> each(child, use));
        }
    }

    /** Labels whose words do not fit: what is laid out is not what was set, or it is larger than its label. */
    static List<String> cut(Node root) {
        List<String> found = new ArrayList<>();
        each(root, node -> {
            if (node instanceof Labeled labeled
                    && labeled.getText() != null
                    && !labeled.getText().isEmpty()
                    && labeled.getWidth() > 0) {
                if (labeled.lookup(".text") instanceof Text laid
                        && laid.getParent() == labeled
                        && !laid.getText().equals(labeled.getText())
                        && !shortOnPurpose(labeled)) {
                    found.add(name(labeled) + " “" + labeled.getText() + "” shows as “" + laid.getText() + "”");
                }
            }
        });
        return found;
    }

    /** Data in the cells of a table may be longer than its column: the user widens that. */
    private static boolean shortOnPurpose(Labeled labeled) {
        return labeled.getStyleClass().contains("table-cell")
                && !labeled.getStyleClass().contains("column-header");
    }

    /** Words that overlap with other words of the same parent; layers of a stack are meant to. */
    static List<String> overlapping(Node root) {
        List<String> found = new ArrayList<>();
        each(root, node -> {
            if (node instanceof Parent parent && !(node instanceof StackPane) && !(node instanceof ScrollPane)) {
                List<Node> words = parent.getChildrenUnmodifiable().stream()
                        .filter(child -> child.isVisible() && child.isManaged())
                        .filter(child -> child instanceof Labeled labeled
                                && labeled.getText() != null
                                && !labeled.getText().isEmpty())
                        .toList();
                for (int i = 0; i < words.size(); i++) {
                    for (int j = i + 1; j < words.size(); j++) {
                        if (overlap(
                                words.get(i).getBoundsInParent(), words.get(j).getBoundsInParent())) {
                            found.add(name(words.get(i)) + " lies on " + name(words.get(j)));
                        }
                    }
                }
            }
        });
        return found;
    }

    private static boolean overlap(Bounds one, Bounds other) {
        return Math.min(one.getMaxX(), other.getMaxX()) - Math.max(one.getMinX(), other.getMinX()) > SLACK
                && Math.min(one.getMaxY(), other.getMaxY()) - Math.max(one.getMinY(), other.getMinY()) > SLACK;
    }

    static String name(Node node) {
        String own = node.getClass().getSimpleName() + (node.getId() == null ? "" : "#" + node.getId());
        String text = node instanceof Labeled labeled ? "[" + labeled.getText() + "]" : "";
        return own + text + node.getStyleClass();
    }
}
