package org.sideport.app.marking;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import javafx.beans.binding.Bindings;
import javafx.css.PseudoClass;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.TextField;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
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
public final class ItemCard extends VBox {

    private static final PseudoClass FOCUSED_ITEM = PseudoClass.getPseudoClass("focused-item");
    private static final PseudoClass CRITICAL = PseudoClass.getPseudoClass("critical");

    private final ItemMarking model;
    private final Texts texts;
    private final Rubric rubric;
    private final Rubric.Item item;
    private final List<Choice> choices = new ArrayList<>();
    private final TextField comment = new TextField();
    private final @Nullable NumberEntry number;
    private final EvidenceRow evidence;
    private final Label critical = Ui.wrapped("", "small", "critical-note");

    public ItemCard(ItemMarking model, Texts texts, Rubric rubric, Rubric.Item item) {
        super(Ui.STEP / 2);
        this.model = model;
        this.texts = texts;
        this.rubric = rubric;
        this.item = item;
        setId("item-" + item.id());
        getStyleClass().add("item-card");
        Ui.showIf(critical, critical.textProperty().isNotEmpty());
        getChildren().addAll(heading(), critical);
        if (!item.guidance().isEmpty()) {
            getChildren().add(Ui.wrapped(item.guidance(), "small", "text-muted"));
        }
        number = item.kind().isNumber() ? new NumberEntry(model, texts, item) : null;
        evidence = new EvidenceRow(model, texts, item);
        if (number != null) {
            getChildren().add(number);
        } else {
            for (int points : rubric.pointsOf(item)) {
                getChildren().add(level(points));
            }
        }
        getChildren().addAll(reasons(), evidence, comment());
        setOnMousePressed(event -> model.focus(item));
    }

    Rubric.Item item() {
        return item;
    }

    private HBox heading() {
        Label title = Ui.wrapped(item.title(), "item-title");
        HBox.setHgrow(title, Priority.ALWAYS);
        title.setMaxWidth(Double.MAX_VALUE);
        HBox box = new HBox(Ui.STEP, title);
        if (item.weight() != 1.0) {
            box.getChildren().add(Ui.label(texts.get("item.weight", item.weight()), "small", "text-muted"));
        }
        Button jump =
                Ui.iconButton("jump-" + item.id(), Feather.CORNER_DOWN_LEFT, Ui.withKey(texts, Shortcut.JUMP), () -> {
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

    private Choice level(int points) {
        return choice(
                "level-" + item.id() + "-" + points,
                points,
                Integer.toString(points),
                levelName(points),
                anchorText(points),
                () -> model.mark(item, points));
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

    /** A second click on what is chosen takes it back. What shows is always what is in the store. */
    private Choice choice(String id, Object value, String key, String name, String anchor, Runnable change) {
        Choice[] made = new Choice[1];
        made[0] = new Choice(id, value, key, name, anchor, () -> {
            model.focus(item);
            if (made[0].isSelected()) {
                model.clear(item);
            } else {
                change.run();
            }
        });
        choices.add(made[0]);
        return made[0];
    }

    private FlowPane reasons() {
        FlowPane box = new FlowPane(Ui.STEP / 2, Ui.STEP / 2);
        for (NotApplicable reason : NotApplicable.values()) {
            if (item.notApplicable().contains(reason)) {
                box.getChildren()
                        .add(choice(
                                "reason-" + item.id() + "-" + reason.id(),
                                reason,
                                keyOf(reason).keysText(),
                                texts.get("reason." + reason.name()),
                                "",
                                () -> model.excuse(item, reason)));
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
        comment.textProperty().addListener((property, old, now) -> {
            if (comment.isFocused()) {
                model.comment(item, now);
            }
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

    /** Where typing begins: the number of an item that has none yet, else the comment. */
    void edit() {
        if (number != null && model.scoreOf(item) == null) {
            number.edit();
        } else {
            editComment();
        }
    }

    private void editComment() {
        if (model.isComing(item)) {
            comment.setDisable(false);
        }
        if (!comment.isDisabled()) {
            comment.requestFocus();
        }
    }

    /** Shows the mark as it is stored. */
    public void show() {
        ItemScore score = model.scoreOf(item);
        boolean closed = model.whyNoMarking() != null;
        Object value = valueOf(score);
        evidence.show(score, closed);
        if (number != null) {
            number.show(score, closed);
        }
        for (Choice choice : choices) {
            choice.setSelected(choice.value().equals(value));
            choice.setDisable(closed);
        }
        if (!comment.isFocused() || comment.isDisabled()) {
            comment.setText(score == null ? "" : score.comment());
        }
        comment.setDisable((score == null && !model.isComing(item)) || closed);
        comment.setPromptText(texts.get(score == null ? "item.comment.first" : "item.comment"));
        comment.setTooltip(score == null ? new Tooltip(texts.get("item.comment.first")) : null);
        boolean failed = model.isCriticalFailure(item);
        pseudoClassStateChanged(CRITICAL, failed);
        critical.setText(failed ? texts.get("item.critical") : "");
    }

    private static @Nullable Object valueOf(@Nullable ItemScore score) {
        if (score instanceof ItemScore.Marked marked) {
            return marked.points();
        }
        return score instanceof ItemScore.Excused excused ? excused.reason() : null;
    }

    public void showFocus(boolean focused) {
        pseudoClassStateChanged(FOCUSED_ITEM, focused);
    }
}
