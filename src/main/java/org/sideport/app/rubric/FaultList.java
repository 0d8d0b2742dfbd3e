package org.sideport.app.rubric;

import java.util.function.Consumer;
import javafx.scene.control.ListCell;
import javafx.scene.control.ListView;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.input.MouseButton;
import javafx.scene.layout.VBox;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.rubric.Finding;

/** All faults of the draft at once; one is gone to by Enter or a click. */
final class FaultList extends VBox {

    private final ListView<Finding> list = new ListView<>();

    FaultList(RubricEditorViewModel model, Texts texts, Consumer<Finding> go) {
        super(0);
        setId("rubric-faults");
        getStyleClass().add("fault-list");
        var title = Ui.label("", "section");
        title.setId("rubric-fault-count");
        list.setId("fault-list");
        list.getStyleClass().addAll("edge-to-edge", "dense");
        list.setCellFactory(view -> new Cell());
        list.addEventFilter(KeyEvent.KEY_PRESSED, event -> {
            Finding chosen = list.getSelectionModel().getSelectedItem();
            if (event.getCode() == KeyCode.ENTER && chosen != null) {
                go.accept(chosen);
                event.consume();
            }
        });
        list.setOnMouseClicked(event -> {
            Finding chosen = list.getSelectionModel().getSelectedItem();
            if (event.getButton() == MouseButton.PRIMARY && chosen != null) {
                go.accept(chosen);
            }
        });
        model.findingsProperty().addListener((property, old, now) -> {
            list.getItems().setAll(now);
            title.setText(texts.get("rubrics.faults", now.size()));
            setVisible(!now.isEmpty());
            setManaged(!now.isEmpty());
        });
        list.setAccessibleText(texts.get("rubrics.faults.all"));
        getChildren().addAll(title, list);
        setVisible(false);
        setManaged(false);
    }

    private static final class Cell extends ListCell<Finding> {
        Cell() {
            setPrefWidth(0);
            setWrapText(true);
            getStyleClass().addAll("small", "data");
        }

        @Override
        protected void updateItem(@Nullable Finding fault, boolean empty) {
            super.updateItem(fault, empty);
            setText(empty || fault == null ? "" : fault.path() + ": " + fault.text() + " — " + fault.remedy());
        }
    }
}
