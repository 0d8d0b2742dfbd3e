package org.sideport.app.rubric;

import java.util.List;
import java.util.Objects;
import javafx.beans.binding.Bindings;
import javafx.beans.property.SimpleStringProperty;
import javafx.geometry.Orientation;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.SplitPane;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.FxThread;
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.rubric.Finding;
import org.sideport.rubric.RubricDraft;

/** A rubric being written: its parts, the form of one, and the preview. */
final class EditorDesk extends BorderPane {

    /** Where the parts of the rubric end, and where the form does; shares of the width. */
    private static final double[] COLUMNS = {0.21, 0.62};

    private final RubricEditorViewModel model;
    private final Texts texts;
    private final Runnable leave;
    private final ScrollPane scroll = Ui.styled(new ScrollPane(), "edge-to-edge");
    private final ComboBox<String> language = new ComboBox<>();
    private @Nullable PartForm form;
    private String shape = "";

    /** @param leave goes back to the list, after asking */
    EditorDesk(RubricEditorViewModel model, Texts texts, Runnable leave) {
        this.model = model;
        this.texts = texts;
        this.leave = leave;
        setId("rubric-desk");
        scroll.setFitToWidth(true);
        scroll.setHbarPolicy(ScrollPane.ScrollBarPolicy.NEVER);
        scroll.setFocusTraversable(false);
        FaultList faults = new FaultList(model, texts, this::goTo);
        SplitPane middle = new SplitPane(scroll, faults);
        middle.setOrientation(Orientation.VERTICAL);
        middle.setDividerPositions(0.78);
        SplitPane.setResizableWithParent(faults, false);
        showFaultsOnlyIfAny(middle, faults);
        VBox left = new VBox(new Outline(model, texts), addItem());
        VBox.setVgrow(left.getChildren().get(0), Priority.ALWAYS);
        left.getStyleClass().add("rubric-parts");
        SplitPane columns = new SplitPane(left, middle, new PreviewPane(model, texts));
        columns.setDividerPositions(COLUMNS);
        SplitPane.setResizableWithParent(left, false);
        // shares of the width, which is known only now
        columns.widthProperty().addListener((property, old, now) -> {
            if (old.doubleValue() == 0) {
                new FxThread().execute(() -> columns.setDividerPositions(COLUMNS));
            }
        });
        setTop(bar());
        setCenter(columns);
        addEventFilter(KeyEvent.KEY_PRESSED, this::keyPressed);
        model.draftProperty().addListener((property, old, now) -> show());
        model.partProperty().addListener((property, old, now) -> {
            show();
            scroll.setVvalue(0);
        });
        model.languageProperty().addListener((property, old, now) -> show());
        model.findingsProperty().addListener((property, old, now) -> showFaults());
        show();
    }

    private static void showFaultsOnlyIfAny(SplitPane middle, FaultList faults) {
        middle.getItems().remove(faults);
        faults.visibleProperty().addListener((property, old, now) -> {
            if (now && !middle.getItems().contains(faults)) {
                middle.getItems().add(faults);
                middle.setDividerPositions(0.78);
            } else if (!now) {
                middle.getItems().remove(faults);
            }
        });
    }

    private Node addItem() {
        Button add = Ui.button("add-item", Feather.PLUS, texts.get("rubrics.item.add"), this::addItemAndType);
        add.getStyleClass().add("small");
        return Ui.styled(new HBox(add), "padded");
    }

    private void addItemAndType() {
        model.addItem();
        takeFocus();
    }

    private FlowPane bar() {
        Button back = Ui.button("rubrics-back", Feather.ARROW_LEFT, texts.get("rubrics.back"), leave);
        Button undo = tool("rubrics-undo", Feather.CORNER_UP_LEFT, Shortcut.RUBRIC_UNDO, model::undo);
        Button redo = tool("rubrics-redo", Feather.CORNER_UP_RIGHT, Shortcut.RUBRIC_REDO, model::redo);
        Button save = Ui.button("rubrics-save", Feather.SAVE, texts.get("rubrics.save"), this::save);
        save.getStyleClass().add("accent");
        Label name = Ui.label("", "section", "data");
        name.setId("rubric-name");
        name.textProperty()
                .bind(Bindings.createStringBinding(
                        () -> {
                            RubricDraft draft = model.draftProperty().get();
                            if (draft == null) {
                                return "";
                            }
                            String title = draft.text("/title");
                            return texts.get(
                                    "rubrics.name",
                                    title.isBlank() ? texts.get("rubrics.untitled") : title,
                                    draft.text("/version"));
                        },
                        model.draftProperty()));
        Label in = Ui.label(texts.get("rubrics.language"), "small", "text-muted");
        in.setLabelFor(language);
        language.setId("rubric-language");
        language.setEditable(true);
        language.setPrefWidth(104);
        language.setAccessibleText(texts.get("rubrics.language"));
        language.valueProperty()
                .addListener((property, old, now) -> model.setLanguage(Objects.requireNonNullElse(now, "")));
        HBox words = new HBox(Ui.STEP / 2, in, language);
        words.setAlignment(Pos.CENTER_LEFT);
        SimpleStringProperty why = new SimpleStringProperty("");
        why.bind(model.whyNoSavingProperty());
        FlowPane bar = new FlowPane(
                Ui.STEP,
                Ui.STEP / 2,
                back,
                Ui.reasoned(undo, whyNot(model.canUndoProperty().not(), "rubrics.why.undo")),
                Ui.reasoned(redo, whyNot(model.canRedoProperty().not(), "rubrics.why.redo")),
                Ui.reasoned(save, why),
                words,
                name);
        bar.setAlignment(Pos.CENTER_LEFT);
        bar.getStyleClass().add("toolbar");
        return bar;
    }

