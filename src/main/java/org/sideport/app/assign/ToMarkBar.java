package org.sideport.app.assign;

import java.time.LocalDate;
import javafx.collections.ListChangeListener;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.layout.FlowPane;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.frame.Navigator;
import org.sideport.workflow.assign.Assignments.Work;

/** The cases that the person at work has to mark, each a button that opens it for marking. Gone where there are none. */
public final class ToMarkBar extends FlowPane {

    private static final int MOST = 12;

    private final ToMarkModel model;
    private final Texts texts;
    private final Navigator navigator;

    public ToMarkBar(ToMarkModel model, Texts texts, Navigator navigator) {
        super(Ui.STEP, Ui.STEP / 2);
        this.model = model;
        this.texts = texts;
        this.navigator = navigator;
        setId("to-mark");
        getStyleClass().add("toolbar");
        setAlignment(Pos.CENTER_LEFT);
        model.open().addListener((ListChangeListener<Work>) change -> show());
        show();
    }

    public void refresh() {
        model.refresh();
    }

    private void show() {
        getChildren().clear();
        boolean any = !model.open().isEmpty();
        setVisible(any);
        setManaged(any);
        if (!any) {
            return;
        }
        Label head = Ui.label(texts.get("tomark.title", model.open().size(), model.assessor()), "section");
        getChildren().add(head);
        model.open().stream().limit(MOST).forEach(work -> getChildren().add(button(work)));
        if (model.open().size() > MOST) {
            getChildren().add(Ui.label(texts.get("tomark.more", model.open().size() - MOST), "text-muted"));
        }
    }

    private Button button(Work work) {
        LocalDate due = work.assignment().dueOn();
        String text = due == null
                ? work.code()
                : texts.get(work.late() ? "tomark.late" : "tomark.due", work.code(), texts.day(due));
        Button button = Ui.button(
                "to-mark-" + work.code(),
                work.begun() ? Feather.EDIT_2 : Feather.CLIPBOARD,
                text,
                () -> navigator.toMarking(work.code()));
        button.setAccessibleText(texts.get(
                work.begun() ? "tomark.open.begun" : "tomark.open",
                text,
                texts.get("purpose." + work.assignment().purpose().name())));
        return button;
    }
}
