package org.sideport.app.marking;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import javafx.beans.binding.Bindings;
import javafx.css.PseudoClass;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.ContentDisplay;
import javafx.scene.control.Label;
import javafx.scene.control.TextField;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.kordamp.ikonli.javafx.FontIcon;
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.ItemScore;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rubric;

/** One item of the rubric: every level with its anchor in sight, the reasons for leaving it out, and a comment. */
final class ItemCard extends VBox {

    private static final PseudoClass FOCUSED_ITEM = PseudoClass.getPseudoClass("focused-item");
    private static final PseudoClass CRITICAL = PseudoClass.getPseudoClass("critical");

    private final MarkingViewModel model;
    private final Texts texts;
    private final Rubric rubric;
    private final Rubric.Item item;
    private final List<ToggleButton> choices = new ArrayList<>();
    private final TextField comment = new TextField();
    private final Label critical = Ui.label("", "small", "critical-note");

    ItemCard(MarkingViewModel model, Texts texts, Rubric rubric, Rubric.Item item) {
        super(Ui.STEP / 2);
        this.model = model;
        this.texts = texts;
        this.rubric = rubric;
        this.item = item;
        setId("item-" + item.id());
        getStyleClass().add("item-card");
        getChildren().add(heading());
        if (!item.guidance().isEmpty()) {
            getChildren().add(Ui.wrapped(item.guidance(), "small", "text-muted"));
        }
        for (int points : rubric.pointsOf(item)) {
            getChildren().add(level(points));
        }
        getChildren().addAll(reasons(), comment());
        setOnMousePressed(event -> model.focus(item));
    }

    Rubric.Item item() {
        return item;
    }

