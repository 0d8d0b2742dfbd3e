package org.sideport.report.exchange;

import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.model.CommentThread;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.TaggingStyle;

/** What this program itself wrote beside the fields of a standard, which hold less. */
public sealed interface Detail {

    /**
     * @param style of the tagging that it is of
     * @param confirmed of its times, those that were confirmed on their frame
     */
    record OfPhase(PhaseSpan span, TaggingStyle style, Set<MediaTime> confirmed) implements Detail {
        public OfPhase {
            confirmed = Set.copyOf(confirmed);
        }
    }

    record OfEvent(PointEvent event, boolean confirmed) implements Detail {}

    /** With its answers, without a voice. */
    record OfComment(CommentThread thread) implements Detail {}

    /**
     * The same at the times that the standard's own fields say, if another program moved it.
     *
     * @param tolerance microseconds by which the standard may round
     * @param from by the standard's field
     * @param to by the standard's field, {@code null} for a moment
     */
    default Detail at(MediaTime from, @Nullable MediaTime to, long tolerance) {
        if (this instanceof OfPhase phase) {
            PhaseSpan span = phase.span();
            MediaTime end = span.end();
            PhaseSpan moved = new PhaseSpan(
                    span.phase(),
                    near(span.start(), from, tolerance),
                    // an open end stays open: the field beside it is only where the recording ends
                    end == null || to == null ? end : near(end, to, tolerance),
                    span.operator());
            return new OfPhase(moved, phase.style(), phase.confirmed());
        } else if (this instanceof OfEvent event) {
            PointEvent own = event.event();
            return new OfEvent(
                    new PointEvent(own.kind(), near(own.at(), from, tolerance), own.severity(), own.note()),
                    event.confirmed());
        } else if (this instanceof OfComment comment) {
            return new OfComment(Threads.at(comment.thread(), from, to, tolerance));
        }
        throw new IllegalStateException(toString());
    }

    private static MediaTime near(MediaTime own, MediaTime said, long tolerance) {
        return Math.abs(own.micros() - said.micros()) <= tolerance ? own : said;
    }
}
