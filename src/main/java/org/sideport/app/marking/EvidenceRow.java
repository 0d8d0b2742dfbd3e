package org.sideport.app.marking;

import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.Hyperlink;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.FlowPane;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.Rubric;

/** The moments that an item's mark rests on: a click goes there, the cross takes one away. */
final class EvidenceRow extends FlowPane {

    private final ItemMarking model;
    private final Texts texts;
    private final Rubric.Item item;
    private final Button add;

    EvidenceRow(ItemMarking model, Texts texts, Rubric.Item item) {
        super(Ui.STEP / 2, 0);
        this.model = model;
        this.texts = texts;
        this.item = item;
        setAlignment(Pos.CENTER_LEFT);
        add = Ui.button("evidence-" + item.id(), Feather.MAP_PIN, texts.get("item.evidence.add"), () -> {
            model.focus(item);
            model.toggleEvidence(item);
        });
        add.getStyleClass().addAll("small", "flat");
        add.setTooltip(new Tooltip(Ui.withKey(texts, Shortcut.EVIDENCE)));
        add.setFocusTraversable(false);
    }

    /** Shows what is stored; nothing while the item has no mark. */
    void show(@Nullable ItemScore score, boolean closed) {
        getChildren().clear();
        setVisible(score != null);
        setManaged(score != null);
        if (score == null) {
            return;
        }
        for (MediaTime moment : score.evidence()) {
            Hyperlink link = Ui.styled(new Hyperlink(moment.toClockText()), "digits", "small");
            link.setOnAction(event -> model.seek(moment));
            link.setFocusTraversable(false);
            getChildren().add(link);
            if (!closed) {
                Button remove = Ui.iconButton(
                        "no-evidence-" + item.id() + "-" + moment.micros(),
                        Feather.X,
                        texts.get("item.evidence.remove", moment.toClockText()),
                        () -> model.toggleEvidence(item, moment));
                remove.getStyleClass().add("small");
                getChildren().add(remove);
            }
        }
        if (!closed) {
            getChildren().add(add);
        }
    }
}
