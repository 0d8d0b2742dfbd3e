package org.sideport.workflow;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Plural;
import org.sideport.model.Procedure;
import org.sideport.model.Tagging;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.monitoring.BinaryChart;
import org.sideport.stats.monitoring.BinaryCusum;
import org.sideport.stats.monitoring.BinaryRunLength;
import org.sideport.stats.monitoring.BinarySeries;
import org.sideport.stats.monitoring.LearningCurveDesign;
import org.sideport.stats.monitoring.Restart;
import org.sideport.workflow.ProgressView.Monitoring;
import org.sideport.workflow.ProgressView.OneCase;

/**
 * Complications case by case. Everything is fixed here, before anybody looks: what counts, the rates (5 % adequate, 10 %
 * inadequate, as Vedana et al. 2017, doi 10.18240/ijo.2017.07.11, took for tears of the posterior capsule) and the limits (a
 * choice of ours; what they can do is told with them).
 */
final class ProgressWatch {

    static final LearningCurveDesign DESIGN = new LearningCurveDesign(0.05, 0.10, 1.5);
    static final double WATCH_LIMIT = 2;
    static final int WITHIN = 100;

    /** The posterior capsule opens, with or without vitreous loss. */
    static final Set<String> COUNTED = Set.of("capsule_tear_posterior", "vitreous_loss", "dropped_fragment");

    private ProgressWatch() {}

    /**
     * @param taggings of each case by everybody, by code; a case without any has no known outcome
     * @param stated whether somebody stated that every operation in turn is here
     * @param isSelection whether the caller sees some of the cases only
     * @param leftOut how many cases do not count for want of consent; without them the rest is a selection too
     */
    static Outcome<Monitoring> of(
            Procedure procedure,
            List<OneCase> cases,
            Map<String, Collection<Tagging>> taggings,
            boolean stated,
            boolean isSelection,
            int leftOut) {
        List<String> kinds = kinds(procedure);
        if (kinds.isEmpty()) {
            return Outcome.refused(
                    Refusal.Reason.UNSUITABLE_DATA,
                    "the procedure \"" + procedure.id() + "\" names none of the events that would count",
                    "add a posterior capsule tear to its event kinds");
        }
        if (isSelection) {
            return Outcome.refused(
                    Refusal.Reason.SELECTED_SERIES,
                    "you see some of the trainee's cases only, and a chart of chosen cases shows the choice, not the"
                            + " skill",
                    "the trainee and the programme director see all of them");
        }
        if (leftOut > 0) {
            return Outcome.refused(
                    Refusal.Reason.SELECTED_SERIES,
                    Plural.of(leftOut, "case") + (leftOut == 1 ? " does" : " do")
                            + " not count without consent for assessment use, and a chart of the others shows the"
                            + " choice, not the skill",
                    "record the consent if there is one; what a missing one leads to is a rule of your unit");
        }
        if (!stated) {
            return Outcome.refused(
                    Refusal.Reason.SELECTED_SERIES,
                    "nobody has stated that every operation in turn is here, and a chart of chosen cases shows the"
                            + " choice, not the skill",
                    "take in every operation, recorded or not, then state that the log is complete");
        }
        List<@Nullable Boolean> failures = new ArrayList<>();
        for (OneCase one : cases) {
            Collection<Tagging> of = taggings.getOrDefault(one.code(), List.of());
            failures.add(of.isEmpty() ? null : (Boolean) failed(of, kinds));
        }
        return BinarySeries.of(cases.stream().mapToLong(OneCase::number).toArray(), failures, null)
                .map(series -> charted(series, kinds));
    }

    /** Ids of the procedure's events that count. */
    static List<String> kinds(Procedure procedure) {
        return procedure.events().stream()
                .map(Procedure.EventKind::id)
                .filter(COUNTED::contains)
                .toList();
    }

    /** True if anybody who tagged the case saw an event that counts. */
    static boolean failed(Collection<Tagging> taggings, List<String> kinds) {
        return taggings.stream().flatMap(t -> t.events().stream()).anyMatch(e -> kinds.contains(e.kind()));
    }

    private static Monitoring charted(BinarySeries series, List<String> kinds) {
        BinaryChart chart = BinaryCusum.chartAndWatch(DESIGN, DESIGN.watch(WATCH_LIMIT), series, Restart.RESTART);
        return new Monitoring(
                chart,
                DESIGN,
                series.size(),
                series.failureCount(),
                kinds,
                WATCH_LIMIT,
                WITHIN,
                BinaryRunLength.of(DESIGN, DESIGN.pa()).signalWithin(WITHIN),
                BinaryRunLength.of(DESIGN, DESIGN.pi()).signalWithin(WITHIN));
    }
}
