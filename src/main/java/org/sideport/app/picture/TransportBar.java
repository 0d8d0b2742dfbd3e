package org.sideport.app.picture;

import java.util.List;
import java.util.Locale;
import javafx.beans.binding.Bindings;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.control.Slider;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Region;
import javafx.scene.layout.StackPane;
import javafx.scene.text.Text;
import javafx.util.StringConverter;
import org.kordamp.ikonli.feather.Feather;
import org.kordamp.ikonli.javafx.FontIcon;
import org.sideport.app.Formats;
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.timeline.TimelineView;

/** Play, step, rate, sound, time and frame number; and how close the lane below is looked at. */
public final class TransportBar extends HBox {

    /** Room kept for the number of the frame, pixels; more where letters are larger. */
    private static final double FRAME_NUMBER = 168;

    private static final List<Double> RATES = List.of(0.25, 0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 8.0);

    private final PictureDesk desk;
    private final Texts texts;

    public TransportBar(PictureDesk desk, Texts texts, TimelineView lane, Runnable fullPicture) {
        super(Ui.STEP / 2);
        this.desk = desk;
        this.texts = texts;
        getStyleClass().add("transport");
        setAlignment(Pos.CENTER_LEFT);
        getChildren()
                .addAll(
                        key("back-second", Feather.CHEVRONS_LEFT, Shortcut.BACK_SECOND, () -> desk.skip(-1_000_000)),
                        key("previous-frame", Feather.CHEVRON_LEFT, Shortcut.PREVIOUS_FRAME, () -> desk.step(-1)),
                        playButton(),
                        key("next-frame", Feather.CHEVRON_RIGHT, Shortcut.NEXT_FRAME, () -> desk.step(1)),
                        key(
                                "forward-second",
                                Feather.CHEVRONS_RIGHT,
                                Shortcut.FORWARD_SECOND,
                                () -> desk.skip(1_000_000)),
                        rates(),
                        loopButton(),
                        markedOnlyButton(),
                        muteButton(),
                        volume(),
                        Ui.spring(),
                        clock(),
                        Ui.spring(),
                        key("wider", Feather.ZOOM_OUT, Shortcut.WIDER, () -> lane.zoom(0.5)),
                        key("closer", Feather.ZOOM_IN, Shortcut.CLOSER, () -> lane.zoom(2)),
                        key("full-picture", Feather.MAXIMIZE, Shortcut.FULL_PICTURE, fullPicture));
    }

    private Button key(String id, Feather icon, Shortcut shortcut, Runnable action) {
        return Ui.iconButton(id, icon, Ui.withKey(texts, shortcut), action);
    }

    private Button playButton() {
        Button play = key("play", Feather.PLAY, Shortcut.PLAY_OR_PAUSE, desk::playOrPause);
        play.getStyleClass().remove("flat");
        play.getStyleClass().add("accent");
        desk.playingProperty()
                .addListener((property, old, now) -> play.setGraphic(new FontIcon(now ? Feather.PAUSE : Feather.PLAY)));
        return play;
    }

    private ComboBox<Double> rates() {
        ComboBox<Double> box = new ComboBox<>();
        box.setId("rate");
        box.getItems().setAll(RATES);
        box.setFocusTraversable(false);
        box.setTooltip(new Tooltip(texts.get("transport.rate")));
        box.setPrefWidth(88);
        box.setMinWidth(Region.USE_PREF_SIZE);
        box.setConverter(new StringConverter<>() {
            @Override
            public String toString(Double rate) {
                return rate == null ? "" : rateText(rate);
            }

            @Override
            public Double fromString(String text) {
                throw new UnsupportedOperationException("chosen, not typed");
            }
        });
        box.setValue(desk.rateProperty().get());
        box.setOnAction(event -> desk.setRate(box.getValue()));
        desk.rateProperty().addListener((property, old, now) -> box.setValue(now.doubleValue()));
        return box;
    }

    static String rateText(double rate) {
        return (rate == Math.rint(rate) ? String.format(Locale.ROOT, "%.0f", rate) : Double.toString(rate)) + " ×";
    }

    /** The next faster ({@code by} 1) or slower (-1) of the usual rates. */
    public static double nextRate(double rate, int by) {
        int place = RATES.indexOf(rate);
        return RATES.get(Math.max(0, Math.min(RATES.size() - 1, (place < 0 ? 2 : place) + by)));
    }

