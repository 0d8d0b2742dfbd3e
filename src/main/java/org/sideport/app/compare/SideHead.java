package org.sideport.app.compare;

import java.util.Optional;
import javafx.beans.binding.Bindings;
import javafx.geometry.Pos;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Formats;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.Veiled;
import org.sideport.app.compare.PairDesk.Side;
import org.sideport.app.picture.PictureDesk;
import org.sideport.app.picture.ShownFrame;
import org.sideport.model.Exemplar;
import org.sideport.model.SurgicalCase;
import org.sideport.timing.Episode;
import org.sideport.workflow.Comparison;

/** What is above a picture: which case it is, whose tags, the time, the phase, and whether this side leads. */
final class SideHead extends VBox {

    private final CompareViewModel model;
    private final Side side;
    private final Texts texts;
    private final Label who = Ui.wrapped("", "small", "text-muted");
    private final ComboBox<String> annotators = new ComboBox<>();
    private final Label phase = Ui.label("", "swatch");
    private boolean setting;

    SideHead(CompareViewModel model, Side side, Texts texts) {
        super(2);
        this.model = model;
        this.side = side;
        this.texts = texts;
        getStyleClass().add("side-head");
        setMinHeight(USE_PREF_SIZE);
        String name = side == Side.LEFT ? "left" : "right";
        PictureDesk desk = model.pair().desk(side);
        Label time = Ui.label("", "digits");
        time.setId("time-" + name);
        time.textProperty()
                .bind(Bindings.createStringBinding(
                        () -> desk.recordingProperty().get() == null
                                ? ""
                                : Formats.clock(desk.timeProperty().get()),
                        desk.timeProperty(),
                        desk.recordingProperty()));
        time.setMinWidth(USE_PREF_SIZE);
        Label frame = Ui.label("", "small", "digits", "text-muted");
        frame.setId("frame-" + name);
        frame.textProperty()
                .bind(Bindings.createStringBinding(
                        () -> frameText(desk),
                        desk.shownProperty(),
                        model.pair().leading().playingProperty()));
        annotators.setId("annotator-" + name);
        annotators.setFocusTraversable(false);
        annotators.getStyleClass().add("annotator-choice");
        annotators.setTooltip(new Tooltip(texts.get("compare.annotator")));
        annotators.setOnAction(event -> {
            String chosen = annotators.getValue();
            if (!setting && chosen != null) {
                model.chooseAnnotator(side, chosen);
            }
        });
        phase.setMinWidth(USE_PREF_SIZE);
        ToggleButton lead = Ui.iconToggle("sound-" + name, Feather.VOLUME_2, texts.get("compare.lead"));
        lead.setOnAction(event -> {
            model.pair().lead(side);
            lead.setSelected(true);
        });
        lead.setSelected(model.pair().leaderProperty().get() == side);
        model.pair().leaderProperty().addListener((property, old, now) -> lead.setSelected(now == side));
        HBox first = new HBox(Ui.STEP, lead, who, Ui.spring(), annotators);
        HBox second = new HBox(Ui.STEP, time, frame, Ui.spring(), phase);
        first.setAlignment(Pos.CENTER_LEFT);
        second.setAlignment(Pos.CENTER_LEFT);
        second.setMinHeight(24);
        getChildren().addAll(first, second);
        model.comparisonProperty().addListener((property, old, now) -> changed(now));
        desk.timeProperty().addListener((property, old, now) -> showPhase());
        changed(model.comparisonProperty().get());
    }

    private String frameText(PictureDesk desk) {
        ShownFrame shown = desk.shownProperty().get();
        return shown == null || model.pair().leading().playingProperty().get()
                ? ""
                : texts.get("compare.frame", shown.frame().number());
    }

    private void changed(@Nullable Comparison now) {
        setVisible(now != null);
        if (now == null) {
            return;
        }
        Comparison.Side mine = side == Side.LEFT ? now.left() : now.right();
        SurgicalCase one = mine.surgicalCase();
        String words = texts.get("compare.candidate", one.code(), Veiled.trainee(one, texts), Veiled.day(one, texts));
        Exemplar exemplar = mine.exemplar();
        who.setText(exemplar == null ? words : words + "  " + texts.get("compare.exemplarMark"));
        who.setTooltip(
                exemplar == null
                        ? null
                        : new Tooltip(texts.get(
                                "compare.exemplar.text", exemplar.title(), exemplar.why(), exemplar.namedBy())));
        setting = true;
        annotators.getItems().setAll(mine.annotators());
        annotators.setValue(mine.annotator());
        setting = false;
        showPhase();
    }

    private void showPhase() {
        Comparison now = model.comparisonProperty().get();
        if (now == null) {
            phase.setVisible(false);
            return;
        }
        Comparison.Side mine = side == Side.LEFT ? now.left() : now.right();
        long at = model.pair().desk(side).timeProperty().get().micros();
        Optional<Episode> running = mine.episodes().stream()
                .filter(e -> at >= e.startUs() && at < e.endUs())
                .findFirst();
        phase.setVisible(running.isPresent());
        running.ifPresent(e -> {
            phase.setText(now.nameOf(e.label()));
            phase.setStyle(Looks.style(now.procedure(), e.label()));
        });
    }
}
