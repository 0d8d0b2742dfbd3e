package org.sideport.app.timeline;

import java.util.List;
import java.util.Objects;
import java.util.Set;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.SimpleObjectProperty;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import javafx.css.CssMetaData;
import javafx.css.Styleable;
import javafx.scene.AccessibleAttribute;
import javafx.scene.AccessibleRole;
import javafx.scene.control.Control;
import javafx.scene.control.Skin;
import javafx.scene.input.KeyEvent;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Texts;
import org.sideport.model.MediaTime;

/**
 * The recording as a timeline: ruler, lanes and a small map of the whole. It shows a {@link TimelineModel} and asks a
 * {@link TimelineHandler} for everything else. Mouse: point to go there, drag along the ruler or a block to scrub, drag an
 * edge to move it, drag a selected item to move it, drag on free ground to select what lies within, wheel to pan, wheel
 * with Ctrl to zoom. Keys: the timeline part of the sheet of keys. Style class {@code timeline}.
 */
public final class TimelineView extends Control {

    private final Texts texts;
    private final TimelineColours colours;
    private final ObjectProperty<TimelineModel> model = new SimpleObjectProperty<>(TimelineModel.EMPTY);
    private final ObjectProperty<MediaTime> playhead = new SimpleObjectProperty<>(MediaTime.ZERO);
    private final ObjectProperty<Set<Object>> selection = new SimpleObjectProperty<>(Set.of());
    private final ObjectProperty<@Nullable TimelineHandler> handler = new SimpleObjectProperty<>(null);
    private final ObjectProperty<@Nullable FrameGrid> frames = new SimpleObjectProperty<>(null);
    private final ObjectProperty<List<BoundaryMark>> boundaryMarks = new SimpleObjectProperty<>(List.of());
    private final ObjectProperty<@Nullable LengthNote> lengthNote = new SimpleObjectProperty<>(null);
    private final ObjectProperty<List<LabelChoice>> labels = new SimpleObjectProperty<>(List.of());
    private final StringProperty emptyNote = new SimpleStringProperty("");
    private final ReadOnlyObjectWrapper<TimeScale> scale = new ReadOnlyObjectWrapper<>(TimeScale.whole(0, 0));
    private final TimelineKeys keys;
    private TimelineIndex index = TimelineIndex.EMPTY;

    public TimelineView(Texts texts) {
        this.texts = texts;
        colours = new TimelineColours(this);
        keys = new TimelineKeys(this);
        getStyleClass().add("timeline");
        setFocusTraversable(true);
        setAccessibleRole(AccessibleRole.SLIDER);
        model.addListener((property, old, now) -> modelChanged(now));
        playhead.addListener((property, old, now) -> {
            scale.set(scale.get().following(now.micros()));
            notifyAccessibleAttributeChanged(AccessibleAttribute.VALUE);
            notifyAccessibleAttributeChanged(AccessibleAttribute.TEXT);
        });
        selection.addListener((property, old, now) -> notifyAccessibleAttributeChanged(AccessibleAttribute.TEXT));
        colours.onChange(this::rowHeightMayHaveChanged);
        addEventHandler(KeyEvent.KEY_PRESSED, event -> {
            if (handleKey(event)) {
                event.consume();
            }
        });
    }

    private void modelChanged(TimelineModel now) {
        TimelineIndex before = index;
        index = new TimelineIndex(now, colours.rowHeight.getValue().doubleValue());
        if (scale.get().durationUs() != now.durationUs()) {
            scale.set(TimeScale.whole(now.durationUs(), scale.get().width()));
        }
        if (!selection.get().isEmpty()) {
            select(SelectionKeeper.carry(before, index, selection.get()));
        }
    }

    private void rowHeightMayHaveChanged() {
        if (index.layout().rowHeight() != colours.rowHeight.getValue().doubleValue()) {
            index = new TimelineIndex(model.get(), colours.rowHeight.getValue().doubleValue());
        }
    }

    // ---- what it shows

    public ObjectProperty<TimelineModel> modelProperty() {
        return model;
    }

    /** The time of the picture; the visible part follows it. */
    public ObjectProperty<MediaTime> playheadProperty() {
        return playhead;
    }

    /** Keys of the selected items. */
    public ObjectProperty<Set<Object>> selectionProperty() {
        return selection;
    }

    /** {@code null}: to look at only. */
    public ObjectProperty<@Nullable TimelineHandler> handlerProperty() {
        return handler;
    }

    /** {@code null} while the frames are not known: then nothing snaps to them. */
    public ObjectProperty<@Nullable FrameGrid> framesProperty() {
        return frames;
    }

    /** Which boundaries are rough and which are confirmed; drawn on their lanes. */
    public ObjectProperty<List<BoundaryMark>> boundaryMarksProperty() {
        return boundaryMarks;
    }