    private StackPane loopButton() {
        ToggleButton loop = Ui.iconToggle("loop", Feather.REPEAT, Ui.withKey(texts, Shortcut.LOOP));
        loop.selectedProperty().bindBidirectional(desk.options().loopProperty());
        return Ui.reasoned(
                loop,
                Bindings.createStringBinding(
                        () -> desk.options().chosenProperty().get() == null ? texts.get("transport.why.noPhase") : "",
                        desk.options().chosenProperty()));
    }

    private StackPane markedOnlyButton() {
        ToggleButton only = Ui.iconToggle("marked-only", Feather.FAST_FORWARD, Ui.withKey(texts, Shortcut.SKIP_IDLE));
        only.selectedProperty().bindBidirectional(desk.options().markedOnlyProperty());
        return Ui.reasoned(
                only,
                Bindings.createStringBinding(
                        () -> desk.options().markedProperty().get().isEmpty()
                                ? texts.get("transport.why.noPhases")
                                : "",
                        desk.options().markedProperty()));
    }

    private StackPane muteButton() {
        ToggleButton mute = Ui.iconToggle("mute", Feather.VOLUME_2, texts.get("transport.mute"));
        mute.setSelected(desk.mutedProperty().get());
        mute.selectedProperty().addListener((property, old, now) -> desk.setMuted(now));
        desk.mutedProperty().addListener((property, old, now) -> {
            mute.setSelected(now);
            mute.setGraphic(new FontIcon(now ? Feather.VOLUME_X : Feather.VOLUME_2));
        });
        return Ui.reasoned(
                mute, Bindings.createStringBinding(this::whyNoSound, desk.playerProperty(), desk.recordingProperty()));
    }

    private String whyNoSound() {
        if (!desk.playerProperty().get().showsPictures()) {
            return texts.get("transport.why.noPlayer");
        }
        var recording = desk.recordingProperty().get();
        return recording != null && recording.segments().stream().noneMatch(s -> s.audio())
                ? texts.get("transport.why.silent")
                : "";
    }

    private Slider volume() {
        Slider volume = new Slider(0, 100, desk.volumeProperty().get());
        volume.setId("volume");
        volume.setPrefWidth(88);
        volume.setMinWidth(0);
        volume.setFocusTraversable(false);
        volume.setTooltip(new Tooltip(texts.get("transport.volume")));
        volume.disableProperty()
                .bind(Bindings.createBooleanBinding(
                        () -> !whyNoSound().isEmpty(), desk.playerProperty(), desk.recordingProperty()));
        volume.valueProperty().addListener((property, old, now) -> desk.setVolume((int) Math.round(now.doubleValue())));
        return volume;
    }

    private HBox clock() {
        Label time = Ui.label("", "digits", "time-now");
        time.setId("time");
        time.textProperty()
                .bind(Bindings.createStringBinding(
                        () -> Formats.clock(desk.timeProperty().get()), desk.timeProperty()));
        Label of = Ui.label("", "digits", "text-muted");
        of.textProperty()
                .bind(Bindings.createStringBinding(
                        () -> "/ " + Formats.clock(desk.durationProperty().get()), desk.durationProperty()));
        Label frame = Ui.label("", "digits", "text-muted", "frame-number");
        frame.setId("frame-number");
        frame.textProperty()
                .bind(Bindings.createStringBinding(
                        this::frameText, desk.shownProperty(), desk.playingProperty(), desk.liveProperty()));
        // nothing moves when the number goes away while it plays
        frame.minWidthProperty()
                .bind(Bindings.createDoubleBinding(
                        () -> Math.max(FRAME_NUMBER, widthOf(frame)), frame.textProperty(), frame.fontProperty()));
        time.setMinWidth(Region.USE_PREF_SIZE);
        of.setMinWidth(Region.USE_PREF_SIZE);
        HBox clock = new HBox(Ui.STEP, time, of, frame);
        clock.setAlignment(Pos.CENTER);
        return clock;
    }

    private static double widthOf(Label label) {
        Text measured = new Text(label.getText());
        measured.setFont(label.getFont());
        return Math.ceil(measured.getLayoutBounds().getWidth());
    }

    private String frameText() {
        ShownFrame shown = desk.shownProperty().get();
        if (shown == null || desk.playingProperty().get()) {
            return "";
        }
        return texts.get("transport.frame", shown.frame().number(), desk.frameCount());
    }
}
