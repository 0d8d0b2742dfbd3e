package org.sideport.app.rubric;

import java.util.ArrayList;
import java.util.List;
import javafx.scene.control.ComboBox;
import javafx.util.StringConverter;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Texts;
import org.sideport.model.Rubric;
import org.sideport.rubric.RubricDraft;

/** What became of each item of the version before, so that marks can be followed. */
final class EarlierForm extends PartForm {

    /** Given up; no id looks like this. */
    private static final String GONE = "-";

    EarlierForm(RubricEditorViewModel model, Texts texts, RubricDraft draft) {
        super(model, texts, draft, Part.EARLIER);
        Rubric earlier = draft.earlier();
        if (earlier == null) {
            return;
        }
        hint(texts.get("rubrics.earlier.hint", earlier.version()));
        List<String> ids = draft.texts("/items", "id");
        List<String> titles = draft.texts("/items", "title");
        for (Rubric.Item item : earlier.items()) {
            String path = "/replaces/0/items" + RubricDraft.part(item.id());
            List<String> values = new ArrayList<>(ids);
            List<String> names = new ArrayList<>(titles);
            values.add(GONE);
            names.add(texts.get("rubrics.earlier.gone"));
            add(field(DraftField.made(model, path, item.title(), box(item.id(), values, names, draft))));
        }
    }

    private ComboBox<String> box(String id, List<String> values, List<String> names, RubricDraft draft) {
        ComboBox<String> box = new ComboBox<>();
        box.getItems().setAll(values);
        box.setConverter(new StringConverter<>() {
            @Override
            public String toString(@Nullable String value) {
                int at = value == null ? -1 : values.indexOf(value);
                return at < 0
                        ? texts.get("rubrics.earlier.unsaid")
                        : id.equals(value) ? texts.get("rubrics.earlier.same", names.get(at)) : names.get(at);
            }

            @Override
            public String fromString(String text) {
                throw new UnsupportedOperationException("chosen, not typed");
            }
        });
        box.setValue(fate(id, draft));
        box.setOnAction(event -> {
            String value = box.getValue();
            if (value != null && !value.equals(fate(id, current()))) {
                model.edit(d -> d.withFate(id, value.equals(GONE) ? null : value));
            }
        });
        return box;
    }

    private RubricDraft current() {
        RubricDraft now = model.draftProperty().get();
        return now == null ? draft : now;
    }

    private static @Nullable String fate(String id, RubricDraft draft) {
        String path = "/replaces/0/items" + RubricDraft.part(id);
        if (draft.has(path)) {
            String now = draft.text(path);
            return now.isEmpty() ? GONE : now;
        }
        return draft.texts("/items", "id").contains(id) ? id : null;
    }

    @Override
    void showDraft(RubricDraft now) {
        // the choices show what they are told; undo makes the form anew
    }
}
