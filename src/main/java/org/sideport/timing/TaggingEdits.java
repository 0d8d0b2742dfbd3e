package org.sideport.timing;

import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;

/** What an annotator does to a tagging. Each edit takes one and gives another; none changes its argument. */
public final class TaggingEdits {

    private TaggingEdits() {}

    /**
     * Starts a phase at {@code at}. What runs there ends there, and the new phase takes over its end; in idle time it
     * runs to the next phase, or on.
     */
    public static Tagging startPhase(Tagging tagging, String phase, MediaTime at, @Nullable Operator operator) {
        List<PhaseSpan> spans = new ArrayList<>(tagging.spans());
        PhaseSpan running = tagging.spanAt(at);
        MediaTime end;
        if (running != null) {
            spans.remove(running);
            if (running.start().isBefore(at)) {
                spans.add(running.withEnd(at));
            }
            end = running.end();
        } else {
            end = nextStart(tagging, at);
        }
        spans.add(new PhaseSpan(phase, at, end, operator));
        return tagging.withSpans(spans);
    }

    /**
     * Ends what runs at {@code at}; the time up to the next phase becomes idle.
     *
     * @throws InputException if nothing runs there, or it would be left without length
     */
    public static Tagging endPhase(Tagging tagging, MediaTime at) {
        PhaseSpan running = tagging.spanAt(at);
        if (running == null) {
            throw new InputException(
                    "no phase runs at " + at.toClockText(), null, "go to a moment within a phase, then end it");
        }
        if (running.start().equals(at)) {
            throw new InputException(
                    "the phase starts on this very frame", null, "go on by a frame, or remove the phase");
        }
        return replace(tagging, running, running.withEnd(at));
    }

    /**
     * Moves the start and the end that lie at {@code boundary}: two neighbours share theirs.
     *
     * @throws InputException if nothing starts or ends there, or a span would be left without length or overlap another
     */
    public static Tagging moveBoundary(Tagging tagging, MediaTime boundary, MediaTime to) {
        boolean found = false;
        List<PhaseSpan> spans = new ArrayList<>();
        for (PhaseSpan span : tagging.spans()) {
            PhaseSpan moved = span;
            if (span.start().equals(boundary)) {
                moved = moved.end() == null || to.isBefore(moved.end()) ? moved.withStart(to) : refuseEmpty(span);
                found = true;
            } else if (boundary.equals(span.end())) {
                moved = to.isAfter(span.start()) ? span.withEnd(to) : refuseEmpty(span);
                found = true;
            }
            spans.add(moved);
        }
        if (!found) {
            throw new InputException(
                    "no phase starts or ends at " + boundary.toClockText(), null, "take hold of a boundary");
        }
        return tagging.withSpans(spans);
    }

    private static PhaseSpan refuseEmpty(PhaseSpan span) {
        throw new InputException(
                "that would leave nothing of " + span.phase(), null, "remove the phase if it was not there");
    }

    /** The same stretch, called something else. */
    public static Tagging relabel(Tagging tagging, PhaseSpan span, String phase) {
        return replace(tagging, span, span.withPhase(phase));
    }

    /**
     * What runs at {@code at} is called something else from there on; up to there it stays what it was.
     *
     * @throws InputException if nothing runs there
     */
    public static Tagging relabelFrom(Tagging tagging, MediaTime at, String phase) {
        PhaseSpan running = running(tagging, at);
        if (running.start().equals(at)) {
            return relabel(tagging, running, phase);
        }
        List<PhaseSpan> spans = new ArrayList<>(tagging.spans());
        spans.remove(running);
        spans.add(running.withEnd(at));
        spans.add(running.withStart(at).withPhase(phase));
        return tagging.withSpans(spans);
    }

    /**
     * What runs at {@code at}.
     *
     * @throws InputException if nothing runs there
     */
    public static PhaseSpan running(Tagging tagging, MediaTime at) {
        PhaseSpan running = tagging.spanAt(at);
        if (running == null) {
            throw new InputException(
                    "no phase runs at " + at.toClockText(), null, "go to a moment within a phase first");
        }
        return running;
    }

    /**
     * The same tags in another style.
     *
     * @throws InputException if that would lose the idle time between phases
     */
    public static Tagging inStyle(Tagging tagging, TaggingStyle style) {
        long gaps = 0;
        MediaTime first = null;
        for (int i = 1; i < tagging.spans().size(); i++) {
            MediaTime end = tagging.spans().get(i - 1).end();
            if (end != null && end.isBefore(tagging.spans().get(i).start())) {
                gaps++;
                first = first == null ? end : first;
            }
        }
        if (style == TaggingStyle.STARTS_ONLY && first != null) {
            throw new InputException(
                    (gaps == 1 ? "1 stretch" : gaps + " stretches") + " of idle time between phases would be lost, the "
                            + "first at " + first.toClockText(),
                    null,
                    "keep starts and ends, or tag anew under another code");
        }
        return new Tagging(style, tagging.spans(), tagging.events());
    }

    /** Where only starts are tagged, each phase runs on to the next; only the last may have an end of its own. */
    public static Tagging withoutGaps(Tagging tagging) {
        if (tagging.style() != TaggingStyle.STARTS_ONLY) {
            return tagging;
        }
        List<PhaseSpan> spans = new ArrayList<>(tagging.spans());
        for (int i = 1; i < spans.size(); i++) {
            spans.set(i - 1, spans.get(i - 1).withEnd(spans.get(i).start()));
        }
        return tagging.withSpans(spans);
    }

    /** The same stretches, called something else. */
    public static Tagging relabel(Tagging tagging, List<PhaseSpan> spans, String phase) {
        Tagging changed = tagging;
        for (PhaseSpan span : spans) {
            changed = relabel(changed, span, phase);
        }
        return changed;
    }

