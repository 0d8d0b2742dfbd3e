package org.sideport.app.review;

import java.util.Optional;
import javafx.beans.binding.Bindings;
import javafx.geometry.HPos;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.ToggleGroup;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.ColumnConstraints;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import javafx.util.StringConverter;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Formats;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.Procedure;
import org.sideport.timing.CaseTiming;
import org.sideport.timing.PhaseTiming;
import org.sideport.workflow.ComputeTimings.Level;
import org.sideport.workflow.ReferenceTimes.Published;
import org.sideport.workflow.ReferenceTimes.Reference;

/** How long each phase took, in the several meanings of "long", with the caution that belongs to it. */
final class TimesPane extends VBox {

    private final ReviewViewModel model;
    private final Texts texts;
    private final GridPane grid = new GridPane();
    private final ReferenceModel reference;
    private final Label source = Ui.wrapped("", "small", "text-muted");

    TimesPane(ReviewViewModel model, ReferenceModel reference, Texts texts) {
        super(Ui.STEP);
        this.reference = reference;
        this.model = model;
        this.texts = texts;
        getStyleClass().add("padded");
        grid.setHgap(Ui.STEP);
        grid.setVgap(Ui.STEP / 2);
        ColumnConstraints name = new ColumnConstraints();
        name.setHgrow(Priority.ALWAYS);
        grid.getColumnConstraints().add(name);
        for (int i = 0; i < 4; i++) {
            ColumnConstraints number = new ColumnConstraints();
            number.setHalignment(HPos.RIGHT);
            grid.getColumnConstraints().add(number);
        }
        ScrollPane scroll = Ui.styled(new ScrollPane(grid), "edge-to-edge");
        scroll.setFitToWidth(true);
        VBox.setVgrow(scroll, Priority.ALWAYS);
        source.setId("times-source");
        Ui.showIf(source, Bindings.isNotEmpty(source.textProperty()));
        getChildren()
                .addAll(levels(), heldAgainst(), scroll, Ui.wrapped(texts.get("times.caution"), "small", "text-muted"));
        model.timingProperty().addListener((property, old, now) -> rebuild(now));
        reference
                .chosenProperty()
                .addListener(
                        (property, old, now) -> rebuild(model.timingProperty().get()));
        reference
                .lanesProperty()
                .addListener(
                        (property, old, now) -> rebuild(model.timingProperty().get()));
        rebuild(model.timingProperty().get());
    }

    private HBox levels() {
        ToggleGroup group = new ToggleGroup();
        HBox box = Ui.styled(new HBox(), "segmented");
        for (Level level : Level.values()) {
            ToggleButton button = new ToggleButton(texts.get("times.level." + level.name()));
            button.getStyleClass().add(level == Level.PHASE ? "left-pill" : "right-pill");
            button.setToggleGroup(group);
            button.setFocusTraversable(false);
            button.setSelected(model.levelProperty().get() == level);
            button.setOnAction(event -> {
                button.setSelected(true);
                model.levelProperty().set(level);
            });
            box.getChildren().add(button);
        }
        return box;
    }

    private ComboBox<Optional<Reference>> heldAgainst() {
        ComboBox<Optional<Reference>> box = new ComboBox<>(reference.choices());
        box.setId("times-reference");
        box.setFocusTraversable(false);
        box.setAccessibleText(texts.get("reference.choose"));
        box.setTooltip(new Tooltip(texts.get("reference.choose")));
        box.setMaxWidth(Double.MAX_VALUE);
        box.setConverter(new StringConverter<>() {
            @Override
            @SuppressWarnings("NullableOptional") // the box asks for no choice at all, too
            public String toString(@Nullable Optional<Reference> one) {
                return reference.titleOf(one == null ? null : one.orElse(null));
            }

            @Override
            public Optional<Reference> fromString(String text) {
                throw new UnsupportedOperationException("only chosen, never typed");
            }
        });
        box.setOnAction(event -> {
            Optional<Reference> chosen = box.getValue();
            if (chosen != null
                    && !chosen.equals(
                            Optional.ofNullable(reference.chosenProperty().get()))) {
                reference.chosenProperty().set(chosen.orElse(null));
            }
        });
        Runnable show = () ->
                box.setValue(Optional.ofNullable(reference.chosenProperty().get()));
        reference.chosenProperty().addListener((property, old, now) -> show.run());
        show.run();
        return box;
    }

    /** What is usual for a phase, and where this case stands, under its numbers. */
    private int usual(String id, int row) {
        String usual = reference.usualOf(id);
        if (usual.isEmpty()) {
            return row;
        }
        String own = reference.lineOf(id);
        Label line = Ui.wrapped(usual + (own.isEmpty() ? "" : " · " + own), "small", "text-muted");
        line.setId("usual-" + id);
        grid.add(line, 0, row, 5, 1);
        return row + 1;
    }

    private void rebuild(@Nullable CaseTiming timing) {
        source.setText(timing == null ? "" : reference.source());
        source.getStyleClass().remove("data");
        if (reference.chosenProperty().get() instanceof Published) {
            source.getStyleClass().add("data");
        }
        grid.getChildren().clear();
        Procedure procedure = model.procedureProperty().get();
        if (timing == null || procedure == null) {
            grid.add(Ui.wrapped(texts.get("times.empty"), "text-muted"), 0, 0, 5, 1);
            return;
        }
        heading(1, "times.active");
        heading(2, "times.span");
        heading(3, "times.episodes");
        heading(4, "times.idleInside");
        int row = 1;
        for (PhaseTiming phase : timing.phases()) {
            Label name = Ui.label(
                    procedure.find(phase.phase()).map(Procedure.Term::name).orElse(phase.phase()));
            name.setMinWidth(60);
            grid.add(name, 0, row);
            number(1, row, length(phase.activeUs(), phase.unsure().active()));
            number(2, row, length(phase.spanUs(), phase.unsure().span()));
            number(3, row, Integer.toString(phase.episodes()));
            number(4, row, length(phase.idleInsideUs(), phase.unsure().idle()));
            row = usual(phase.phase(), row + 1);
        }
        total(row++, "times.operating", timing.operatingUs(), timing.unsure().span());
        total(row++, "times.inPhases", timing.activeUs(), timing.unsure().active());
        total(row++, "times.idle", timing.idleUs(), timing.unsure().idle());
        if (timing.unsure().any()) {
            grid.add(Ui.wrapped(texts.get("times.unsure"), "small", "text-muted"), 0, row++, 5, 1);
        }
        grid.add(source, 0, row, 5, 1);
    }

    /** A time, marked where a cut of the recording lies in it. */
    private static String length(@Nullable Long micros, boolean unsure) {
        return (unsure && micros != null ? "≥ " : "") + Formats.length(micros);
    }

    private void heading(int column, String key) {
        Label label = Ui.label(texts.get(key), "small", "text-muted");
        label.setTooltip(new Tooltip(texts.get(key + ".meaning")));
        grid.add(label, column, 0);
    }

    private void number(int column, int row, String text) {
        grid.add(Ui.label(text, "digits", "small"), column, row);
    }

    private void total(int row, String key, @Nullable Long micros, boolean unsure) {
        Label label = Ui.label(texts.get(key), "text-muted");
        label.setTooltip(new Tooltip(texts.get(key + ".meaning")));
        grid.add(label, 0, row);
        number(1, row, length(micros, unsure));
    }
}
