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
