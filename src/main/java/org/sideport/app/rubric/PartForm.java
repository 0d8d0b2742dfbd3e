package org.sideport.app.rubric;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.Procedure;
import org.sideport.rubric.Finding;
import org.sideport.rubric.RubricDraft;

/** The fields of one part of the draft, with its faults beside them. Made anew when the part's shape changes. */
class PartForm extends VBox {

    final RubricEditorViewModel model;
    final Texts texts;
    final RubricDraft draft;
    private final Part part;
    private final List<DraftField> fields = new ArrayList<>();
    private final Label others = Ui.wrapped("", "small", "critical-note");

    PartForm(RubricEditorViewModel model, Texts texts, RubricDraft draft, Part part) {
        super(Ui.STEP * 1.5);
        this.model = model;
        this.texts = texts;
        this.draft = draft;
        this.part = part;
        getStyleClass().add("padded");
        others.setId("other-faults");
        others.setVisible(false);
        others.setManaged(false);
        getChildren().add(others);
    }

    /** The form of a part. */
    static PartForm of(RubricEditorViewModel model, Texts texts, RubricDraft draft, Part part) {
        return switch (part.kind()) {
            case FORM -> new WholeForm(model, texts, draft);
            case LEVELS -> new LevelsForm(model, texts, draft);
            case DOMAINS -> new DomainsForm(model, texts, draft);
            case ITEM -> new ItemForm(model, texts, draft, part);
            case STANDARD -> new StandardForm(model, texts, draft);
            case EARLIER -> new EarlierForm(model, texts, draft);
        };
    }

    /** What the form's fields depend on: another shape needs another form. */
    static String shape(RubricDraft draft, Part part, String language, @Nullable Procedure procedure) {
        List<Object> shape = new ArrayList<>(List.of(part, language));
        shape.add(procedure == null ? "" : procedure.id());
        switch (part.kind()) {
            case FORM -> shape.add(draft.keys("/translations"));
            case LEVELS -> shape.add(draft.size("/levels"));
            case DOMAINS -> shape.add(draft.size("/domains"));
            case ITEM -> {
                shape.add(draft.text(part.path() + "/kind"));
                shape.add(draft.text(part.path() + "/id"));
                shape.add(draft.size(part.path() + "/bands"));
                shape.add(draft.texts(part.path() + "/bands", "points"));
                shape.add(draft.texts("/levels", "points"));
                shape.add(draft.texts("/levels", "label"));
                shape.add(draft.texts("/domains", "id"));
            }
            case STANDARD -> shape.add(draft.has("/pass_standard/share") || draft.has("/pass_standard/agreed_by"));
            case EARLIER -> shape.add(draft.texts("/items", "id"));
        }
        return shape.toString();
    }

    void section(String text) {
        getChildren().add(Ui.wrapped(text, "section"));
    }

    void hint(String text) {
        getChildren().add(Ui.wrapped(text, "small", "text-muted"));
    }

    DraftField line(String path, String key) {
        return field(DraftField.line(model, path, texts.get(key), DraftField.When.AT_EACH_STROKE));
    }

    /** For a name that other places follow. */
    DraftField name(String path, String key) {
        return field(DraftField.line(model, path, texts.get(key), DraftField.When.ON_LEAVING));
    }

    DraftField lines(String path, String name) {
        return field(DraftField.lines(model, path, name));
    }

    DraftField choice(String path, String key, List<String> values, List<String> names) {
        return field(DraftField.choice(model, path, texts.get(key), values, names));
    }

    DraftField field(DraftField made) {
        fields.add(made);
        made.show(draft);
        return made;
    }

    /** Puts fields under each other. */
    void add(Node... nodes) {
        getChildren().addAll(nodes);
    }

    /** Fields beside each other; the last takes the room that is left. */
    static HBox row(Node... nodes) {
        HBox row = new HBox(Ui.STEP, nodes);
        HBox.setHgrow(nodes[nodes.length - 1], Priority.ALWAYS);
        row.setAlignment(Pos.TOP_LEFT);
        return row;
    }

