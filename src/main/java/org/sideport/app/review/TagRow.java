package org.sideport.app.review;

import org.jspecify.annotations.Nullable;
import org.sideport.app.PhaseColours;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;

/** A line of the list of tags. */
public sealed interface TagRow {

    MediaTime at();

    String name();

    /** @param end {@code null} while it runs on */
    record Span(PhaseSpan span, String name, @Nullable MediaTime end, PhaseColours.Look look) implements TagRow {
        @Override
        public MediaTime at() {
            return span.start();
        }
    }

    record Event(PointEvent event, String name, boolean complication) implements TagRow {
        @Override
        public MediaTime at() {
            return event.at();
        }
    }
}
