package org.sideport.app.rubric;

import javafx.scene.control.CheckBox;
import org.sideport.app.Texts;
import org.sideport.rubric.RubricDraft;

/** The pass standard, which most forms do not have. */
final class StandardForm extends PartForm {

    StandardForm(RubricEditorViewModel model, Texts texts, RubricDraft draft) {
        super(model, texts, draft, Part.STANDARD);
        hint(texts.get("rubrics.standard.hint"));
        boolean there = draft.has("/pass_standard/share") || draft.has("/pass_standard/agreed_by");
        CheckBox has = new CheckBox(texts.get("rubrics.standard.has"));
        has.setId("has-standard");
        has.setSelected(there);
        has.setWrapText(true);
        has.setOnAction(event -> model.edit(d -> has.isSelected()
                ? d.with("/pass_standard/share", "")
                        .with("/pass_standard/agreed_by", "")
                        .with("/pass_standard/agreed_on", "")
                : d.without("/pass_standard")));
        add(has);
        if (there) {
            add(line("/pass_standard/share", "rubrics.field.share"));
            add(line("/pass_standard/agreed_by", "rubrics.field.agreedBy"));
            add(line("/pass_standard/agreed_on", "rubrics.field.agreedOn"));
        }
    }
}