    /** Fields before a long one, and buttons after it. */
    static HBox headed(DraftField longest, Node buttons, DraftField... before) {
        HBox row = new HBox(Ui.STEP, before);
        HBox.setHgrow(longest, Priority.ALWAYS);
        // the buttons stand beside the control, not beside its name
        VBox level = new VBox(2, Ui.label(" ", "small"), buttons);
        row.getChildren().addAll(longest, level);
        return row;
    }

    /** Two fields of the same width. */
    static HBox halves(DraftField left, DraftField right) {
        HBox row = new HBox(Ui.STEP, left, right);
        for (DraftField field : List.of(left, right)) {
            field.setPrefWidth(100);
            HBox.setHgrow(field, Priority.ALWAYS);
        }
        return row;
    }

    /** Where the words of the other language go; {@code null} if none is shown. */
    @Nullable
    DraftField translation(String place) {
        String language = model.languageProperty().get();
        if (language.isEmpty()) {
            return null;
        }
        return lines("/translations" + RubricDraft.part(language) + place, texts.get("rubrics.in", language));
    }

    void addTranslation(String place) {
        DraftField field = translation(place);
        if (field != null) {
            getChildren().add(field);
        }
    }

    Button button(String id, Feather icon, String key, UnaryOperator<RubricDraft> change) {
        Button button = Ui.button(id, icon, texts.get(key), () -> model.edit(change));
        button.getStyleClass().add("small");
        return button;
    }

    /** A button with an icon that the keyboard reaches. */
    Button icon(String id, Feather icon, String name, Runnable action) {
        Button button = Ui.iconButton(id, icon, name, action);
        button.setFocusTraversable(true);
        return button;
    }

    /** Buttons to move a member of a list, and to take it out. */
    HBox order(String list, int index, String name) {
        String id = list.substring(1) + "-" + index;
        Button up = icon(
                "up-" + id,
                Feather.ARROW_UP,
                texts.get("rubrics.up", name),
                () -> model.edit(d -> d.moved(list, index, -1)));
        Button down = icon(
                "down-" + id,
                Feather.ARROW_DOWN,
                texts.get("rubrics.down", name),
                () -> model.edit(d -> d.moved(list, index, 1)));
        Button remove = icon(
                "remove-" + id,
                Feather.X,
                texts.get("rubrics.remove", name),
                () -> model.edit(d -> d.without(list, index)));
        HBox box = new HBox(up, down, remove);
        box.setAlignment(Pos.CENTER_RIGHT);
        return box;
    }

    /** A panel for one member of a list. */
    static VBox card(Node... nodes) {
        return Ui.styled(new VBox(Ui.STEP, nodes), "draft-card");
    }

    void showDraft(RubricDraft now) {
        fields.forEach(field -> field.show(now));
    }

    /** Each fault beside the field whose place it names best; what has no field stands above all. */
    void showFaults(List<Finding> found, RubricDraft now) {
        List<Finding> own =
                found.stream().filter(f -> Part.of(f.path(), now).equals(part)).toList();
        List<DraftField> of = own.stream().map(f -> nearest(f.path())).collect(Collectors.toList());
        for (DraftField field : fields) {
            List<Finding> here = new ArrayList<>();
            for (int i = 0; i < own.size(); i++) {
                if (Objects.equals(of.get(i), field)) {
                    here.add(own.get(i));
                }
            }
            field.showFaults(here);
        }
        String left = java.util.stream.IntStream.range(0, own.size())
                .filter(i -> of.get(i) == null)
                .mapToObj(i -> own.get(i).text() + " — " + own.get(i).remedy())
                .collect(Collectors.joining("\n"));
        others.setText(left);
        others.setVisible(!left.isEmpty());
        others.setManaged(!left.isEmpty());
    }

    /** The field of a place, or of the place that holds it. */
    @Nullable
    DraftField nearest(String path) {
        DraftField best = null;
        for (DraftField field : fields) {
            boolean holds = path.equals(field.path()) || path.startsWith(field.path() + "/");
            if (holds && (best == null || field.path().length() > best.path().length())) {
                best = field;
            }
        }
        return best;
    }

    /** Where typing begins. */
    void takeFocus() {
        if (!fields.isEmpty()) {
            fields.get(0).control().requestFocus();
        }
    }
}
