package org.sideport.app;

import javafx.beans.binding.Bindings;
import javafx.beans.value.ObservableValue;
import javafx.scene.control.Label;
import org.jspecify.annotations.Nullable;

/** What is wrong with what a dialog holds; takes no room while nothing is. */
public final class ProblemLabel {

    private ProblemLabel() {}

    public static Label of(String id, ObservableValue<@Nullable Notice> problem) {
        Label label = Ui.wrapped("", "critical-note");
        label.setId(id);
        label.textProperty()
                .bind(Bindings.createStringBinding(
                        () -> {
                            Notice notice = problem.getValue();
                            return notice == null ? "" : notice.text();
                        },
                        problem));
        Ui.showIf(label, Bindings.isNotEmpty(label.textProperty()));
        return label;
    }
}
