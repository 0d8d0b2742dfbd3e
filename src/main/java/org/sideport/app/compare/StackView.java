package org.sideport.app.compare;

import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.function.Function;
import javafx.beans.binding.Bindings;
import javafx.geometry.Pos;
import javafx.scene.control.CheckBox;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.ToggleGroup;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.StackPane;
import javafx.scene.layout.VBox;
import javafx.util.StringConverter;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.compare.StackViewModel.Group;
import org.sideport.app.frame.EmptyState;
import org.sideport.model.MediaTime;
import org.sideport.model.Procedure.Term;
import org.sideport.workflow.ComputeTimings.Level;
import org.sideport.workflow.StackCases.Bar;
import org.sideport.workflow.StackCases.Stack;

/** One trainee's cases as bars above one another, the start of one phase in one line. */
final class StackView extends VBox {

    /** Opens a case at a moment. */
    @FunctionalInterface
    interface Opener {
        void open(String code, @Nullable MediaTime at);
    }

    private final StackViewModel model;
    private final Texts texts;
    private final StackBars bars;
    private final Label summary = Ui.label("", "small", "text-muted");
    private final StackPane middle = new StackPane();
    private final ComboBox<@Nullable Term> anchors = new ComboBox<>();
    private final ScrollPane scroll;

    StackView(StackViewModel model, Texts texts, Opener opener) {
        super(Ui.STEP);
        this.model = model;
        this.texts = texts;
        setId("stack");
        getStyleClass().add("stack");
        bars = new StackBars(model, texts, opener);
        scroll = Ui.styled(new ScrollPane(bars), "edge-to-edge");
        scroll.setFitToWidth(true);
        VBox.setVgrow(middle, Priority.ALWAYS);
        getChildren().addAll(tools(), middle, summary, Ui.wrapped(texts.get("compare.caution"), "small", "text-muted"));
        model.stackProperty().addListener((property, old, now) -> changed(now));
        changed(model.stackProperty().get());
    }

    private HBox tools() {
        ComboBox<@Nullable Group> groups = chooser(
                "stack-trainee",
                176,
                group -> group == null ? "" : texts.get("stack.group", group.trainee(), group.procedure()));
        Bindings.bindContent(groups.getItems(), model.groups());
        groups.setOnAction(event -> {
            if (groups.getValue() != null) {
                model.groupProperty().set(groups.getValue());
            }
        });
        follow(groups, model.groupProperty().get());
        model.groupProperty().addListener((property, old, now) -> follow(groups, now));
        anchors.setId("stack-anchor");
        converter(anchors, term -> term == null ? texts.get("stack.firstPhase") : term.name());
        anchors.setPromptText(texts.get("stack.firstPhase"));
        anchors.setPrefWidth(216);
        anchors.setFocusTraversable(false);
        anchors.setOnAction(event -> model.anchorProperty().set(anchors.getValue()));
        model.anchorProperty().addListener((property, old, now) -> anchors.setValue(now));
        CheckBox only = new CheckBox(texts.get("stack.only"));
        only.setId("stack-only");
        only.setFocusTraversable(false);
        only.selectedProperty().bindBidirectional(model.onlyAnchorProperty());
        only.disableProperty().bind(model.anchorProperty().isNull());
        HBox box = new HBox(
                Ui.STEP, groups, levels(), Ui.label(texts.get("stack.alignedAt"), "text-muted"), anchors, only);
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private static <T> void follow(ComboBox<T> box, T value) {
        if (!Objects.equals(box.getValue(), value)) {
            box.setValue(value);
        }
    }

    private HBox levels() {
        ToggleGroup group = new ToggleGroup();
        HBox box = Ui.styled(new HBox(), "segmented");
        box.setAlignment(Pos.CENTER_LEFT);
        for (Level level : Level.values()) {
            ToggleButton button = new ToggleButton(texts.get("times.level." + level.name()));
            button.setId("stack-" + level.name().toLowerCase(Locale.ROOT));
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

    private static <T extends @Nullable Object> ComboBox<T> chooser(
            String id, double width, Function<T, String> words) {
        ComboBox<T> box = new ComboBox<>();
        box.setId(id);
        box.setPrefWidth(width);
        box.setFocusTraversable(false);
        converter(box, words);
        return box;
    }

    private static <T extends @Nullable Object> void converter(ComboBox<T> box, Function<T, String> words) {
        box.setConverter(new StringConverter<>() {
            @Override
            public String toString(T value) {
                return words.apply(value);
            }

            @Override
            public T fromString(String text) {
                throw new UnsupportedOperationException("chosen, not typed");
            }
        });
    }

    private void changed(@Nullable Stack now) {
        middle.getChildren().clear();
        if (now == null || now.bars().isEmpty()) {
            summary.setText("");
            middle.getChildren()
                    .add(new EmptyState(Feather.ALIGN_LEFT, texts.get("stack.empty"), texts.get("stack.empty.text")));
            return;
        }
        Term chosen = model.anchorProperty().get();
        anchors.getItems().clear();
        anchors.getItems().add(null);
        anchors.getItems().addAll(now.terms());
        anchors.setValue(chosen);
        middle.getChildren().add(scroll);
        List<Bar> all = now.bars();
        String first = texts.day(all.get(0).surgicalCase().date());
        String last = texts.day(all.get(all.size() - 1).surgicalCase().date());
        String words = all.size() == 1
                ? texts.get("stack.single", now.trainee(), first)
                : texts.get("stack.summary", now.trainee(), all.size(), first, last);
        summary.setText(now.untagged() == 0 ? words : words + "  " + texts.get("stack.untagged", now.untagged()));
    }
}