    /**
     * One span becomes two of the same phase and hands.
     *
     * @throws InputException if {@code at} does not lie within the span
     */
    public static Tagging split(Tagging tagging, PhaseSpan span, MediaTime at) {
        requireKnown(tagging, span);
        if (!span.contains(at) || span.start().equals(at)) {
            throw new InputException(
                    at.toClockText() + " does not lie within the phase", null, "go to a frame within it, then split");
        }
        List<PhaseSpan> spans = new ArrayList<>(tagging.spans());
        spans.remove(span);
        spans.add(span.withEnd(at));
        spans.add(span.withStart(at));
        return tagging.withSpans(spans);
    }

    /**
     * Several spans and the idle time between them become one, with the phase and hands of the longest, the first of
     * equals; one that runs on counts as longest.
     *
     * @throws InputException if there are fewer than two, or another span lies between them
     */
    public static Tagging merge(Tagging tagging, List<PhaseSpan> parts) {
        if (parts.size() < 2) {
            throw new InputException("there is nothing to join", null, "select two phases or more, side by side");
        }
        parts.forEach(part -> requireKnown(tagging, part));
        List<PhaseSpan> all = tagging.spans();
        List<PhaseSpan> ordered = all.stream().filter(parts::contains).toList();
        int first = all.indexOf(ordered.get(0));
        PhaseSpan last = ordered.get(ordered.size() - 1);
        if (!all.subList(first, all.indexOf(last) + 1).equals(ordered)) {
            throw new InputException(
                    "another phase lies between those selected", null, "select phases that follow one another");
        }
        PhaseSpan longest = ordered.get(0);
        for (PhaseSpan part : ordered) {
            if (length(part) > length(longest)) {
                longest = part;
            }
        }
        List<PhaseSpan> spans = new ArrayList<>(all);
        spans.removeAll(ordered);
        spans.add(new PhaseSpan(longest.phase(), ordered.get(0).start(), last.end(), longest.operator()));
        return tagging.withSpans(spans);
    }

    private static long length(PhaseSpan span) {
        MediaTime end = span.end();
        return end == null ? Long.MAX_VALUE : end.micros() - span.start().micros();
    }

    /**
     * Spans and events lie {@code byUs} microseconds later, earlier if negative; what is not named stays where it is.
     *
     * @throws InputException if something would lie before the start, or spans would overlap
     */
    public static Tagging shift(Tagging tagging, List<PhaseSpan> moved, List<PointEvent> movedEvents, long byUs) {
        moved.forEach(span -> requireKnown(tagging, span));
        List<PhaseSpan> spans = new ArrayList<>(tagging.spans());
        spans.removeAll(moved);
        for (PhaseSpan span : moved) {
            MediaTime end = span.end();
            spans.add(new PhaseSpan(
                    span.phase(),
                    shifted(span.start(), byUs),
                    end == null ? null : shifted(end, byUs),
                    span.operator()));
        }
        Tagging changed = tagging.withSpans(spans);
        for (PointEvent event : movedEvents) {
            changed = replaceEvent(
                    changed,
                    event,
                    new PointEvent(event.kind(), shifted(event.at(), byUs), event.severity(), event.note()));
        }
        return changed;
    }

    private static MediaTime shifted(MediaTime time, long byUs) {
        if (time.micros() + byUs < 0) {
            throw new InputException("that would lie before the recording's start", null, "move it less far");
        }
        return MediaTime.ofMicros(time.micros() + byUs);
    }

    /** The stretches become idle, and the events are gone. */
    public static Tagging remove(Tagging tagging, List<PhaseSpan> spans, List<PointEvent> events) {
        Tagging changed = tagging;
        for (PhaseSpan span : spans) {
            changed = removeSpan(changed, span);
        }
        for (PointEvent event : events) {
            changed = removeEvent(changed, event);
        }
        return changed;
    }

    public static Tagging setOperator(Tagging tagging, PhaseSpan span, @Nullable Operator operator) {
        return replace(tagging, span, span.withOperator(operator));
    }

    /** The stretch becomes idle. */
    public static Tagging removeSpan(Tagging tagging, PhaseSpan span) {
        requireKnown(tagging, span);
        return tagging.withSpans(
                tagging.spans().stream().filter(s -> !s.equals(span)).toList());
    }

    public static Tagging addEvent(Tagging tagging, PointEvent event) {
        List<PointEvent> events = new ArrayList<>(tagging.events());
        events.add(event);
        return tagging.withEvents(events);
    }

    /**
     * @throws InputException if the tagging has no such event
     */
    public static Tagging removeEvent(Tagging tagging, PointEvent event) {
        List<PointEvent> events = new ArrayList<>(tagging.events());
        if (!events.remove(event)) {
            throw new InputException("that event is no longer there", null, "look at the list again");
        }
        return tagging.withEvents(events);
    }

    public static Tagging replaceEvent(Tagging tagging, PointEvent old, PointEvent now) {
        return addEvent(removeEvent(tagging, old), now);
    }

    private static Tagging replace(Tagging tagging, PhaseSpan old, PhaseSpan now) {
        requireKnown(tagging, old);
        UnaryOperator<PhaseSpan> swap = span -> span.equals(old) ? now : span;
        return tagging.withSpans(tagging.spans().stream().map(swap).toList());
    }

    private static void requireKnown(Tagging tagging, PhaseSpan span) {
        if (!tagging.spans().contains(span)) {
            throw new InputException("that phase is no longer there", null, "look at the list again");
        }
    }

    private static @Nullable MediaTime nextStart(Tagging tagging, MediaTime at) {
        return tagging.spans().stream()
                .map(PhaseSpan::start)
                .filter(start -> start.isAfter(at))
                .findFirst()
                .orElse(null);
    }
}
