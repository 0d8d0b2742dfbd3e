package org.sideport.app.review;

import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import javafx.beans.binding.Bindings;
import javafx.css.PseudoClass;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.ContentDisplay;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import javafx.util.Duration;
import org.jspecify.annotations.Nullable;
import org.sideport.app.PhaseColours;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.Procedure;
import org.sideport.model.Procedure.Phase;
import org.sideport.model.Procedure.Term;

/** Every phase with its key, its steps under it, and what the picture on the screen belongs to lit up. */
final class PhasePalette extends VBox {

    private static final PseudoClass RUNNING = PseudoClass.getPseudoClass("running");
    private static final PseudoClass WITHIN = PseudoClass.getPseudoClass("within");

    private final ReviewViewModel model;
    private final Texts texts;
    private final VBox list = new VBox(Ui.STEP / 2);
    private final Map<String, Button> buttons = new HashMap<>();

    PhasePalette(ReviewViewModel model, Texts texts) {
        this.model = model;
        this.texts = texts;
        getStyleClass().add("palette");
        ScrollPane scroll = Ui.styled(new ScrollPane(list), "edge-to-edge");
        scroll.setFitToWidth(true);
        scroll.setHbarPolicy(ScrollPane.ScrollBarPolicy.NEVER);
        scroll.setFocusTraversable(false);
        VBox.setVgrow(scroll, Priority.ALWAYS);
        getChildren().add(scroll);
        model.procedureProperty().addListener((property, old, now) -> rebuild(now));
        model.runningTermProperty().addListener((property, old, now) -> light(now));
        rebuild(model.procedureProperty().get());
    }

    private void rebuild(@Nullable Procedure procedure) {
        list.getChildren().clear();
        buttons.clear();
        if (procedure == null) {
            return;
        }
        for (Phase phase : procedure.phases()) {
            list.getChildren().add(phaseBox(procedure, phase));
        }
        light(model.runningTermProperty().get());
    }

    private VBox phaseBox(Procedure procedure, Phase phase) {
        VBox box = new VBox(2);
        GridPane steps = new GridPane();
        steps.setHgap(2);
        steps.setVgap(2);
        int placed = 0;
        for (Term term : procedure.terms()) {
            if (!term.phase().id().equals(phase.id())) {
                continue;
            }
            Button button = termButton(procedure, term);
            if (term.isStep()) {
                steps.add(button, placed % 2, placed / 2);
                GridPane.setHgrow(button, Priority.ALWAYS);
                button.setPrefWidth(160);
                placed++;
            } else {
                box.getChildren().add(button);
            }
        }
        if (placed > 0) {
            box.getChildren().add(steps);
        }
        return box;
    }

    private Button termButton(Procedure procedure, Term term) {
        boolean idle = term.phase().idle();
        Label swatch = Ui.label(idle ? "" : term.shortName(), "swatch");
        if (idle) {
            swatch.getStyleClass().add("idle-swatch");
        } else {
            swatch.setStyle(PhaseColours.of(procedure, term).style());
        }
        Label name = Ui.label(idle ? texts.get("palette.idle") : term.name(), "term-name");
        Label key = Ui.label(term.key().toUpperCase(Locale.ROOT), "key-cap");
        HBox content = new HBox(Ui.STEP / 2);
        content.setAlignment(Pos.CENTER_LEFT);
        content.getChildren().addAll(swatch, name, Ui.spring(), key);
        Button button = Ui.styled(new Button(), "term", term.isStep() ? "step" : "phase");
        button.setId("term-" + term.id());
        button.setGraphic(content);
        button.setContentDisplay(ContentDisplay.GRAPHIC_ONLY);
        button.setMaxWidth(Double.MAX_VALUE);
        button.setFocusTraversable(false);
        button.setAccessibleText(term.name());
        content.prefWidthProperty().bind(button.widthProperty().subtract(12));
        if (term.isStep()) {
            name.getStyleClass().add("small");
            Ui.showIf(
                    name,
                    Bindings.createBooleanBinding(
                            () -> swatch.prefWidth(-1) + name.prefWidth(-1) + key.prefWidth(-1) + 2 * Ui.STEP
                                    <= content.getPrefWidth(),
                            content.prefWidthProperty(),
                            name.fontProperty()));
        }
        button.setTooltip(tooltip(term));
        button.setOnAction(event -> model.tag(term));
        buttons.put(term.id(), button);
        return button;
    }

    private Tooltip tooltip(Term term) {
        String definition = term.isStep()
                ? term.phase().steps().stream()
                        .filter(step -> step.id().equals(term.id()))
                        .map(Procedure.Step::definition)
                        .findFirst()
                        .orElse("")
                : term.phase().definition();
        Tooltip tooltip = new Tooltip(texts.get("palette.term", term.name(), definition));
        tooltip.setWrapText(true);
        tooltip.setMaxWidth(320);
        tooltip.setShowDelay(Duration.millis(500));
        return tooltip;
    }

    private void light(@Nullable String running) {
        Procedure procedure = model.procedureProperty().get();
        String phase = running == null || procedure == null
                ? null
                : procedure.find(running).map(term -> term.phase().id()).orElse(null);
        buttons.forEach((id, button) -> {
            button.pseudoClassStateChanged(RUNNING, id.equals(running));
            button.pseudoClassStateChanged(WITHIN, id.equals(phase) && !id.equals(running));
        });
    }
}
