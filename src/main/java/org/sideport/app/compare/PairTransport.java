package org.sideport.app.compare;

import java.util.List;
import java.util.Locale;
import javafx.beans.binding.Bindings;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Slider;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.ToggleGroup;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.HBox;
import javafx.util.StringConverter;
import org.kordamp.ikonli.feather.Feather;
import org.kordamp.ikonli.javafx.FontIcon;
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.compare.CompareViewModel.Mode;
import org.sideport.app.compare.PairDesk.Side;

/** One transport for both recordings. */
final class PairTransport extends HBox {

    private static final List<Double> RATES = List.of(0.25, 0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 8.0);

    private final CompareViewModel model;
    private final PairDesk pair;
    private final Texts texts;

    PairTransport(CompareViewModel model, Texts texts) {
        super(Ui.STEP / 2);
        this.model = model;
        this.pair = model.pair();
        this.texts = texts;
        getStyleClass().add("transport");
        setAlignment(Pos.CENTER_LEFT);
        getChildren()
                .addAll(
                        key("phase-back", Feather.SKIP_BACK, Shortcut.PREVIOUS_PHASE, () -> model.toPhase(-1)),
                        key("frame-back", Feather.CHEVRON_LEFT, Shortcut.PREVIOUS_FRAME, () -> pair.step(-1)),
                        playButton(),
                        key("frame-on", Feather.CHEVRON_RIGHT, Shortcut.NEXT_FRAME, () -> pair.step(1)),
                        key("phase-on", Feather.SKIP_FORWARD, Shortcut.NEXT_PHASE, () -> model.toPhase(1)),
                        rates(),
                        muteButton(),
                        volume(),
                        modes());
    }

    private Button key(String id, Feather icon, Shortcut shortcut, Runnable action) {
        return Ui.iconButton(id, icon, Ui.withKey(texts, shortcut), action);
    }

    private Button playButton() {
        Button play = key("play-both", Feather.PLAY, Shortcut.PLAY_OR_PAUSE, pair::playOrPause);
        play.getStyleClass().remove("flat");
        play.getStyleClass().add("accent");
        for (Side side : Side.values()) {
            pair.desk(side)
                    .playingProperty()
                    .addListener(
                            (property, old, now) -> play.setGraphic(new FontIcon(now ? Feather.PAUSE : Feather.PLAY)));
        }
        return play;
    }

    private ComboBox<Double> rates() {
        ComboBox<Double> box = new ComboBox<>();
        box.setId("rate-both");
        box.getItems().setAll(RATES);
        box.setFocusTraversable(false);
        box.setTooltip(new Tooltip(texts.get("transport.rate")));
        box.setPrefWidth(88);
        box.setMinWidth(USE_PREF_SIZE);
        box.setConverter(new StringConverter<>() {
            @Override
            public String toString(Double rate) {
                return rate == null
                        ? ""
                        : (rate == Math.rint(rate) ? String.format(Locale.ROOT, "%.0f", rate) : rate.toString()) + " ×";
            }

            @Override
            public Double fromString(String text) {
                throw new UnsupportedOperationException("chosen, not typed");
            }
        });
        box.setValue(1.0);
        box.setOnAction(event -> pair.leading().setRate(box.getValue()));
        for (Side side : Side.values()) {
            pair.desk(side).rateProperty().addListener((property, old, now) -> box.setValue(now.doubleValue()));
        }
        return box;
    }

    private ToggleButton muteButton() {
        ToggleButton mute = Ui.iconToggle("mute-both", Feather.VOLUME_X, texts.get("transport.mute"));
        mute.setOnAction(event -> pair.leading().setMuted(mute.isSelected()));
        return mute;
    }

    private Slider volume() {
        Slider volume = new Slider(0, 100, pair.leading().volumeProperty().get());
        volume.setId("volume-both");
        volume.setPrefWidth(72);
        volume.setMinWidth(32);
        volume.setFocusTraversable(false);
        volume.setTooltip(new Tooltip(texts.get("transport.volume")));
        volume.valueProperty()
                .addListener((property, old, now) -> pair.leading().setVolume((int) Math.round(now.doubleValue())));
        return volume;
    }

    private HBox modes() {
        ToggleGroup group = new ToggleGroup();
        HBox box = Ui.styled(new HBox(), "segmented");
        box.setAlignment(Pos.CENTER_LEFT);
        for (Mode mode : Mode.values()) {
            boolean phases = mode == Mode.PHASES;
            ToggleButton button = new ToggleButton(texts.get(phases ? "compare.byPhase" : "compare.byClock"));
            button.setId("mode-" + mode.name().toLowerCase(Locale.ROOT));
            button.setTooltip(new Tooltip(texts.get(phases ? "compare.byPhase.meaning" : "compare.byClock.meaning")));
            button.getStyleClass().add(phases ? "left-pill" : "right-pill");
            button.setToggleGroup(group);
            button.setFocusTraversable(false);
            button.setMinWidth(USE_PREF_SIZE);
            button.setSelected(model.modeProperty().get() == mode);
            button.setOnAction(event -> {
                button.setSelected(true);
                model.modeProperty().set(mode);
            });
            model.modeProperty().addListener((property, old, now) -> button.setSelected(now == mode));
            box.getChildren().add(button);
        }
        Ui.showIf(
                box,
                Bindings.createBooleanBinding(
                        () -> model.comparisonProperty().get() != null, model.comparisonProperty()));
        return box;
    }
}
