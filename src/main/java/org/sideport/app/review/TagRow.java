package org.sideport.app.review;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.app.PhaseColours;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Procedure;
import org.sideport.model.Procedure.Term;
import org.sideport.model.Tagging;

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

    /** All tags in the order of time. */
    static List<TagRow> of(Procedure terms, Tagging shown) {
        List<TagRow> fresh = new ArrayList<>();
        for (PhaseSpan span : shown.spans()) {
            Term term = terms.find(span.phase()).orElse(null);
            fresh.add(new TagRow.Span(
                    span,
                    term == null ? span.phase() : term.name(),
                    span.end(),
                    term == null ? PhaseColours.unknown() : PhaseColours.of(terms, term)));
        }
        for (PointEvent event : shown.events()) {
            var kind = terms.findEvent(event.kind());
            fresh.add(new TagRow.Event(
                    event,
                    kind.map(Procedure.EventKind::name).orElse(event.kind()),
                    kind.map(Procedure.EventKind::complication).orElse(false)));
        }
        fresh.sort(Comparator.comparing(TagRow::at));
        return fresh;
    }
}