    /** For the tooltips; {@code null} where there is nothing to compare with. */
    public ObjectProperty<@Nullable LengthNote> lengthNoteProperty() {
        return lengthNote;
    }

    /** Stands in the uppermost lane of spans while there is none on it: why, and what to do; may be empty. */
    public StringProperty emptyNoteProperty() {
        return emptyNote;
    }

    /** What an item can be called, for the menu. */
    public ObjectProperty<List<LabelChoice>> labelsProperty() {
        return labels;
    }

    /** The visible part. */
    public ReadOnlyObjectProperty<TimeScale> scaleProperty() {
        return scale.getReadOnlyProperty();
    }

    // ---- where things are

    /** Where a time lies, pixels from the left edge of the control. */
    public double xOf(long us) {
        return headerWidth() + scale.get().x(us);
    }

    /** The middle of a lane, pixels from the top edge of the control. */
    public double yOf(String laneId) {
        int lane = index.laneOf(laneId);
        double scroll = getSkin() instanceof TimelineSkin skin ? skin.scrolled() : 0;
        return lane < 0
                ? 0
                : TimelineSkin.RULER + index.layout().top(lane) + index.layout().height(lane) / 2 - scroll;
    }

    // ---- moving about

    /** Closer (above 1) or wider (below 1) around the playhead, or around the middle where that is not to be seen. */
    public void zoom(double factor) {
        TimeScale now = scale.get();
        double x = now.x(playhead.get().micros());
        zoom(factor, x >= 0 && x <= now.width() ? x : now.width() / 2);
    }

    void zoom(double factor, double x) {
        scale.set(scale.get().zoomed(factor, x));
    }

    public void pan(double pixels) {
        scale.set(scale.get().moved(pixels));
    }

    /** Shows a stretch, as large as may be. */
    public void show(long fromUs, long toUs) {
        scale.set(scale.get().over((double) fromUs, (double) toUs));
    }

    public void showWhole() {
        scale.set(TimeScale.whole(model.get().durationUs(), scale.get().width()));
    }

    /** So close that single frames can be told apart, around the playhead. */
    public void showFrames() {
        FrameGrid grid = frames.get();
        long at = playhead.get().micros();
        int frame = grid == null ? 0 : grid.at(at);
        long length = grid == null || grid.size() < 2
                ? 40_000
                : frame + 1 < grid.size()
                        ? grid.start(frame + 1) - grid.start(frame)
                        : grid.start(frame) - grid.start(frame - 1);
        double half = scale.get().width() / WIDTH_OF_A_FRAME * length / 2;
        show(Math.round(at - half), Math.round(at + half));
    }

    private static final double WIDTH_OF_A_FRAME = 48;

    void select(Set<Object> keysNow) {
        if (!Objects.equals(selection.get(), keysNow)) {
            selection.set(Set.copyOf(keysNow));
        }
    }

    /** Does what a key of the timeline stands for, whichever node had it. @return false if it stands for nothing */
    public boolean handleKey(KeyEvent event) {
        return keys.handle(event);
    }

    // ---- for the skin

    void roomChanged(double width) {
        if (scale.get().width() != width) {
            scale.set(scale.get().resized(width));
        }
    }

    TimelineModel model() {
        return model.get();
    }

    TimelineIndex index() {
        return index;
    }

    TimelineColours colours() {
        return colours;
    }

    Texts texts() {
        return texts;
    }

    double headerWidth() {
        return colours.headerWidth.getValue().doubleValue();
    }

    /** Sends an edit to the handler, if there is one. */
    void request(TimelineEdit edit) {
        TimelineHandler to = handler.get();
        if (to != null) {
            to.edit(edit);
        }
    }

    void seek(long us) {
        TimelineHandler to = handler.get();
        if (to != null) {
            to.seek(us);
        }
    }

    void scrub(long us) {
        TimelineHandler to = handler.get();
        if (to != null) {
            to.scrub(us);
        }
    }

    @Override
    protected Skin<?> createDefaultSkin() {
        return new TimelineSkin(this);
    }

    @Override
    public String getUserAgentStylesheet() {
        return Objects.requireNonNull(TimelineView.class.getResource("/org/sideport/app/timeline.css"))
                .toExternalForm();
    }

    @Override
    public List<CssMetaData<? extends Styleable, ?>> getControlCssMetaData() {
        return TimelineColours.metaData();
    }

    @Override
    public Object queryAccessibleAttribute(AccessibleAttribute attribute, Object... parameters) {
        return switch (attribute) {
            case TEXT -> texts.get("timeline.accessible") + ". " + new ItemTexts(this).spoken();
            case VALUE -> (double) playhead.get().micros();
            case MIN_VALUE -> 0.0;
            case MAX_VALUE -> (double) model.get().durationUs();
            default -> super.queryAccessibleAttribute(attribute, parameters);
        };
    }
}