    private javafx.beans.binding.StringBinding whyNot(javafx.beans.binding.BooleanBinding not, String key) {
        return Bindings.createStringBinding(() -> not.get() ? texts.get(key) : "", not);
    }

    private Button tool(String id, Feather icon, Shortcut shortcut, Runnable action) {
        Button button = Ui.iconButton(id, icon, Ui.withKey(texts, shortcut), action);
        button.setFocusTraversable(true);
        return button;
    }

    private void save() {
        // what is being typed into a field that is read on leaving it
        Node focus = getScene().getFocusOwner();
        requestFocus();
        model.save();
        if (focus != null) {
            focus.requestFocus();
        }
    }

    private void show() {
        RubricDraft draft = model.draftProperty().get();
        if (draft == null) {
            form = null;
            shape = "";
            scroll.setContent(null);
            language.setValue("");
            return;
        }
        List<String> languages = draft.keys("/translations");
        if (!language.getItems()
                .subList(
                        language.getItems().isEmpty() ? 0 : 1,
                        language.getItems().size())
                .equals(languages)) {
            String now = language.getValue();
            language.getItems().setAll("");
            language.getItems().addAll(languages);
            language.setValue(now);
        }
        Part part = model.partProperty().get();
        String wanted = PartForm.shape(draft, part, model.languageProperty().get(), model.procedure());
        PartForm now = form;
        if (now != null && wanted.equals(shape)) {
            now.showDraft(draft);
            return;
        }
        Node focus = getScene() == null ? null : getScene().getFocusOwner();
        boolean typedHere = focus != null && isWithin(focus, scroll);
        String id = focus != null && typedHere ? focus.getId() : null;
        shape = wanted;
        PartForm made = PartForm.of(model, texts, draft, part);
        form = made;
        scroll.setContent(made);
        showFaults();
        Node again = id == null ? null : made.lookup("#" + id);
        if (again != null) {
            again.requestFocus();
        } else if (typedHere) {
            // the field is gone: the editor's keys go on working all the same
            requestFocus();
        }
    }

    private static boolean isWithin(Node node, Node whole) {
        for (Node up = node; up != null; up = up.getParent()) {
            if (up == whole) {
                return true;
            }
        }
        return false;
    }

    private void showFaults() {
        RubricDraft draft = model.draftProperty().get();
        PartForm now = form;
        if (draft != null && now != null) {
            now.showFaults(model.findingsProperty().get(), draft);
        }
    }

    private void goTo(Finding fault) {
        RubricDraft draft = model.draftProperty().get();
        if (draft == null) {
            return;
        }
        String[] steps = fault.path().split("/", -1);
        if (steps.length > 2 && steps[1].equals("translations")) {
            language.setValue(steps[2]);
        }
        model.go(Part.of(fault.path(), draft));
        PartForm now = form;
        DraftField field = now == null ? null : now.nearest(fault.path());
        if (field != null) {
            field.control().requestFocus();
            Ui.bringIntoView(scroll, field);
        }
    }

    private void nextFault() {
        List<Finding> found = model.findingsProperty().get();
        RubricDraft draft = model.draftProperty().get();
        if (found.isEmpty() || draft == null) {
            return;
        }
        Node focus = getScene().getFocusOwner();
        String at = focus == null || focus.getId() == null ? "" : focus.getId();
        int here = -1;
        for (int i = 0; i < found.size(); i++) {
            if (DraftField.idOf(found.get(i).path()).equals(at)) {
                here = i;
            }
        }
        goTo(found.get((here + 1) % found.size()));
    }

    private void keyPressed(KeyEvent event) {
        Shortcut shortcut = Shortcut.of(event, Shortcut.Scope.RUBRIC).orElse(null);
        if (shortcut == null) {
            return;
        }
        switch (shortcut) {
            case RUBRIC_SAVE -> save();
            case RUBRIC_UNDO -> model.undo();
            case RUBRIC_REDO -> model.redo();
            case RUBRIC_NEXT -> step(1);
            case RUBRIC_PREVIOUS -> step(-1);
            case RUBRIC_ITEM -> addItemAndType();
            case RUBRIC_FAULT -> nextFault();
            default -> throw new IllegalStateException("not an editor's key: " + shortcut);
        }
        event.consume();
    }

    private void step(int by) {
        model.step(by);
        takeFocus();
    }

    void takeFocus() {
        PartForm now = form;
        if (now != null) {
            // a form that is only coming up cannot take the keyboard before it is laid out
            applyCss();
            layout();
            now.takeFocus();
            Node focus = getScene() == null ? null : getScene().getFocusOwner();
            if (focus == null || !isWithin(focus, this)) {
                requestFocus();
            }
        }
    }
}
