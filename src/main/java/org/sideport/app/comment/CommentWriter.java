package org.sideport.app.comment;

import java.util.EnumMap;
import java.util.Map;
import javafx.beans.binding.Bindings;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Hyperlink;
import javafx.scene.control.Label;
import javafx.scene.control.TextArea;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.Tooltip;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.util.StringConverter;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.kordamp.ikonli.javafx.FontIcon;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.CommentTone;
import org.sideport.model.DrawnMark;
import org.sideport.model.ItemLink;
import org.sideport.model.MarkColour;
import org.sideport.model.MediaTime;

/** The comment that is being written: its words, what it is about, and the drawing tools. */
final class CommentWriter extends VBox {

    private final CommentsViewModel model;
    private final Texts texts;
    private final Label time = Ui.label("", "digits", "small");
    private final TextArea words = new TextArea();
    private final ComboBox<ItemChoice> item = new ComboBox<>();
    private final Hyperlink moment = new Hyperlink();
    private final Map<CommentTone, ToggleButton> tones = new EnumMap<>(CommentTone.class);
    private boolean filling;
    /** The key that opened this is still held down: what it writes is not meant for the text. */
    private boolean opening;

    CommentWriter(CommentsViewModel model, Texts texts) {
        super(Ui.STEP);
        this.model = model;
        this.texts = texts;
        setId("comment-writer");
        getStyleClass().add("comment-writer");
        words.setId("comment-text");
        words.setPromptText(texts.get("comments.text.prompt"));
        words.setPrefRowCount(3);
        words.setWrapText(true);
        words.setMinHeight(64);
        words.focusedProperty().addListener((property, old, now) -> {
            if (!now && !filling) {
                model.setText(words.getText());
            }
        });
        words.addEventFilter(KeyEvent.KEY_TYPED, event -> {
            if (opening) {
                event.consume();
            }
        });
        words.addEventFilter(KeyEvent.KEY_RELEASED, event -> opening = false);
        words.addEventFilter(KeyEvent.KEY_PRESSED, event -> {
            opening = false;
            if (event.getCode() == KeyCode.ENTER && event.isShortcutDown()) {
                event.consume();
                done();
            }
        });
        item.setId("comment-item");
        item.setItems(model.items());
        item.setMaxWidth(Double.MAX_VALUE);
        item.getStyleClass().add("small");
        item.setConverter(new StringConverter<>() {
            @Override
            public String toString(@Nullable ItemChoice choice) {
                return choice == null ? "" : choice.title();
            }

            @Override
            public @Nullable ItemChoice fromString(String text) {
                return null;
            }
        });
        item.setOnAction(event -> {
            ItemChoice chosen = item.getValue();
            if (!filling && chosen != null) {
                model.setItem(chosen.link());
            }
        });
        getChildren().addAll(head(), tonePills(), words, item, drawingTools(), colours(), foot());
        Ui.showIf(
                this, Bindings.createBooleanBinding(() -> model.draftProperty().get() != null, model.draftProperty()));
        model.draftProperty().addListener((property, old, now) -> fill(old, now));
        fill(null, model.draftProperty().get());
    }

    private FlowPane head() {
        Hyperlink here = new Hyperlink(texts.get("comments.endHere"));
        here.setId("comment-end-here");
        here.setTooltip(new Tooltip(texts.get("comments.endHere.tooltip")));
        here.setOnAction(event -> model.endHere());
        moment.setText(texts.get("comments.onlyMoment"));
        moment.setId("comment-only-moment");
        moment.setOnAction(event -> model.onlyMoment());
        for (Hyperlink link : new Hyperlink[] {here, moment}) {
            link.setFocusTraversable(false);
            link.getStyleClass().add("small");
        }
        FlowPane box = new FlowPane(Ui.STEP, 0, time, here, moment);
        box.setRowValignment(javafx.geometry.VPos.CENTER);
        return box;
    }

