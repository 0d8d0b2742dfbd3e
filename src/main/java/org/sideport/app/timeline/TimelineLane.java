package org.sideport.app.timeline;

import java.util.ArrayList;
import java.util.List;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.css.PseudoClass;
import javafx.scene.AccessibleRole;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.Region;
import javafx.scene.shape.Rectangle;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Formats;
import org.sideport.app.Texts;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;

/**
 * The recording as a lane: a ruler, the phase blocks with idle time hatched between them, event markers, file borders
 * and the playhead. Draws and lays out; {@link LaneMouse} turns the mouse into {@link LaneActions}.
 */
public final class TimelineLane extends Region {

    static final double RULER = 16;
    static final double BLOCKS = 32;
    static final double MARKERS = 16;
    private static final double HEIGHT = RULER + BLOCKS + MARKERS + 4;
    private static final double NARROWEST_TEXT = 26;
    private static final PseudoClass SELECTED = PseudoClass.getPseudoClass("selected");
    private static final PseudoClass COMPLICATION = PseudoClass.getPseudoClass("complication");
    private static final PseudoClass OPEN = PseudoClass.getPseudoClass("open");

    private final Texts texts;
    private final boolean editable;
    private final ObjectProperty<LaneContent> content = new SimpleObjectProperty<>(LaneContent.EMPTY);
    private final ObjectProperty<MediaTime> playhead = new SimpleObjectProperty<>(MediaTime.ZERO);
    private final ObjectProperty<@Nullable PhaseSpan> selectedSpan = new SimpleObjectProperty<>(null);
    private final ObjectProperty<@Nullable PointEvent> selectedEvent = new SimpleObjectProperty<>(null);
    private final List<BlockNode> blocks = new ArrayList<>();
    private final List<StretchNode> idle = new ArrayList<>();
    private final List<MarkerNode> markers = new ArrayList<>();
    private final List<TimedNode> borders = new ArrayList<>();
    private final List<Label> ticks = new ArrayList<>();
    private final Region ground = styled(new Region(), "lane-ground");
    private final Region playheadLine = styled(new Region(), "lane-playhead");
    private final Rectangle clip = new Rectangle();
    private @Nullable TimeScale scale;
    private @Nullable MediaTime draggedFrom;
    private @Nullable MediaTime draggedTo;

    private record BlockNode(LaneContent.Block block, Label node) {}

    private record StretchNode(LaneContent.Stretch stretch, Region node) {}

    private record MarkerNode(LaneContent.Marker marker, Region node) {}

    private record TimedNode(MediaTime time, Region node) {}

    public TimelineLane(Texts texts, LaneActions actions, boolean editable) {
        this.texts = texts;
        this.editable = editable;
        getStyleClass().add("lane");
        setId("timeline-lane");
        setMinHeight(HEIGHT);
        setPrefHeight(HEIGHT);
        setMaxHeight(HEIGHT);
        setClip(clip);
        setAccessibleRole(AccessibleRole.SLIDER);
        setAccessibleText(texts.get("lane.accessible"));
        playheadLine.setMouseTransparent(true);
        content.addListener((property, old, now) -> rebuild(now));
        playhead.addListener((property, old, now) -> playheadMoved());
        selectedSpan.addListener((property, old, now) -> markSelection());
        selectedEvent.addListener((property, old, now) -> markSelection());
        new LaneMouse(this, actions).install();
        rebuild(LaneContent.EMPTY);
    }

    public ObjectProperty<LaneContent> contentProperty() {
        return content;
    }

    public ObjectProperty<MediaTime> playheadProperty() {
        return playhead;
    }

    public ObjectProperty<@Nullable PhaseSpan> selectedSpanProperty() {
        return selectedSpan;
    }

    public ObjectProperty<@Nullable PointEvent> selectedEventProperty() {
        return selectedEvent;
    }

    boolean isEditable() {
        return editable;
    }

    /** The stretch on the screen now. */
    public TimeScale scale() {
        TimeScale now = scale;
        long duration = content.get().duration().micros();
        if (now == null || now.durationUs() != duration) {
            now = TimeScale.whole(duration, getWidth());
            scale = now;
        } else if (now.width() != getWidth()) {
            now = now.resized(getWidth());
            scale = now;
        }
        return now;
    }

    /** Closer (above 1) or wider (below 1) around the playhead. */
    public void zoom(double factor) {
        zoom(factor, Math.max(0, Math.min(getWidth(), scale().x(playhead.get().micros()))));
    }

    void zoom(double factor, double x) {
        scale = scale().zoomed(factor, x);
        requestLayout();
    }

    void move(double pixels) {
        scale = scale().moved(pixels);
        requestLayout();
    }

    /** Draws {@code boundary} at another place while it is dragged; {@code null} ends that. */
    void drag(@Nullable MediaTime boundary, @Nullable MediaTime to) {
        draggedFrom = boundary;
        draggedTo = to;
        requestLayout();
    }

