package org.sideport.app.voice;

import javafx.animation.AnimationTimer;
import javafx.beans.binding.Bindings;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressBar;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Region;
import org.kordamp.ikonli.feather.Feather;
import org.kordamp.ikonli.javafx.FontIcon;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.comment.TalkStyle;
import org.sideport.app.voice.SpokenViewModel.State;
import org.sideport.model.DrawnMark;
import org.sideport.model.MarkColour;
import org.sideport.model.Voice;

/** Above the picture while somebody speaks or is heard: the sign, how long, how loud, and what to draw with. */
public final class VoiceBar extends HBox {

    private final SpokenViewModel model;
    private final Texts texts;

    public VoiceBar(SpokenViewModel model, Texts texts) {
        super(Ui.STEP);
        this.model = model;
        this.texts = texts;
        setId("voice-bar");
        getStyleClass().add("voice-bar");
        TalkStyle.dressed(this);
        setAlignment(Pos.CENTER_LEFT);
        AnimationTimer follow = new AnimationTimer() {
            @Override
            public void handle(long now) {
                model.tick();
            }
        };
        model.stateProperty().addListener((property, old, now) -> {
            fill();
            if (now == State.IDLE) {
                follow.stop();
            } else {
                follow.start();
            }
        });
        fill();
    }

    private void fill() {
        getChildren().clear();
        State state = model.stateProperty().get();
        boolean shown = state != State.IDLE;
        setVisible(shown);
        setManaged(shown);
        switch (state) {
            case IDLE -> {}
            case OPENING -> getChildren().add(Ui.label(texts.get("spoken.opening")));
            case KEEPING -> getChildren().add(Ui.label(texts.get("spoken.keeping")));
            case RECORDING -> recording();
            case PLAYING -> playing();
        }
    }

    private void recording() {
        Label sign = Ui.label("", "recording-sign");
        sign.setId("recording-sign");
        sign.setGraphic(new FontIcon(Feather.MIC));
        sign.textProperty()
                .bind(Bindings.createStringBinding(
                        () -> texts.get(
                                "spoken.recording",
                                SpokenPart.clock(model.elapsedProperty().get())),
                        model.elapsedProperty()));
        sign.setMinWidth(USE_PREF_SIZE);
        ProgressBar level = new ProgressBar();
        level.setId("voice-level");
        level.progressProperty().bind(model.levelProperty());
        level.setPrefWidth(80);
        level.setTooltip(new Tooltip(texts.get("spoken.level")));
        level.setAccessibleText(texts.get("spoken.level"));
        getChildren().addAll(sign, level, Ui.spring());
        tools();
        colours();
        Button stop = Ui.button("stop-speaking", Feather.CHECK, texts.get("spoken.stop"), model::stop);
        stop.setFocusTraversable(false);
        Button discard = Ui.iconButton("discard-voice", Feather.TRASH_2, texts.get("spoken.discard"), model::discard);
        getChildren().addAll(stop, discard);
    }

    private void tools() {
        for (DrawnMark.Kind kind : DrawnMark.Kind.values()) {
            ToggleButton tool =
                    Ui.iconToggle("live-" + kind.id(), TalkStyle.iconOf(kind), texts.get("draw." + kind.name()));
            tool.setSelected(model.live().toolProperty().get() == kind);
            tool.setOnAction(event -> {
                model.live().toolProperty().set(tool.isSelected() ? kind : null);
                getChildren().forEach(node -> {
                    if (node instanceof ToggleButton other
                            && other != tool
                            && other.getId().startsWith("live-")) {
                        other.setSelected(false);
                    }
                });
            });
            getChildren().add(tool);
        }
    }

    /** One button that goes on to the next colour. */
    private void colours() {
        Region sample = Ui.styled(new Region(), "mark-swatch");
        Button next = Ui.iconButton("live-colour", Feather.DROPLET, texts.get("spoken.colour"), () -> {
            MarkColour[] all = MarkColour.values();
            MarkColour now = model.live().colourProperty().get();
            model.live().colourProperty().set(all[(now.ordinal() + 1) % all.length]);
            dress(sample);
        });
        dress(sample);
        next.setGraphic(sample);
        getChildren().add(next);
    }

    private void dress(Region sample) {
        sample.getStyleClass()
                .setAll(
                        "mark-swatch",
                        TalkStyle.classOf(model.live().colourProperty().get()));
    }

    private void playing() {
        var comment = model.playingProperty().get();
        Voice voice = comment == null ? null : comment.voice();
        if (comment == null || voice == null) {
            return;
        }
        Label sign = Ui.label("");
        sign.setId("hearing-sign");
        sign.setGraphic(new FontIcon(Feather.VOLUME_2));
        sign.textProperty()
                .bind(Bindings.createStringBinding(
                        () -> texts.get(
                                "spoken.hearing",
                                comment.author(),
                                SpokenPart.clock(model.elapsedProperty().get()),
                                SpokenPart.clock(voice.lengthUs())),
                        model.elapsedProperty()));
        sign.setMinWidth(USE_PREF_SIZE);
        Button stop = Ui.button("stop-hearing", Feather.SQUARE, texts.get("spoken.stopHearing"), model::end);
        stop.setFocusTraversable(false);
        getChildren().addAll(sign, Ui.spring(), Ui.label(texts.get("spoken.anyKey"), "small", "text-muted"), stop);
    }
}
