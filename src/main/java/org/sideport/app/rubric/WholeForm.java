package org.sideport.app.rubric;

import java.util.List;
import org.sideport.app.Texts;
import org.sideport.model.Procedure;
import org.sideport.rubric.RubricDraft;

/** Title, source, procedure and the like. */
final class WholeForm extends PartForm {

    WholeForm(RubricEditorViewModel model, Texts texts, RubricDraft draft) {
        super(model, texts, draft, Part.FORM);
        add(line("/title", "rubrics.field.title"));
        addTranslation("/title");
        List<Procedure> procedures = model.procedures();
        add(choice(
                "/procedure",
                "rubrics.field.procedure",
                procedures.stream().map(Procedure::id).toList(),
                procedures.stream().map(Procedure::title).toList()));
        add(row(fixed(name("/id", "rubrics.field.id"), 260), fixed(name("/version", "rubrics.field.version"), 100)));
        String note = model.versionNote();
        if (!note.isEmpty()) {
            hint(note);
        }
        add(lines("/source", texts.get("rubrics.field.source")));
        add(lines("/guidance", texts.get("rubrics.field.guidance")));
        addTranslation("/guidance");
    }

    private static DraftField fixed(DraftField field, double width) {
        field.setPrefWidth(width);
        return field;
    }
}
