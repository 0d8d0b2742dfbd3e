package org.sideport.app.review;

import javafx.beans.binding.Bindings;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Spinner;
import javafx.scene.control.TextFormatter;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.ToggleGroup;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import javafx.stage.Window;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.CurrentCase;
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.keys.PhaseKeysSheet;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;

/** The tools of tagging beside the phases: their keys, another phase since here, style, and reaction. */
final class TagTools {

    private final ReviewViewModel model;
    private final Texts texts;

    TagTools(ReviewViewModel model, Texts texts) {
        this.model = model;
        this.texts = texts;
    }

    /** Under the phases: what has a key of its own. */
    HBox buttons(Runnable keys, Button refine) {
        Button sheet = tool("phase-keys-open", Feather.COMMAND, texts.get("keys.open"), Shortcut.PHASE_KEYS, keys);
        Button other = tool(
                "other-phase-open",
                Feather.REPEAT,
                texts.get("other.open"),
                Shortcut.OTHER_PHASE,
                model.otherPhase()::begin);
        HBox box = Ui.styled(new HBox(Ui.STEP / 2, refine, other, Ui.spring(), sheet), "padded");
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private Button tool(String id, Feather icon, String text, Shortcut shortcut, Runnable action) {
        Button button = Ui.button(id, icon, text, action);
        button.getStyleClass().add("small");
        button.setTooltip(new Tooltip(Ui.withKey(texts, shortcut)));
        button.setFocusTraversable(false);
        return button;
    }

    /** Over the list of tags: how is tagged. Both can be reached with Tab. */
    Node habits() {
        HBox style = new HBox();
        ToggleGroup group = new ToggleGroup();
        TaggingStyle[] all = {TaggingStyle.START_AND_END, TaggingStyle.STARTS_ONLY};
        for (int i = 0; i < all.length; i++) {
            TaggingStyle one = all[i];
            ToggleButton pill = new ToggleButton(texts.get("style." + one.name()));
            pill.setId("style-" + one.id());
            pill.getStyleClass().addAll("small", i == 0 ? "left-pill" : "right-pill");
            pill.setToggleGroup(group);
            Tooltip tooltip = new Tooltip(texts.get("style.tooltip." + one.name()));
            tooltip.setWrapText(true);
            tooltip.setMaxWidth(320);
            pill.setTooltip(tooltip);
            Runnable follow = () -> pill.setSelected(styleNow() == one);
            pill.setOnAction(event -> {
                model.setStyle(one);
                follow.run();
                group.getToggles().forEach(toggle -> toggle.setSelected(toggle.getUserData() == styleNow()));
            });
            pill.setUserData(one);
            model.taggingProperty().addListener((property, old, now) -> follow.run());
            model.habits().styleProperty().addListener((property, old, now) -> follow.run());
            follow.run();
            style.getChildren().add(pill);
        }
        HBox styleRow = new HBox(Ui.STEP, Ui.label(texts.get("style"), "small", "text-muted"), Ui.spring(), style);
        styleRow.setAlignment(Pos.CENTER_LEFT);
        Spinner<Integer> reaction = new Spinner<>(
                0, TagHabits.LONGEST_REACTION, model.habits().reactionProperty().get(), 50);
        reaction.setId("reaction");
        reaction.setEditable(true);
        reaction.setPrefWidth(112);
        reaction.getEditor()
                .setTextFormatter(
                        new TextFormatter<>(change -> change.getControlNewText().matches("\\d{0,4}") ? change : null));
        reaction.getEditor().focusedProperty().addListener((property, old, now) -> {
            if (!now && !reaction.getEditor().getText().isEmpty()) {
                reaction.commitValue();
            }
        });
        Tooltip meaning = new Tooltip(texts.get("reaction.tooltip"));
        meaning.setWrapText(true);
        meaning.setMaxWidth(320);
        reaction.setTooltip(meaning);
        reaction.valueProperty().addListener((property, old, now) -> {
            if (now != null) {
                model.habits().reactionProperty().set(now);
            }
        });
        HBox reactionRow =
                new HBox(Ui.STEP, Ui.label(texts.get("reaction"), "small", "text-muted"), Ui.spring(), reaction);
        reactionRow.setAlignment(Pos.CENTER_LEFT);
        VBox box = Ui.styled(new VBox(Ui.STEP / 2, styleRow, reactionRow), "padded");
        Ui.showIf(
                box,
                Bindings.createBooleanBinding(
                        () -> model.procedureProperty().get() != null, model.procedureProperty()));
        return box;
    }

    private TaggingStyle styleNow() {
        Tagging now = model.taggingProperty().get();
        return now == null || now.isEmpty() ? model.habits().styleProperty().get() : now.style();
    }

    /** The sheet of phase keys, over the window. */
    void showKeys(@Nullable Window owner) {
        CurrentCase.Opened open = model.current().opened();
        if (owner != null && open != null) {
            new PhaseKeysSheet(owner, texts, model.keys(), open.procedure()).show();
        }
    }
}