    private HBox heading() {
        Label title = Ui.wrapped(item.title(), "item-title");
        HBox.setHgrow(title, Priority.ALWAYS);
        title.setMaxWidth(Double.MAX_VALUE);
        HBox box = new HBox(Ui.STEP, title, critical);
        if (item.weight() != 1.0) {
            box.getChildren().add(Ui.label(texts.get("item.weight", item.weight()), "small", "text-muted"));
        }
        Button jump = Ui.iconButton(
                "jump-" + item.id(), Feather.CORNER_DOWN_LEFT, Ui.withKey(texts, Shortcut.JUMP), () -> {
                    model.focus(item);
                    model.jump(item);
                });
        box.getChildren()
                .add(Ui.reasoned(
                        jump,
                        Bindings.createStringBinding(
                                () -> Objects.requireNonNullElse(model.whyNoJump(item), ""), model.laneProperty())));
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private ToggleButton level(int points) {
        Label number = Ui.label(Integer.toString(points), "key-cap");
        number.setMinWidth(24);
        Label name = Ui.label(levelName(points), "level-name");
        name.setMinWidth(Region.USE_PREF_SIZE);
        Label anchor = Ui.wrapped(anchorText(points), "small", "anchor");
        HBox.setHgrow(anchor, Priority.ALWAYS);
        anchor.setMaxWidth(Double.MAX_VALUE);
        VBox words = new VBox(0, name);
        if (!anchor.getText().isEmpty()) {
            words.getChildren().add(anchor);
        }
        HBox.setHgrow(words, Priority.ALWAYS);
        HBox content = new HBox(Ui.STEP, number, words);
        content.setAlignment(Pos.CENTER_LEFT);
        ToggleButton button = choice("level-" + item.id() + "-" + points, content, points);
        content.maxWidthProperty().bind(button.widthProperty().subtract(16));
        content.prefWidthProperty().bind(button.widthProperty().subtract(16));
        button.setOnAction(event -> chosen(button, () -> model.mark(item, points)));
        return button;
    }

    private String levelName(int points) {
        if (item.kind() == Rubric.Kind.CHECK) {
            return texts.get(points == 0 ? "item.check.no" : "item.check.yes");
        }
        return rubric.levels().stream()
                .filter(level -> level.points() == points)
                .map(Rubric.Level::label)
                .findFirst()
                .orElse("");
    }

    private String anchorText(int points) {
        return item.anchors().stream()
                .filter(anchor -> anchor.points() == points)
                .map(Rubric.Anchor::text)
                .findFirst()
                .orElseGet(() -> item.kind() == Rubric.Kind.CHECK
                        ? ""
                        : rubric.levels().stream()
                                .filter(level -> level.points() == points)
                                .map(Rubric.Level::meaning)
                                .findFirst()
                                .orElse(""));
    }

    private ToggleButton choice(String id, Region content, Object value) {
        ToggleButton button = Ui.styled(new ToggleButton(), "choice");
        button.setId(id);
        button.setGraphic(content);
        button.setContentDisplay(ContentDisplay.GRAPHIC_ONLY);
        button.setMaxWidth(Double.MAX_VALUE);
        button.setFocusTraversable(false);
        button.setUserData(value);
        choices.add(button);
        return button;
    }

    /** The button shows what is in the store, not what was clicked: that comes back with the stored mark. */
    private void chosen(ToggleButton button, Runnable change) {
        boolean takesBack = !button.isSelected();
        model.focus(item);
        if (takesBack) {
            model.clear(item);
        } else {
            change.run();
        }
        show();
    }

    private HBox reasons() {
        HBox box = new HBox(Ui.STEP / 2);
        for (NotApplicable reason : NotApplicable.values()) {
            if (item.notApplicable().contains(reason)) {
                Label name = Ui.label(texts.get("reason." + reason.name()), "small");
                Label key = Ui.label(keyOf(reason).keysText(), "key-cap");
                HBox content = new HBox(Ui.STEP / 2, key, name);
                content.setAlignment(Pos.CENTER_LEFT);
                ToggleButton button = choice("reason-" + item.id() + "-" + reason.id(), content, reason);
                button.setMaxWidth(Region.USE_PREF_SIZE);
                button.setOnAction(event -> chosen(button, () -> model.excuse(item, reason)));
                box.getChildren().add(button);
            }
        }
        Ui.showIf(box, Bindings.createBooleanBinding(() -> !box.getChildren().isEmpty(), box.getChildren()));
        return box;
    }

    static Shortcut keyOf(NotApplicable reason) {
        return switch (reason) {
            case DONE_BY_TRAINER -> Shortcut.DONE_BY_TRAINER;
            case NOT_VISIBLE -> Shortcut.NOT_VISIBLE;
            case NOT_PERFORMED -> Shortcut.NOT_PERFORMED;
        };
    }

    private HBox comment() {
        comment.setId("comment-" + item.id());
        comment.getStyleClass().add("small");
        comment.setOnAction(event -> {
            model.comment(item, comment.getText());
            requestFocus();
        });
        comment.focusedProperty().addListener((property, old, now) -> {
            if (now) {
                model.focus(item);
            } else {
                model.comment(item, comment.getText());
            }
        });
        HBox.setHgrow(comment, Priority.ALWAYS);
        HBox box = new HBox(Ui.STEP / 2, Ui.styled(new FontIcon(Feather.MESSAGE_SQUARE), "quiet-icon"), comment);
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    void editComment() {
        if (!comment.isDisabled()) {
            comment.requestFocus();
        }
    }

    /** Shows the mark as it is stored. */
    void show() {
        ItemScore score = model.scoreOf(item);
        Object value = valueOf(score);
        for (ToggleButton choice : choices) {
            choice.setSelected(choice.getUserData().equals(value));
            choice.setDisable(model.whyNoMarking() != null);
        }
        if (!comment.isFocused() || comment.isDisabled()) {
            comment.setText(score == null ? "" : score.comment());
        }
        comment.setDisable(score == null || model.whyNoMarking() != null);
        comment.setPromptText(texts.get(score == null ? "item.comment.first" : "item.comment"));
        comment.setTooltip(score == null ? new Tooltip(texts.get("item.comment.first")) : null);
        MarkingViewModel.Marks marks = model.marksProperty().get();
        boolean failed = marks != null && marks.score().criticalFailures().contains(item.id());
        pseudoClassStateChanged(CRITICAL, failed);
        critical.setText(failed ? texts.get("item.critical") : "");
    }

    private static @Nullable Object valueOf(@Nullable ItemScore score) {
        if (score instanceof ItemScore.Marked marked) {
            return marked.points();
        }
        return score instanceof ItemScore.Excused excused ? excused.reason() : null;
    }

    void showFocus(boolean focused) {
        pseudoClassStateChanged(FOCUSED_ITEM, focused);
    }
}
