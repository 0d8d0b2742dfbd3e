package org.sideport.app.review;

import java.util.Locale;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.ContentDisplay;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Formats;
import org.sideport.app.PhaseColours;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Procedure;
import org.sideport.model.Procedure.Term;

/** Asks by keys which phase it was; lies over the panel beside the picture, so that the picture stays free. */
final class OtherPhaseChooser extends VBox {

    private final ReviewViewModel model;
    private final Texts texts;
    private final Label title = Ui.wrapped("", "section");
    private final VBox list = new VBox(2);

    OtherPhaseChooser(ReviewViewModel model, Texts texts) {
        super(Ui.STEP);
        this.model = model;
        this.texts = texts;
        setId("other-phase");
        getStyleClass().add("other-phase");
        ScrollPane scroll = Ui.styled(new ScrollPane(list), "edge-to-edge");
        scroll.setFitToWidth(true);
        scroll.setHbarPolicy(ScrollPane.ScrollBarPolicy.NEVER);
        scroll.setFocusTraversable(false);
        VBox.setVgrow(scroll, Priority.ALWAYS);
        title.setId("other-phase-title");
        Button leave = Ui.button("other-phase-leave", null, texts.get("other.leave"), model.otherPhase()::cancel);
        leave.setFocusTraversable(false);
        getChildren().addAll(title, scroll, Ui.wrapped(texts.get("other.how"), "small", "text-muted"), leave);
        setPrefWidth(368);
        setMaxWidth(368);
        setVisible(false);
        setMaxHeight(Region.USE_PREF_SIZE);
        model.otherPhase().sinceProperty().addListener((property, old, now) -> show(now));
    }

    private void show(@Nullable MediaTime since) {
        setVisible(since != null);
        Procedure procedure = model.procedureProperty().get();
        if (since == null || procedure == null) {
            return;
        }
        PhaseSpan running = model.otherPhase().running(since);
        boolean fromStart = running != null && running.start().equals(since);
        title.setText(texts.get(
                fromStart ? "other.title.start" : "other.title.within",
                Formats.clock(since),
                running == null
                        ? ""
                        : procedure.find(running.phase()).map(Term::name).orElse(running.phase())));
        list.getChildren().clear();
        for (Term term : procedure.terms()) {
            list.getChildren().add(row(procedure, term));
        }
    }

    private Button row(Procedure procedure, Term term) {
        boolean idle = term.phase().idle();
        Label swatch = Ui.label(idle ? "" : term.shortName(), "swatch");
        if (idle) {
            swatch.getStyleClass().add("idle-swatch");
        } else {
            swatch.setStyle(PhaseColours.of(procedure, term).style());
        }
        Label cap = Ui.label(term.key().isEmpty() ? " " : term.key().toUpperCase(Locale.ROOT), "key-cap");
        cap.setMinWidth(24);
        HBox content = new HBox(Ui.STEP, cap, swatch, Ui.label(idle ? texts.get("other.idle") : term.name(), "small"));
        content.setAlignment(Pos.CENTER_LEFT);
        Button button = Ui.styled(new Button(), "term", "step");
        button.setId("other-" + term.id());
        button.setGraphic(content);
        button.setContentDisplay(ContentDisplay.GRAPHIC_ONLY);
        button.setMaxWidth(Double.MAX_VALUE);
        button.setFocusTraversable(false);
        button.setAccessibleText(term.name());
        button.setOnMouseClicked(event -> model.otherPhase().was(term, event.isShiftDown()));
        return button;
    }
}
