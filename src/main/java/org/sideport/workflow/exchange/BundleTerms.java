package org.sideport.workflow.exchange;

import java.util.HashSet;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Procedure;
import org.sideport.model.Recording;
import org.sideport.model.Tagging;

/** Whether a tagging of elsewhere can be one here: its terms known, its times within the recording. */
final class BundleTerms {

    private BundleTerms() {}

    /**
     * @throws InputException naming the first thing that does not fit
     */
    static void require(Procedure procedure, Tagging tagging, @Nullable Recording recording) {
        Set<String> phases = new HashSet<>();
        procedure.terms().forEach(term -> phases.add(term.id()));
        Set<String> events = new HashSet<>();
        procedure.events().forEach(event -> events.add(event.id()));
        for (PhaseSpan span : tagging.spans()) {
            requireKnown(phases, span.phase(), procedure);
            MediaTime end = span.end();
            requireWithin(end == null ? span.start() : end, recording);
        }
        for (PointEvent event : tagging.events()) {
            requireKnown(events, event.kind(), procedure);
            requireWithin(event.at(), recording);
        }
    }

    private static void requireKnown(Set<String> known, String term, Procedure procedure) {
        if (!known.contains(term)) {
            throw new InputException(
                    "a tagging uses \"" + term + "\", which the procedure " + procedure.id() + " here does not know",
                    null,
                    "put the procedure file that it was made with into the folder rubrics of the workspace");
        }
    }

    private static void requireWithin(MediaTime at, @Nullable Recording recording) {
        if (recording != null && at.isAfter(recording.duration())) {
            throw new InputException(
                    at.toClockText() + " lies beyond the end of the recording at "
                            + recording.duration().toClockText(),
                    null,
                    "the bundle does not fit its own recording: ask for it again");
        }
    }
}
