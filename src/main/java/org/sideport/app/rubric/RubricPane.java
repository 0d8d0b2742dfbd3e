package org.sideport.app.rubric;

import javafx.scene.Node;
import javafx.scene.layout.StackPane;
import org.sideport.app.Question;
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
        Question.of(
                        "rubrics-leave",
                        texts.get("rubrics.leave.title"),
                        texts.get("rubrics.leave.question"),
                        texts.get("rubrics.leave.yes"),
                        texts.get("rubrics.leave.no"))
                .ask(stack.getScene().getWindow(), model::close);
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
