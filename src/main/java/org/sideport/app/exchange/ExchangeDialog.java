package org.sideport.app.exchange;

import java.util.function.Consumer;
import javafx.beans.binding.Bindings;
import javafx.beans.value.ObservableDoubleValue;
import javafx.beans.value.ObservableValue;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Control;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressBar;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import javafx.stage.Modality;
import javafx.stage.Stage;
import javafx.stage.Window;
import org.sideport.app.Texts;
import org.sideport.app.Ui;

/** A window of this package: what its parts have in common. */
class ExchangeDialog {

    final Texts texts;
    final Stage stage = new Stage();

    ExchangeDialog(Window owner, Texts texts, String title) {
        this.texts = texts;
        stage.initOwner(owner);
        stage.initModality(Modality.WINDOW_MODAL);
        stage.setTitle(title);
    }

    void show(Consumer<Scene> look, double width, double height, Node... parts) {
        VBox content = Ui.styled(new VBox(Ui.STEP * 2, parts), "dialog-content");
        Scene scene = height > 0 ? new Scene(content, width, height) : new Scene(content);
        look.accept(scene);
        if (height <= 0) {
            content.setPrefWidth(width * Ui.letters(content));
        }
        stage.setScene(scene);
        if (height > 0) {
            Ui.growWithLetters(stage);
        }
        stage.show();
    }

    void close() {
        stage.close();
    }

    static GridPane grid() {
        GridPane grid = new GridPane();
        grid.setHgap(Ui.STEP * 2);
        grid.setVgap(Ui.STEP);
        return grid;
    }

    /** A line of {@code grid}: a name and the field that it names. */
    static void line(GridPane grid, String name, Control field) {
        Label label = Ui.label(name, "text-muted");
        label.setMinWidth(javafx.scene.layout.Region.USE_PREF_SIZE);
        label.setLabelFor(field);
        field.setAccessibleText(name);
        grid.addRow(grid.getRowCount(), label, field);
    }

    /** Whose tags count. */
    ComboBox<String> annotators(String id, CopyViewModel model) {
        ComboBox<String> box = new ComboBox<>(model.annotators());
        box.setId(id);
        box.valueProperty().bindBidirectional(model.annotatorProperty());
        return box;
    }

    /** How far it is, with a button that stops it; takes no room while nothing is under way. */
    Node progress(String id, ObservableDoubleValue fraction, Runnable cancel) {
        ProgressBar bar = new ProgressBar();
        bar.progressProperty().bind(fraction);
        bar.setPrefWidth(160);
        Button stop = Ui.button(id, null, texts.get("cuts.cancel"), cancel);
        HBox box = new HBox(Ui.STEP, bar, stop);
        box.setAlignment(Pos.CENTER_LEFT);
        Ui.showIf(box, Bindings.createBooleanBinding(() -> !Double.isNaN(fraction.get()), fraction));
        return box;
    }

    /** The foot: why not yet, a way out, and what the window is for. */
    HBox foot(ObservableValue<String> whyNot, Button go, Runnable leave, Node... left) {
        go.getStyleClass().add("accent");
        go.setDefaultButton(true);
        Button cancel = Ui.button("exchange-cancel", null, texts.get("cancel"), leave);
        cancel.setCancelButton(true);
        Label why = Ui.wrapped("", "small", "text-muted");
        why.setId("exchange-why");
        why.textProperty().bind(whyNot);
        HBox box = new HBox(Ui.STEP, left);
        box.getChildren().addAll(Ui.spring(), why, cancel, Ui.reasoned(go, whyNot));
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }
}
