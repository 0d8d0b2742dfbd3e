package org.sideport.app.rubric;

import javafx.scene.layout.VBox;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Texts;
import org.sideport.rubric.RubricDraft;

/** The scale, worst level first. */
final class LevelsForm extends PartForm {

    LevelsForm(RubricEditorViewModel model, Texts texts, RubricDraft draft) {
        super(model, texts, draft, Part.LEVELS);
        hint(texts.get("rubrics.levels.hint"));
        for (int i = 0; i < draft.size("/levels"); i++) {
            String at = "/levels/" + i;
            DraftField points = name(at + "/points", "rubrics.field.points");
            points.setPrefWidth(80);
            points.setMinWidth(64);
            DraftField label = line(at + "/label", "rubrics.field.label");
            VBox card = card(
                    headed(label, order("/levels", i, draft.text(at + "/label")), points),
                    lines(at + "/meaning", texts.get("rubrics.field.meaning")));
            String words = "/levels" + RubricDraft.part(draft.text(at + "/points"));
            DraftField translated = translation(words + "/label");
            DraftField meaning = translation(words + "/meaning");
            if (translated != null && meaning != null) {
                card.getChildren().addAll(translated, meaning);
            }
            add(card);
        }
        add(button("add-level", Feather.PLUS, "rubrics.level.add", RubricDraft::addLevel));
    }
}
