package org.sideport.app.review;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.sideport.app.PhaseColours;
import org.sideport.app.picture.PlayPlan;
import org.sideport.app.timeline.Lane;
import org.sideport.app.timeline.Tint;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Procedure;
import org.sideport.model.Procedure.EventKind;
import org.sideport.model.Procedure.Phase;
import org.sideport.model.Procedure.Term;
import org.sideport.model.Recording;
import org.sideport.model.Tagging;

/**
 * A tagging as lanes of a timeline: phases, with the steps of a phase taken together; steps; events. The key of a block is
 * its {@link PhaseSpan}, of steps taken together a {@link Group}, of a mark its {@link PointEvent}.
 *
 * @param procedure {@code null} while no case is open
 * @param borders where one file of the recording follows another
 */
public record TaggedLanes(@Nullable Procedure procedure, Tagging tagging, MediaTime duration, List<MediaTime> borders) {

    public static final TaggedLanes EMPTY = new TaggedLanes(null, Tagging.EMPTY, MediaTime.ZERO, List.of());

    public static final String PHASES = "phases";
    public static final String STEPS = "steps";
    public static final String EVENTS = "events";

    /** Neighbouring spans of one phase, at least one of them a step. */
    public record Group(List<PhaseSpan> spans) {
        public Group {
            spans = List.copyOf(spans);
        }
    }

    /** What the lanes are called and what is said about their items. */
    public record Words(String phases, String steps, String events, SpanNote note) {}

    /** Further words about a span, such as whose hands. */
    @FunctionalInterface
    public interface SpanNote {
        String of(PhaseSpan span);
    }

    public TaggedLanes {
        borders = List.copyOf(borders);
    }

    public static TaggedLanes of(
            Procedure procedure, Tagging tagging, @Nullable Recording recording, MediaTime duration) {
        List<MediaTime> borders = new ArrayList<>();
        for (int i = 1; recording != null && i < recording.segments().size(); i++) {
            borders.add(recording.startOf(i));
        }
        return new TaggedLanes(procedure, tagging, duration, borders);
    }

    /** @param editable whether the tags are the annotator's own */
    public List<Lane> lanes(Words words, boolean editable) {
        return List.of(
                new Lane.Spans(PHASES, words.phases(), editable, true, phases(words.note())),
                new Lane.Spans(STEPS, words.steps(), editable, false, steps(words.note())),
                new Lane.Points(EVENTS, words.events(), editable, events()));
    }

    private List<Lane.Span> phases(SpanNote note) {
        List<Lane.Span> blocks = new ArrayList<>();
        List<PhaseSpan> run = new ArrayList<>();
        for (PhaseSpan span : tagging.spans()) {
            if (!run.isEmpty() && !follows(run.get(run.size() - 1), span)) {
                blocks.add(block(run, note));
                run.clear();
            }
            run.add(span);
        }
        if (!run.isEmpty()) {
            blocks.add(block(run, note));
        }
        return blocks;
    }

    /** Two neighbours are one block where one is a step of the same phase; a phase tagged twice stays two blocks. */
    private boolean follows(PhaseSpan before, PhaseSpan after) {
        Term a = term(before);
        Term b = term(after);
        return a != null
                && b != null
                && after.start().equals(before.end())
                && a.phase().id().equals(b.phase().id())
                && (a.isStep() || b.isStep());
    }

    private @Nullable Term term(PhaseSpan span) {
        return procedure == null ? null : procedure.find(span.phase()).orElse(null);
    }

    private Lane.Span block(List<PhaseSpan> run, SpanNote note) {
        PhaseSpan first = run.get(0);
        PhaseSpan last = run.get(run.size() - 1);
        Term term = term(first);
        boolean single = run.size() == 1 && (term == null || !term.isStep());
        Phase phase = term == null ? null : term.phase();
        return new Lane.Span(
                single ? first : new Group(run),
                first.start().micros(),
                endOf(last).micros(),
                last.isOpen(),
                false,
                phase == null ? first.phase() : phase.shortName(),
                phase == null ? first.phase() : phase.name(),
                Tint.of(phase == null || procedure == null ? PhaseColours.unknown() : lookOf(procedure, phase)),
                single ? note.of(first) : "");
    }

