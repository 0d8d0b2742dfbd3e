package org.sideport.app.rubric;

import javafx.scene.layout.VBox;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Texts;
import org.sideport.rubric.RubricDraft;

/** The groups that items stand in, each with a sum of its own. */
final class DomainsForm extends PartForm {

    DomainsForm(RubricEditorViewModel model, Texts texts, RubricDraft draft) {
        super(model, texts, draft, Part.DOMAINS);
        hint(texts.get("rubrics.domains.hint"));
        for (int i = 0; i < draft.size("/domains"); i++) {
            String at = "/domains/" + i;
            DraftField id = name(at + "/id", "rubrics.field.id");
            id.setPrefWidth(160);
            id.setMinWidth(96);
            DraftField title = line(at + "/title", "rubrics.field.domain.title");
            VBox card = card(headed(title, order("/domains", i, draft.text(at + "/title"))), id);
            DraftField translated = translation("/domains" + RubricDraft.part(draft.text(at + "/id")));
            if (translated != null) {
                card.getChildren().add(1, translated);
            }
            add(card);
        }
        add(button("add-domain", Feather.PLUS, "rubrics.domain.add", RubricDraft::addDomain));
    }
}
