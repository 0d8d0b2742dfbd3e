package org.sideport.app.compare;

import java.util.List;
import javafx.animation.AnimationTimer;
import javafx.scene.control.MenuButton;
import javafx.scene.control.MenuItem;
import javafx.scene.control.SeparatorMenuItem;
import javafx.scene.control.Tooltip;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.kordamp.ikonli.javafx.FontIcon;
import org.sideport.app.Formats;
import org.sideport.app.Texts;
import org.sideport.app.compare.PairDesk.Side;
import org.sideport.model.Comment;
import org.sideport.model.MediaTime;
import org.sideport.workflow.Comparison;
import org.sideport.workflow.Comparison.Narrated;

/** What was spoken over the recording on one side, to be heard with the picture in step; gone where there is nothing. */
final class NarrationMenu extends MenuButton {

    private final CompareViewModel model;
    private final Side side;
    private final Texts texts;
    private final AnimationTimer follow = new AnimationTimer() {
        @Override
        public void handle(long now) {
            model.narrator().tick();
        }
    };

    NarrationMenu(CompareViewModel model, Side side, Texts texts) {
        this.model = model;
        this.side = side;
        this.texts = texts;
        setId("narration-" + (side == Side.LEFT ? "left" : "right"));
        setGraphic(new FontIcon(Feather.MESSAGE_CIRCLE));
        setMinWidth(USE_PREF_SIZE);
        getStyleClass().add("small");
        setTooltip(new Tooltip(texts.get("narration.tooltip")));
        setAccessibleText(texts.get("narration.tooltip"));
        model.comparisonProperty().addListener((property, old, now) -> fill(now));
        model.narrator().playingProperty().addListener((property, old, now) -> {
            if (now == null) {
                follow.stop();
            } else {
                follow.start();
            }
            fill(model.comparisonProperty().get());
        });
        fill(model.comparisonProperty().get());
    }

    private void fill(@Nullable Comparison now) {
        List<Narrated> there = now == null ? List.of() : (side == Side.LEFT ? now.left() : now.right()).narration();
        setVisible(!there.isEmpty());
        setManaged(!there.isEmpty());
        setText(texts.get("narration.count", there.size()));
        getItems().clear();
        if (model.narrator().playingProperty().get() != null) {
            MenuItem end = new MenuItem(texts.get("spoken.stopHearing"));
            end.setId(getId() + "-end");
            end.setOnAction(event -> model.narrator().end());
            getItems().addAll(end, new SeparatorMenuItem());
        }
        for (Narrated each : there) {
            MenuItem item = new MenuItem(text(each.comment()));
            item.setId(getId() + "-" + each.comment().from().micros());
            item.setOnAction(event -> model.hear(side, each));
            getItems().add(item);
        }
    }

    private String text(Comment comment) {
        long length = comment.voice() == null ? 0 : comment.voice().lengthUs();
        String words = comment.text().length() > 60 ? comment.text().substring(0, 60) + " …" : comment.text();
        return texts.get(
                "narration.item",
                Formats.shortClock(comment.from()),
                comment.author(),
                Formats.shortClock(MediaTime.ofMicros(length)),
                words);
    }
}
