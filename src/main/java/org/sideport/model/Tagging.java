package org.sideport.model;

import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What one annotator saw on one recording: spans by start without overlap, events by time. Only the last span may be
 * open.
 */
public record Tagging(TaggingStyle style, List<PhaseSpan> spans, List<PointEvent> events) {

    public static final Tagging EMPTY = new Tagging(TaggingStyle.START_AND_END, List.of(), List.of());

    public Tagging {
        spans = spans.stream().sorted(Comparator.comparing(PhaseSpan::start)).toList();
        events = events.stream().sorted(Comparator.comparing(PointEvent::at)).toList();
        for (int i = 1; i < spans.size(); i++) {
            PhaseSpan before = spans.get(i - 1);
            PhaseSpan after = spans.get(i);
            MediaTime end = before.end();
            if (end == null || end.isAfter(after.start())) {
                throw new InputException(
                        before.phase() + " (" + before.start().toSecondsText() + " s to "
                                + (end == null ? "open" : end.toSecondsText() + " s") + ") overlaps " + after.phase()
                                + " (from " + after.start().toSecondsText() + " s)",
                        null,
                        "end the first phase where the second starts, or earlier");
            }
        }
    }

    public boolean isEmpty() {
        return spans.isEmpty() && events.isEmpty();
    }

    /** The span that covers {@code time}, or {@code null} if the time is idle. */
    public @Nullable PhaseSpan spanAt(MediaTime time) {
        for (PhaseSpan span : spans) {
            if (span.contains(time)) {
                return span;
            }
        }
        return null;
    }

    public Tagging withSpans(List<PhaseSpan> newSpans) {
        return new Tagging(style, newSpans, events);
    }

    public Tagging withEvents(List<PointEvent> newEvents) {
        return new Tagging(style, spans, newEvents);
    }
}
