package org.sideport.app.refine;

import java.util.ArrayList;
import java.util.List;
import javafx.beans.binding.Bindings;
import javafx.beans.binding.StringBinding;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.Tooltip;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Background;
import org.sideport.app.Formats;
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.picture.FrameSource;
import org.sideport.app.timeline.FrameGrid;
import org.sideport.model.MediaTime;
import org.sideport.model.Recording;

/** The walk through the boundaries: what is looked at, the frames around it, and the keys. Shown while it goes on. */
public final class RefineBar extends VBox {

    private final RefineViewModel model;
    private final Texts texts;
    private final RefineFrames frames;
    private final FrameStrip strip;
    private final Label what = Ui.label("", "section");
    private final Label state = Ui.label("", "small", "text-muted");
    private final Label time = Ui.label("", "digits");
    private final Label moved = Ui.label("", "small", "text-muted");
    private final Label progress = Ui.label("", "small");
    private final Label near = Ui.label("", "small", "text-muted");

    public RefineBar(RefineViewModel model, FrameSource.Opener opener, Background work, Texts texts) {
        super(Ui.STEP / 2);
        this.model = model;
        this.texts = texts;
        setId("refine");
        getStyleClass().add("refine");
        frames = new RefineFrames(opener, work, this::showStrip);
        strip = new FrameStrip(model, frames);
        what.setId("refine-what");
        state.setId("refine-state");
        time.setId("refine-time");
        moved.setId("refine-moved");
        progress.setId("refine-progress");
        near.setId("refine-near");
        HBox head = new HBox(Ui.STEP, what, time, moved, state, Ui.spring(), near, progress);
        head.setAlignment(Pos.CENTER_LEFT);
        HBox keys = new HBox(
                Ui.STEP / 2,
                tool("refine-back", Feather.CHEVRONS_LEFT, "refine.back", Shortcut.REFINE_BACK, model::back),
                tool(
                        "refine-much-earlier",
                        null,
                        "refine.muchEarlier",
                        Shortcut.BOUNDARY_MUCH_EARLIER,
                        () -> model.move(-10)),
                tool("refine-earlier", null, "refine.earlier", Shortcut.BOUNDARY_EARLIER, () -> model.move(-1)),
                tool("refine-later", null, "refine.later", Shortcut.BOUNDARY_LATER, () -> model.move(1)),
                tool("refine-much-later", null, "refine.muchLater", Shortcut.BOUNDARY_MUCH_LATER, () -> model.move(10)),
                tool(
                        "refine-candidate-earlier",
                        Feather.ARROW_UP,
                        "refine.candidate",
                        Shortcut.CANDIDATE_EARLIER,
                        () -> model.jump(false)),
                tool(
                        "refine-candidate-later",
                        Feather.ARROW_DOWN,
                        "refine.candidate",
                        Shortcut.CANDIDATE_LATER,
                        () -> model.jump(true)),
                Ui.spring(),
                tool("refine-skip", Feather.CHEVRONS_RIGHT, "refine.skip", Shortcut.REFINE_SKIP, model::skip),
                tool("refine-leave", Feather.X, "refine.leave", Shortcut.REFINE_LEAVE, model::leave),
                confirm());
        keys.setAlignment(Pos.CENTER_LEFT);
        getChildren().addAll(head, strip, keys);
        Ui.showIf(this, model.activeProperty());
        model.activeProperty().addListener((property, old, now) -> opened(now));
        model.positionProperty().addListener((property, old, now) -> show());
        model.currentProperty().addListener((property, old, now) -> show());
        model.confirmedProperty().addListener((property, old, now) -> show());
        model.totalProperty().addListener((property, old, now) -> show());
    }

    public RefineViewModel model() {
        return model;
    }

    /** The button that begins and ends the walk. */
    public Button opener() {
        Button button = Ui.button("refine-open", Feather.CROSSHAIR, texts.get("refine.open"), model::toggle);
        button.getStyleClass().add("small");
        button.setFocusTraversable(false);
        button.setTooltip(new Tooltip(texts.get("refine.tooltip", Shortcut.REFINE.keysText())));
        StringBinding words = Bindings.createStringBinding(
                () -> texts.get(model.activeProperty().get() ? "refine.close" : "refine.open"), model.activeProperty());
        button.textProperty().bind(words);
        return button;
    }

