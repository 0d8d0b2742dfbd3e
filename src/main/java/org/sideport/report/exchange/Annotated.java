package org.sideport.report.exchange;

import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.model.CommentThread;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Procedure;
import org.sideport.model.Recording;
import org.sideport.model.Tagging;
import org.sideport.timing.Boundary;

/**
 * What is handed to other programs of one case: one person's tags and everybody's comments. All people are codes.
 *
 * @param code of the case, or its label where the case is blinded
 * @param annotator code of who tagged, empty if nobody did
 * @param confirmed boundaries that were confirmed on their frame
 * @param recording {@code null} if there is none
 * @param blinded true if nothing may tell which recording it is: files get no digest then
 */
public record Annotated(
        String code,
        String annotator,
        Procedure procedure,
        Tagging tagging,
        Set<Boundary> confirmed,
        List<CommentThread> threads,
        @Nullable Recording recording,
        boolean blinded) {

    public Annotated {
        confirmed = Set.copyOf(confirmed);
        threads = List.copyOf(threads);
    }

    /** The end of a span; that of the recording while it is open, {@code null} where that is not known. */
    @Nullable
    MediaTime endOf(PhaseSpan span) {
        Recording of = recording;
        return span.end() == null && of != null ? of.duration() : span.end();
    }

    String nameOf(PhaseSpan span) {
        return procedure.find(span.phase()).map(Procedure.Term::name).orElse(span.phase());
    }

    String nameOfEvent(String kind) {
        return procedure.findEvent(kind).map(Procedure.EventKind::name).orElse(kind);
    }
}
