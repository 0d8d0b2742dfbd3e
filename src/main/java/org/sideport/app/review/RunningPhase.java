package org.sideport.app.review;

import javafx.beans.binding.Bindings;
import javafx.geometry.Pos;
import javafx.scene.control.Label;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.HBox;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Formats;
import org.sideport.app.PhaseColours;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Procedure;
import org.sideport.model.Tagging;

/** What runs on the picture and for how long: a quiet line above it that covers nothing of the eye. */
final class RunningPhase extends HBox {

    private final ReviewViewModel model;
    private final Texts texts;
    private final Label swatch = Ui.label("", "swatch");
    private final Label name = Ui.label("", "small");
    private final Label time = Ui.label("", "small", "digits", "text-muted");

    RunningPhase(ReviewViewModel model, Texts texts) {
        super(Ui.STEP);
        this.model = model;
        this.texts = texts;
        setId("running-phase");
        getStyleClass().add("running-phase");
        setAlignment(Pos.CENTER_LEFT);
        name.setId("running-name");
        time.setId("running-time");
        Label reaction = Ui.label("", "small", "text-muted");
        reaction.setId("running-reaction");
        var millis = model.habits().reactionProperty();
        reaction.textProperty()
                .bind(Bindings.createStringBinding(
                        () -> millis.get() == 0 ? "" : texts.get("reaction.on", millis.get()), millis));
        reaction.setTooltip(new Tooltip(texts.get("reaction.tooltip")));
        getChildren().addAll(swatch, name, time, Ui.spring(), reaction);
        Ui.showIf(
                this,
                Bindings.createBooleanBinding(() -> model.taggingProperty().get() != null, model.taggingProperty()));
        model.taggingProperty().addListener((property, old, now) -> update());
        model.procedureProperty().addListener((property, old, now) -> update());
        model.desk().timeProperty().addListener((property, old, now) -> update());
        update();
    }

    private void update() {
        Tagging tagging = model.taggingProperty().get();
        MediaTime now = model.desk().timeProperty().get();
        PhaseSpan span = tagging == null ? null : tagging.spanAt(now);
        Procedure.@Nullable Term term = term(span);
        Procedure procedure = model.procedureProperty().get();
        swatch.setVisible(span != null);
        swatch.setManaged(span != null);
        if (span == null) {
            name.setText(texts.get("running.none"));
            time.setText("");
            return;
        }
        swatch.setText(term == null ? "" : term.shortName());
        swatch.setStyle((term == null || procedure == null ? PhaseColours.unknown() : PhaseColours.of(procedure, term))
                .style());
        name.setText(term == null ? span.phase() : term.name());
        time.setText(Formats.shortClock(now.minus(span.start())));
    }

    private Procedure.@Nullable Term term(@Nullable PhaseSpan span) {
        Procedure procedure = model.procedureProperty().get();
        return procedure == null || span == null
                ? null
                : procedure.find(span.phase()).orElse(null);
    }
}
