package org.sideport.report.exchange;

import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Comment;
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
     * The same at the times that the standard's own fields say, if another program moved it; what was only rounded stays exact.
     *
     * @param rounding how the standard rounds
     * @param from by the standard's field
     * @param to by the standard's field, {@code null} for a moment
     */
    default Detail at(MediaTime from, @Nullable MediaTime to, Rounding rounding) {
        if (this instanceof OfPhase phase) {
            PhaseSpan span = phase.span();
            PhaseSpan moved = new PhaseSpan(
                    span.phase(),
                    start(span.start(), from, rounding),
                    end(span.start(), span.end(), to, rounding),
                    span.operator());
            return new OfPhase(moved, phase.style(), phase.confirmed());
        } else if (this instanceof OfEvent event) {
            PointEvent own = event.event();
            return new OfEvent(
                    new PointEvent(own.kind(), start(own.at(), from, rounding), own.severity(), own.note()),
                    event.confirmed());
        } else if (this instanceof OfComment comment) {
            Comment own = comment.thread().comment();
            Comment moved = new Comment(
                    own.id(),
                    own.author(),
                    own.tone(),
                    own.text(),
                    own.item(),
                    start(own.from(), from, rounding),
                    end(own.from(), own.to(), to, rounding),
                    own.drawing(),
                    own.voice());
            return new OfComment(new CommentThread(
                    moved, comment.thread().replies(), comment.thread().unread()));
        }
        throw new IllegalStateException(toString());
    }

    private static MediaTime start(MediaTime own, MediaTime said, Rounding rounding) {
        return same(rounding.start(own.micros()), said) ? own : said;
    }

    /** An end that is not known, or that of a moment, stays so: the field beside it only gives it a length to show. */
    private static @Nullable MediaTime end(
            MediaTime from, @Nullable MediaTime own, @Nullable MediaTime said, Rounding rounding) {
        if (own == null || said == null || same(rounding.end(from.micros(), own.micros()), said)) {
            return own;
        }
        return said;
    }

    /** A start and a length may each be rounded by half a microsecond. */
    private static boolean same(long written, MediaTime said) {
        return Math.abs(written - said.micros()) <= 1;
    }
}