    private void playheadMoved() {
        TimeScale before = scale();
        TimeScale after = before.following(playhead.get().micros());
        scale = after;
        if (after.equals(before)) {
            playheadLine.setTranslateX(Math.rint(after.x(playhead.get().micros())));
        } else {
            requestLayout();
        }
    }

    private void rebuild(LaneContent now) {
        blocks.clear();
        idle.clear();
        markers.clear();
        borders.clear();
        List<Node> nodes = new ArrayList<>();
        nodes.add(ground);
        for (LaneContent.Stretch stretch : now.idle()) {
            Region node = styled(new Region(), "lane-idle");
            node.setMouseTransparent(true);
            idle.add(new StretchNode(stretch, node));
            nodes.add(node);
        }
        for (MediaTime border : now.borders()) {
            Region node = styled(new Region(), "lane-border");
            Tooltip.install(node, new Tooltip(texts.get("lane.border", Formats.clock(border))));
            borders.add(new TimedNode(border, node));
            nodes.add(node);
        }
        for (LaneContent.Block block : now.blocks()) {
            Label node = styled(new Label(block.shortName()), "lane-block");
            node.setStyle(block.look().style());
            node.pseudoClassStateChanged(OPEN, block.span().isOpen());
            node.setTooltip(new Tooltip(texts.get(
                    "lane.block", block.name(), Formats.clock(block.span().start()), Formats.clock(block.end()))));
            blocks.add(new BlockNode(block, node));
            nodes.add(node);
        }
        for (LaneContent.Marker marker : now.markers()) {
            Region node = styled(new Region(), "lane-marker");
            node.pseudoClassStateChanged(COMPLICATION, marker.complication());
            Tooltip.install(
                    node,
                    new Tooltip(texts.get(
                            "lane.marker",
                            marker.name(),
                            Formats.clock(marker.event().at()),
                            marker.event().note())));
            markers.add(new MarkerNode(marker, node));
            nodes.add(node);
        }
        nodes.addAll(ticks);
        nodes.add(playheadLine);
        getChildren().setAll(nodes);
        markSelection();
        requestLayout();
    }

    private void markSelection() {
        for (BlockNode each : blocks) {
            each.node.pseudoClassStateChanged(SELECTED, each.block.span().equals(selectedSpan.get()));
        }
        for (MarkerNode each : markers) {
            each.node.pseudoClassStateChanged(SELECTED, each.marker.event().equals(selectedEvent.get()));
        }
    }

    @Override
    protected void layoutChildren() {
        TimeScale now = scale();
        clip.setWidth(getWidth());
        clip.setHeight(getHeight());
        ground.resizeRelocate(0, RULER, getWidth(), BLOCKS);
        for (StretchNode each : idle) {
            place(each.node, now, each.stretch.start(), each.stretch.end());
        }
        for (BlockNode each : blocks) {
            double width = place(each.node, now, each.block.span().start(), each.block.end());
            each.node.setText(width < NARROWEST_TEXT ? "" : each.block.shortName());
        }
        for (TimedNode each : borders) {
            each.node.resizeRelocate(Math.rint(now.x(each.time.micros())) - 1, RULER - 4, 2, BLOCKS + 8);
        }
        for (MarkerNode each : markers) {
            double x = now.x(each.marker.event().at().micros());
            each.node.resizeRelocate(Math.rint(x) - 6, RULER + BLOCKS + 2, 12, 12);
        }
        layoutTicks(now);
        playheadLine.resizeRelocate(-1, 0, 3, getHeight());
        playheadLine.setTranslateX(Math.rint(now.x(playhead.get().micros())));
    }

    private double place(Region node, TimeScale now, MediaTime start, MediaTime end) {
        double from = Math.max(-8, Math.rint(now.x(shifted(start).micros())));
        double to = Math.min(getWidth() + 8, Math.rint(now.x(shifted(end).micros())));
        node.setVisible(to > from);
        node.resizeRelocate(from, RULER, Math.max(1, to - from), BLOCKS);
        return to - from;
    }

    private MediaTime shifted(MediaTime time) {
        MediaTime to = draggedTo;
        return to != null && time.equals(draggedFrom) ? to : time;
    }

    private void layoutTicks(TimeScale now) {
        List<Long> times = now.durationUs() == 0 ? List.of() : now.ticks(80);
        while (ticks.size() < times.size()) {
            Label tick = styled(new Label(), "lane-tick");
            tick.setMouseTransparent(true);
            ticks.add(tick);
            getChildren().add(1, tick);
        }
        for (int i = 0; i < ticks.size(); i++) {
            Label tick = ticks.get(i);
            boolean used = i < times.size();
            tick.setVisible(used);
            if (used) {
                MediaTime time = MediaTime.ofMicros(times.get(i));
                tick.setText(
                        now.usPerPixel() * 80 < 1_000_000
                                ? time.toClockText()
                                        .substring(0, time.toClockText().length() - 2)
                                : Formats.shortClock(time));
                tick.resizeRelocate(Math.rint(now.x(times.get(i))), 0, 76, RULER);
            }
        }
    }

    private static <N extends Node> N styled(N node, String styleClass) {
        node.getStyleClass().add(styleClass);
        return node;
    }
}