    private HBox tonePills() {
        HBox box = new HBox();
        CommentTone[] all = CommentTone.values();
        for (int i = 0; i < all.length; i++) {
            CommentTone tone = all[i];
            ToggleButton pill =
                    new ToggleButton(texts.get("tone." + tone.name()), new FontIcon(TalkStyle.iconOf(tone)));
            pill.setId("tone-" + tone.id());
            pill.getStyleClass()
                    .addAll("small", i == 0 ? "left-pill" : i == all.length - 1 ? "right-pill" : "center-pill");
            pill.setFocusTraversable(false);
            pill.setOnAction(event -> {
                pill.setSelected(true);
                model.setTone(tone);
            });
            tones.put(tone, pill);
            box.getChildren().add(pill);
        }
        return box;
    }

    private HBox drawingTools() {
        HBox box = new HBox(Ui.STEP / 2, Ui.label(texts.get("comments.draw"), "small", "text-muted"));
        for (DrawnMark.Kind kind : DrawnMark.Kind.values()) {
            ToggleButton tool =
                    Ui.iconToggle("draw-" + kind.id(), TalkStyle.iconOf(kind), texts.get("draw." + kind.name()));
            tool.setOnAction(event -> model.draw(tool.isSelected() ? kind : null));
            model.toolProperty().addListener((property, old, now) -> tool.setSelected(now == kind));
            box.getChildren().add(tool);
        }
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private HBox colours() {
        HBox box = new HBox(Ui.STEP / 2, Ui.label(texts.get("comments.colour"), "small", "text-muted"));
        for (MarkColour colour : MarkColour.values()) {
            ToggleButton swatch = new ToggleButton();
            swatch.setId("colour-" + colour.id());
            Region sample = Ui.styled(new Region(), "mark-swatch", TalkStyle.classOf(colour));
            swatch.setGraphic(sample);
            swatch.getStyleClass().addAll("button-icon", "flat");
            String name = texts.get("colour." + colour.name());
            swatch.setTooltip(new Tooltip(name));
            swatch.setAccessibleText(name);
            swatch.setFocusTraversable(false);
            swatch.setSelected(model.colourProperty().get() == colour);
            swatch.setOnAction(event -> {
                swatch.setSelected(true);
                model.colourProperty().set(colour);
            });
            model.colourProperty().addListener((property, old, now) -> swatch.setSelected(now == colour));
            box.getChildren().add(swatch);
        }
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private HBox foot() {
        Button done = Ui.button("comment-done", Feather.CHECK, texts.get("comments.done"), this::done);
        done.getStyleClass().addAll("accent", "small");
        Label hint = Ui.label(texts.get("comments.keptAtOnce"), "small", "text-muted");
        HBox box = new HBox(Ui.STEP, done, hint);
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private void done() {
        model.setText(words.getText());
        model.draw(null);
        model.end();
    }

    private void fill(@Nullable CommentDraft old, @Nullable CommentDraft now) {
        filling = true;
        try {
            if (now == null) {
                words.clear();
                return;
            }
            MediaTime to = now.to();
            time.setText(
                    to == null
                            ? texts.get("event.at", now.from().toClockText())
                            : texts.get("comments.stretch", now.from().toClockText(), to.toClockText()));
            moment.setVisible(to != null);
            moment.setManaged(to != null);
            tones.forEach((tone, pill) -> pill.setSelected(tone == now.tone()));
            CommentDraft same = old != null && old.id().equals(now.id()) ? old : null;
            // what is being typed is not kept yet, and must not be lost when something else of it is
            if (same == null || !same.text().equals(now.text())) {
                words.setText(now.text());
            }
            ItemLink link = now.item();
            item.setValue(model.items().stream()
                    .filter(choice -> link == null ? choice.link() == null : link.equals(choice.link()))
                    .findFirst()
                    .orElse(null));
            if (same == null) {
                opening = true;
                words.requestFocus();
            }
        } finally {
            filling = false;
        }
    }
}
