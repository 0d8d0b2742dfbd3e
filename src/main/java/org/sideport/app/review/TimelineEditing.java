package org.sideport.app.review;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Texts;
import org.sideport.app.timeline.BoundaryMark;
import org.sideport.app.timeline.LabelChoice;
import org.sideport.app.timeline.Lane;
import org.sideport.app.timeline.TimelineEdit;
import org.sideport.app.timeline.TimelineHandler;
import org.sideport.app.timeline.TimelineModel;
import org.sideport.model.Cut;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Procedure;
import org.sideport.timing.Boundary;

/** Between the timeline and the tagging: makes the lanes, and turns what is asked for into edits that can be undone. */
public final class TimelineEditing implements TimelineHandler {

    private final ReviewViewModel model;

    public TimelineEditing(ReviewViewModel model) {
        this.model = model;
    }

    /** Words for the lanes of tags. */
    public static TaggedLanes.Words words(Texts texts) {
        return new TaggedLanes.Words(
                texts.get("lane.phases"),
                texts.get("lane.steps"),
                texts.get("lane.events"),
                span -> span.operator() == null
                        ? ""
                        : texts.get(
                                "tags.by",
                                texts.get("operator." + span.operator().name())));
    }

    /**
     * What the timeline shows: the tags, and what has been measured of the recording.
     *
     * @param besides what the tags are put beside; {@code null} for nothing
     */
    public static TimelineModel modelOf(
            TaggedLanes tagged,
            boolean editable,
            RecordingLanes.Measured measured,
            List<Cut> cuts,
            List<Lane> voices,
            @Nullable Besides besides,
            Texts texts) {
        List<Lane> lanes = new ArrayList<>();
        CutMarks marks = new CutMarks(cuts);
        if (tagged.duration().micros() > 0) {
            List<Lane> own =
                    tagged.lanes(words(texts), editable).stream().map(marks::on).toList();
            lanes.addAll(besides == null ? own : besides.among(own));
            lanes.addAll(voices);
            lanes.addAll(measured.lanes());
        }
        return new TimelineModel(
                tagged.duration().micros(),
                lanes,
                tagged.borders().stream().map(MediaTime::micros).toList(),
                List.of(),
                joined(measured.doubts(), marks.stretches()),
                joined(measured.cuts(), marks.places()),
                measured.candidates());
    }

    /** The boundaries on their lanes: where one step follows another within a phase, on that of the steps. */
    public static List<BoundaryMark> marks(TaggedLanes tagged, Set<Boundary> confirmed) {
        List<BoundaryMark> marks = new ArrayList<>();
        for (Boundary boundary : Boundary.of(tagged.tagging())) {
            boolean sure = confirmed.contains(boundary);
            long us = boundary.at().micros();
            if (boundary.kind() == Boundary.Kind.EVENT) {
                marks.add(new BoundaryMark(TaggedLanes.EVENTS, us, sure));
            } else if (tagged.isWithinPhase(boundary.at())) {
                marks.add(new BoundaryMark(TaggedLanes.STEPS, us, sure));
            } else {
                marks.add(new BoundaryMark(TaggedLanes.PHASES, us, sure));
            }
        }
        return marks;
    }

    private static <T> List<T> joined(List<T> some, List<T> more) {
        return Stream.concat(some.stream(), more.stream()).distinct().toList();
    }

    /** What a block can be called, for the menu: the phases, each with its steps. Idle is what deleting leaves. */
    public static List<LabelChoice> choices(Procedure procedure) {
        return procedure.terms().stream()
                .filter(term -> !term.phase().idle())
                .map(term -> new LabelChoice(term.id(), term.name(), term.isStep()))
                .toList();
    }

    @Override
    public void seek(long us) {
        model.seek(MediaTime.ofMicros(us));
    }

    @Override
    public void scrub(long us) {
        model.scrub(MediaTime.ofMicros(us));
    }

    @Override
    public void edit(TimelineEdit edit) {
        if (edit instanceof TimelineEdit.MoveBoundary move) {
            model.dropBoundary(MediaTime.ofMicros(move.fromUs()), MediaTime.ofMicros(move.toUs()));
        } else if (edit instanceof TimelineEdit.MoveItems move) {
            List<PhaseSpan> spans = TaggedLanes.spansOf(move.keys());
            List<PointEvent> events = TaggedLanes.eventsOf(move.keys());
            model.edit(session -> session.shift(spans, events, move.byUs()));
        } else if (edit instanceof TimelineEdit.Split split) {
            MediaTime at = MediaTime.ofMicros(split.atUs());
            TaggedLanes.spansOf(Set.of(split.key())).stream()
                    .filter(span -> span.contains(at))
                    .findFirst()
                    .ifPresent(span -> model.edit(session -> session.split(span, at)));
        } else if (edit instanceof TimelineEdit.Merge merge) {
            List<PhaseSpan> spans = TaggedLanes.spansOf(merge.keys());
            model.edit(session -> session.merge(spans));
        } else if (edit instanceof TimelineEdit.Relabel relabel) {
            List<PhaseSpan> spans = TaggedLanes.spansOf(relabel.keys());
            model.edit(session -> session.relabel(spans, relabel.label()));
        } else if (edit instanceof TimelineEdit.Delete delete) {
            List<PhaseSpan> spans = TaggedLanes.spansOf(delete.keys());
            List<PointEvent> events = TaggedLanes.eventsOf(delete.keys());
            model.edit(session -> session.remove(spans, events));
        }
    }

    /** The timeline's selection has changed: the list beside it follows. */
    public void selected(Set<Object> keys) {
        if (keys.size() != 1) {
            if (!keys.isEmpty()
                    || model.selectedSpanProperty().get() != null
                    || model.selectedEventProperty().get() != null) {
                model.select(null, null);
            }
            return;
        }
        Object key = keys.iterator().next();
        List<PhaseSpan> spans = TaggedLanes.spansOf(keys);
        model.select(spans.size() == 1 ? spans.get(0) : null, key instanceof PointEvent event ? event : null);
    }
}