    private static PhaseColours.Look lookOf(Procedure procedure, Phase phase) {
        return procedure
                .find(phase.id())
                .map(term -> PhaseColours.of(procedure, term))
                .orElseGet(PhaseColours::unknown);
    }

    private List<Lane.Span> steps(SpanNote note) {
        List<Lane.Span> blocks = new ArrayList<>();
        for (PhaseSpan span : tagging.spans()) {
            Term term = term(span);
            if (term != null && term.isStep() && procedure != null) {
                blocks.add(new Lane.Span(
                        span,
                        span.start().micros(),
                        endOf(span).micros(),
                        span.isOpen(),
                        false,
                        term.shortName(),
                        term.name(),
                        Tint.of(PhaseColours.of(procedure, term)),
                        note.of(span)));
            }
        }
        return blocks;
    }

    private List<Lane.Point> events() {
        List<Lane.Point> marks = new ArrayList<>();
        for (PointEvent event : tagging.events()) {
            EventKind kind =
                    procedure == null ? null : procedure.findEvent(event.kind()).orElse(null);
            marks.add(new Lane.Point(
                    event,
                    event.at().micros(),
                    kind != null && kind.complication() ? Lane.Mark.COMPLICATION : Lane.Mark.MOMENT,
                    kind == null ? event.kind() : kind.name(),
                    event.note()));
        }
        return marks;
    }

    /** An open span is drawn to the recording's end. */
    private MediaTime endOf(PhaseSpan span) {
        MediaTime end = span.end();
        if (end != null) {
            return end;
        }
        return duration.isAfter(span.start()) ? duration : span.start();
    }

    /** Whether one step follows another of the same phase there, so that the phase runs on. */
    boolean isWithinPhase(MediaTime boundary) {
        PhaseSpan after = tagging.spanAt(boundary);
        return after != null
                && tagging.spans().stream().anyMatch(before -> boundary.equals(before.end()) && follows(before, after));
    }

    /** What is tagged, each part to be played on its own. */
    public List<PlayPlan.Stretch> stretches() {
        List<PlayPlan.Stretch> all = new ArrayList<>();
        for (PhaseSpan span : tagging.spans()) {
            PlayPlan.Stretch stretch = stretch(span);
            if (stretch != null) {
                all.add(stretch);
            }
        }
        return all;
    }

    /** {@code null} if the span is not of this tagging, or lies beyond the recording. */
    public PlayPlan.@Nullable Stretch stretch(PhaseSpan span) {
        MediaTime known = span.end();
        MediaTime end = known == null ? duration : known;
        return tagging.spans().contains(span) && span.start().isBefore(end)
                ? new PlayPlan.Stretch(span.start(), end)
                : null;
    }

    /** The spans behind keys of the timeline, in the order of time. */
    public static List<PhaseSpan> spansOf(Collection<?> keys) {
        Set<PhaseSpan> spans = new LinkedHashSet<>();
        for (Object key : keys) {
            if (key instanceof PhaseSpan span) {
                spans.add(span);
            } else if (key instanceof Group group) {
                spans.addAll(group.spans());
            }
        }
        return spans.stream()
                .sorted(java.util.Comparator.comparing(PhaseSpan::start))
                .toList();
    }

    public static List<PointEvent> eventsOf(Collection<?> keys) {
        return keys.stream()
                .filter(PointEvent.class::isInstance)
                .map(PointEvent.class::cast)
                .toList();
    }

    /** The times that can be moved: starts and ends, each once. The open end of a span is none. */
    public List<MediaTime> boundaries() {
        TreeSet<MediaTime> all = new TreeSet<>();
        for (PhaseSpan span : tagging.spans()) {
            all.add(span.start());
            MediaTime end = span.end();
            if (end != null) {
                all.add(end);
            }
        }
        return List.copyOf(all);
    }

    /** The first time to which a boundary may be moved: just after its neighbour, or the recording's start. */
    public MediaTime earliestFor(MediaTime boundary) {
        List<MediaTime> all = boundaries();
        int place = all.indexOf(Objects.requireNonNull(boundary));
        return place > 0 ? MediaTime.ofMicros(all.get(place - 1).micros() + 1) : MediaTime.ZERO;
    }
}
