package org.sideport.app.frame;

import java.util.ArrayList;
import java.util.List;
import javafx.scene.Node;
import javafx.scene.Parent;
import javafx.scene.control.ButtonBase;
import javafx.scene.control.ComboBoxBase;
import javafx.scene.control.Spinner;
import javafx.scene.control.TextInputControl;
import org.jspecify.annotations.Nullable;

/**
 * Takes the keyboard to every button and field that is to be seen, one after the other: also to those that the tab key
 * leaves out so that the screen keeps its keys. Space or Enter then presses it.
 */
final class ControlWalk {

    private ControlWalk() {}

    static void go(Parent root, boolean forward) {
        List<Node> all = new ArrayList<>();
        collect(root, all);
        if (all.isEmpty()) {
            return;
        }
        int now = root.getScene() == null ? -1 : all.indexOf(root.getScene().getFocusOwner());
        int next = now < 0 ? (forward ? 0 : all.size() - 1) : Math.floorMod(now + (forward ? 1 : -1), all.size());
        all.get(next).requestFocus();
    }

    /** A control that keys write into. The fields of a spinner and of a choice hand the focus on to these. */
    static boolean isTypedInto(@Nullable Node node) {
        return node instanceof TextInputControl || node instanceof ComboBoxBase || node instanceof Spinner<?>;
    }

    private static void collect(Node node, List<Node> all) {
        if (!node.isVisible() || node.isDisabled()) {
            return;
        }
        if (node instanceof ButtonBase || isTypedInto(node)) {
            all.add(node);
        } else if (node instanceof Parent parent) {
            parent.getChildrenUnmodifiable().forEach(child -> collect(child, all));
        }
    }
}
