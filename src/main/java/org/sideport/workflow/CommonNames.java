package org.sideport.workflow;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Procedure;
import org.sideport.model.Tagging;
import org.sideport.timing.CaseTimer;
import org.sideport.timing.Episode;
import org.sideport.timing.Episodes;
import org.sideport.workflow.ComputeTimings.Level;

/**
 * The names by which several taggings can be compared: steps, but the phase where one of them has only that; or phases
 * throughout.
 */
final class CommonNames {

    private final Procedure procedure;
    private final Level level;
    private final Set<String> asPhase = new HashSet<>();

    CommonNames(Procedure procedure, Level level, List<Tagging> taggings) {
        this.procedure = procedure;
        this.level = level;
        for (Tagging tagging : taggings) {
            for (PhaseSpan span : tagging.spans()) {
                procedure.find(span.phase()).filter(t -> !t.isStep()).ifPresent(t -> asPhase.add(t.id()));
            }
        }
    }

    private String label(String id) {
        return procedure
                .find(id)
                .map(Procedure.Term::phase)
                .map(Procedure.Phase::id)
                .filter(phase -> level == Level.PHASE || asPhase.contains(phase))
                .orElse(id);
    }

    private boolean isIdle(String id) {
        return procedure.find(id).map(t -> t.phase().idle()).orElse(false);
    }

    CaseTimer timer() {
        return new CaseTimer(this::label, this::isIdle);
    }

    List<Episode> episodes(Tagging tagging, @Nullable MediaTime end) {
        UnaryOperator<String> label = this::label;
        Predicate<String> idle = this::isIdle;
        return Episodes.of(tagging, end, label, idle);
    }
}
