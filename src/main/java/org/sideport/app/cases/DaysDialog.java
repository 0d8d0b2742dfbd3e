package org.sideport.app.cases;

import java.time.LocalDate;
import java.util.Optional;
import javafx.scene.Node;
import javafx.scene.control.ButtonType;
import javafx.scene.control.DatePicker;
import javafx.scene.control.Dialog;
import javafx.scene.layout.GridPane;
import javafx.stage.Window;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.workflow.CaseFilter;

/** Asks for a first and a last day; either may stay open. */
final class DaysDialog {

    record Days(@Nullable LocalDate from, @Nullable LocalDate to) {}

    private final Texts texts;
    private final DatePicker from;
    private final DatePicker to;

    DaysDialog(Texts texts, CaseFilter now) {
        this.texts = texts;
        from = picker("days-from", now.from());
        to = picker("days-to", now.to());
    }

    /** A field for a day in ISO form. */
    static DatePicker picker(String id, @Nullable LocalDate value) {
        DatePicker picker = Ui.day(id, value);
        picker.setMaxWidth(Double.MAX_VALUE);
        return picker;
    }

    Optional<Days> ask(Window owner) {
        Dialog<Days> dialog = new Dialog<>();
        dialog.initOwner(owner);
        dialog.setTitle(texts.get("filter.days.choose"));
        dialog.setHeaderText(null);
        GridPane grid = new GridPane();
        grid.setHgap(Ui.STEP * 2);
        grid.setVgap(Ui.STEP);
        grid.addRow(0, Ui.label(texts.get("filter.days.from"), "text-muted"), from);
        grid.addRow(1, Ui.label(texts.get("filter.days.to"), "text-muted"), to);
        dialog.getDialogPane().setContent(grid);
        dialog.getDialogPane().getButtonTypes().setAll(ButtonType.OK, ButtonType.CANCEL);
        dialog.getDialogPane().getStylesheets().setAll(owner.getScene().getStylesheets());
        Node ok = dialog.getDialogPane().lookupButton(ButtonType.OK);
        Runnable check = () -> {
            LocalDate first = from.getValue();
            LocalDate last = to.getValue();
            ok.setDisable((first == null && last == null) || (first != null && last != null && last.isBefore(first)));
        };
        from.valueProperty().addListener((property, old, now) -> check.run());
        to.valueProperty().addListener((property, old, now) -> check.run());
        check.run();
        dialog.setResultConverter(button -> button == ButtonType.OK ? new Days(from.getValue(), to.getValue()) : null);
        return dialog.showAndWait();
    }
}
