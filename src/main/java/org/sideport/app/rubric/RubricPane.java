package org.sideport.app.rubric;

import javafx.scene.Node;
import javafx.scene.control.Alert;
import javafx.scene.control.ButtonBar;
import javafx.scene.control.ButtonType;
import javafx.scene.layout.StackPane;
import org.sideport.app.Texts;
import org.sideport.app.programme.ProgrammePane;

/** The rubrics of the unit: the list of them, or one that is being written. */
public final class RubricPane implements ProgrammePane {

    private final RubricEditorViewModel model;
    private final Texts texts;
    private final ShelfView shelf;
    private final EditorDesk desk;
    private final StackPane stack = new StackPane();

    public RubricPane(RubricEditorViewModel model, Texts texts) {
        this.model = model;
        this.texts = texts;
        shelf = new ShelfView(model, texts);
        desk = new EditorDesk(model, texts, this::leave);
        show();
        model.draftProperty().addListener((property, old, now) -> {
            if ((old == null) != (now == null)) {
                show();
            }
        });
    }

    private void show() {
        boolean open = model.draftProperty().get() != null;
        stack.getChildren().setAll(open ? desk : shelf);
        if (stack.getScene() != null) {
            if (open) {
                desk.takeFocus();
            } else {
                shelf.takeFocus();
            }
        }
    }

    /** Asks once if something would be lost. */
    private void leave() {
        if (!model.isChanged()) {
            model.close();
            return;
        }
        Alert alert = new Alert(Alert.AlertType.CONFIRMATION);
        alert.initOwner(stack.getScene().getWindow());
        alert.setTitle(texts.get("rubrics.leave.title"));
        alert.setHeaderText(null);
        alert.setGraphic(null);
        alert.setContentText(texts.get("rubrics.leave.question"));
        alert.getDialogPane().setMinHeight(160);
        ButtonType yes = new ButtonType(texts.get("rubrics.leave.yes"), ButtonBar.ButtonData.OK_DONE);
        ButtonType no = new ButtonType(texts.get("rubrics.leave.no"), ButtonBar.ButtonData.CANCEL_CLOSE);
        alert.getButtonTypes().setAll(yes, no);
        alert.getDialogPane().lookupButton(yes).setId("rubrics-leave-yes");
        alert.setOnHidden(event -> {
            if (alert.getResult() == yes) {
                model.close();
            }
        });
        alert.show();
    }

    @Override
    public String id() {
        return "rubrics";
    }

    @Override
    public String title() {
        return texts.get("rubrics.title");
    }

    @Override
    public Node node() {
        return stack;
    }

    @Override
    public void shown() {
        if (model.draftProperty().get() == null) {
            model.refresh();
        }
    }

    @Override
    public void takeFocus() {
        if (model.draftProperty().get() == null) {
            shelf.takeFocus();
        } else {
            desk.takeFocus();
        }
    }
}
