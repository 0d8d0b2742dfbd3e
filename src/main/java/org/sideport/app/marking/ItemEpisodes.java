package org.sideport.app.marking;

import java.util.List;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Procedure;
import org.sideport.model.Rubric;
import org.sideport.model.Tagging;

/** Where an item of a rubric is to be seen in a tagged recording. */
final class ItemEpisodes {

    private ItemEpisodes() {}

    /** In time order; none for an item that is judged on the whole operation. */
    static List<PhaseSpan> of(Rubric.Item item, Procedure procedure, Tagging tagging) {
        String phase = item.phase();
        if (phase == null) {
            return List.of();
        }
        List<PhaseSpan> own = of(phase, procedure, tagging);
        if (!own.isEmpty()) {
            return own;
        }
        // A step that was not tagged by itself lies within its phase.
        return procedure
                .find(phase)
                .filter(Procedure.Term::isStep)
                .map(step -> of(step.phase().id(), procedure, tagging))
                .orElse(List.of());
    }

    private static List<PhaseSpan> of(String phase, Procedure procedure, Tagging tagging) {
        return tagging.spans().stream()
                .filter(span -> span.phase().equals(phase)
                        || procedure
                                .find(span.phase())
                                .map(term -> term.phase().id().equals(phase))
                                .orElse(false))
                .toList();
    }
}
