package org.sideport.app.timeline;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.sideport.app.PhaseColours;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Procedure;
import org.sideport.model.Procedure.EventKind;
import org.sideport.model.Procedure.Term;
import org.sideport.model.Recording;
import org.sideport.model.Tagging;

/**
 * What lies on the lane, in time order.
 *
 * @param idle stretches between tagged spans
 * @param borders where one file of the recording follows another
 */
public record LaneContent(
        MediaTime duration, List<Block> blocks, List<Stretch> idle, List<Marker> markers, List<MediaTime> borders) {

    public static final LaneContent EMPTY = new LaneContent(MediaTime.ZERO, List.of(), List.of(), List.of(), List.of());

    /** @param end where it is drawn to: the recording's end while the span is open */
    public record Block(PhaseSpan span, MediaTime end, String shortName, String name, PhaseColours.Look look) {}

    public record Stretch(MediaTime start, MediaTime end) {}

    public record Marker(PointEvent event, String name, boolean complication) {}

    public LaneContent {
        blocks = List.copyOf(blocks);
        idle = List.copyOf(idle);
        markers = List.copyOf(markers);
        borders = List.copyOf(borders);
    }

    public static LaneContent of(
            Procedure procedure, Tagging tagging, @Nullable Recording recording, MediaTime duration) {
        List<Block> blocks = new ArrayList<>();
        List<Stretch> idle = new ArrayList<>();
        MediaTime reached = null;
        for (PhaseSpan span : tagging.spans()) {
            MediaTime end = endOf(span, duration);
            if (reached != null && reached.isBefore(span.start())) {
                idle.add(new Stretch(reached, span.start()));
            }
            reached = end;
            blocks.add(block(procedure, span, end));
        }
        List<Marker> markers =
                tagging.events().stream().map(event -> marker(procedure, event)).toList();
        List<MediaTime> borders = new ArrayList<>();
        for (int i = 1; recording != null && i < recording.segments().size(); i++) {
            borders.add(recording.startOf(i));
        }
        return new LaneContent(duration, blocks, idle, markers, borders);
    }

    private static MediaTime endOf(PhaseSpan span, MediaTime duration) {
        MediaTime end = span.end();
        if (end != null) {
            return end;
        }
        return duration.isAfter(span.start()) ? duration : span.start();
    }

    private static Block block(Procedure procedure, PhaseSpan span, MediaTime end) {
        Term term = procedure.find(span.phase()).orElse(null);
        if (term == null) {
            return new Block(span, end, span.phase(), span.phase(), PhaseColours.unknown());
        }
        return new Block(span, end, term.shortName(), term.name(), PhaseColours.of(procedure, term));
    }

    private static Marker marker(Procedure procedure, PointEvent event) {
        EventKind kind = procedure.findEvent(event.kind()).orElse(null);
        return kind == null
                ? new Marker(event, event.kind(), false)
                : new Marker(event, kind.name(), kind.complication());
    }

    /** The times that can be dragged: starts and ends, each once. The open end of a span is none. */
    public List<MediaTime> boundaries() {
        TreeSet<MediaTime> all = new TreeSet<>();
        for (Block block : blocks) {
            all.add(block.span().start());
            MediaTime end = block.span().end();
            if (end != null) {
                all.add(end);
            }
        }
        return List.copyOf(all);
    }

    /** The boundary nearest to {@code at} and no farther than {@code reachUs}. */
    public @Nullable MediaTime boundaryNear(long at, double reachUs) {
        return boundaries().stream()
                .filter(b -> Math.abs(b.micros() - at) <= reachUs)
                .min(Comparator.comparingLong(b -> Math.abs(b.micros() - at)))
                .orElse(null);
    }

    public @Nullable PhaseSpan spanAt(MediaTime time) {
        for (Block block : blocks) {
            if (block.span().contains(time)) {
                return block.span();
            }
        }
        return null;
    }

    /** The event nearest to {@code at} and no farther than {@code reachUs}. */
    public @Nullable PointEvent eventNear(long at, double reachUs) {
        return markers.stream()
                .map(Marker::event)
                .filter(e -> Math.abs(e.at().micros() - at) <= reachUs)
                .min(Comparator.comparingLong(e -> Math.abs(e.at().micros() - at)))
                .orElse(null);
    }

    /** Where a boundary may be dragged to: strictly between its neighbours, the recording's limits included. */
    public Stretch roomFor(MediaTime boundary) {
        List<MediaTime> all = boundaries();
        int place = all.indexOf(boundary);
        MediaTime from = place > 0 ? MediaTime.ofMicros(all.get(place - 1).micros() + 1) : MediaTime.ZERO;
        MediaTime to =
                place + 1 < all.size() ? MediaTime.ofMicros(all.get(place + 1).micros() - 1) : duration;
        return new Stretch(from, to.isBefore(from) ? from : to);
    }
}