    private Button confirm() {
        Button button = tool("refine-confirm", Feather.CHECK, "refine.confirm", Shortcut.CONFIRM, model::confirm);
        button.getStyleClass().add("accent");
        return button;
    }

    private Button tool(String id, @Nullable Feather icon, String words, Shortcut shortcut, Runnable action) {
        Button button = Ui.button(id, icon, texts.get(words), action);
        button.getStyleClass().add("small");
        button.setFocusTraversable(false);
        button.setTooltip(new Tooltip(Ui.withKey(texts, shortcut)));
        button.setAccessibleText(texts.get(shortcut.textKey()));
        return button;
    }

    private void opened(boolean now) {
        Recording recording = model.review().desk().recordingProperty().get();
        if (now && recording != null) {
            frames.open(recording);
            show();
        } else {
            frames.close();
        }
    }

    private void show() {
        FrameGrid grid = model.frames();
        if (!model.activeProperty().get() || grid == null) {
            return;
        }
        MediaTime at = model.positionProperty().get();
        int by = model.movedBy();
        what.setText(model.what());
        time.setText(Formats.clock(at));
        moved.setText(by == 0 ? "" : texts.get(by > 0 ? "refine.moved.later" : "refine.moved.earlier", Math.abs(by)));
        int done = model.confirmedProperty().get();
        int total = model.totalProperty().get();
        state.setText(texts.get(model.isConfirmedHere() ? "refine.state.confirmed" : "refine.state.rough"));
        progress.setText(texts.get(done == total ? "refine.progress.all" : "refine.progress", done, total));
        int candidates = model.candidates().size();
        near.setText(candidates == 0 ? "" : texts.get("refine.near", candidates));
        int middle = grid.at(at.micros());
        List<Long> wanted = new ArrayList<>();
        wanted.add((long) middle);
        for (int away = 1; away <= FrameStrip.EACH_SIDE + 2; away++) {
            for (int frame : new int[] {middle - away, middle + away}) {
                if (frame >= 0 && frame < grid.size()) {
                    wanted.add((long) frame);
                }
            }
        }
        frames.want(wanted);
        showStrip();
    }

    private void showStrip() {
        strip.show();
    }

    /** @return true while the walk goes on, for every key that does not belong to the window or the player */
    public boolean handle(KeyEvent event) {
        if (!model.activeProperty().get()) {
            return false;
        }
        Shortcut shortcut = Shortcut.of(event, Shortcut.Scope.REFINE).orElse(null);
        if (shortcut == null) {
            return otherKey(event);
        }
        switch (shortcut) {
            case BOUNDARY_LATER -> model.move(1);
            case BOUNDARY_EARLIER -> model.move(-1);
            case BOUNDARY_MUCH_LATER -> model.move(10);
            case BOUNDARY_MUCH_EARLIER -> model.move(-10);
            case CANDIDATE_LATER -> model.jump(true);
            case CANDIDATE_EARLIER -> model.jump(false);
            case CONFIRM -> model.confirm();
            case REFINE_BACK -> model.back();
            case REFINE_SKIP -> model.skip();
            case REFINE_LEAVE -> model.leave();
            default -> throw new IllegalStateException("not a key of refining: " + shortcut);
        }
        return true;
    }

    /** Keys of the picture and the timeline's zoom stay; those that would tag or edit do nothing meanwhile. */
    private boolean otherKey(KeyEvent event) {
        Shortcut review = Shortcut.of(event, Shortcut.Scope.REVIEW).orElse(null);
        if (review == Shortcut.UNDO) {
            model.undo();
            return true;
        }
        if (review == Shortcut.REDO) {
            model.redo();
            return true;
        }
        if (review == Shortcut.REFINE) {
            model.leave();
            return true;
        }
        KeyCode code = event.getCode();
        return Shortcut.of(event, Shortcut.Scope.PICTURE).isEmpty() && !code.isModifierKey() && code != KeyCode.TAB;
    }
}
