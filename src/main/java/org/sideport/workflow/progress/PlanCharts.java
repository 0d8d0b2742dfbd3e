package org.sideport.workflow.progress;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import org.sideport.chart.Axis;
import org.sideport.chart.Chart;
import org.sideport.chart.Ink;
import org.sideport.chart.Layer;
import org.sideport.stats.Outcome;
import org.sideport.workflow.MarkingPlan;
import org.sideport.workflow.MarkingPlan.Found;
import org.sideport.workflow.MarkingPlan.Place;
import org.sideport.workflow.PlanMarking;
import org.sideport.workflow.Precision;

/** How much marking a decision takes, drawn and in words. */
public final class PlanCharts {

    private static final Ink[] INKS = {Ink.MAIN, Ink.OTHERS, Ink.REFERENCE};

    private final ProgressWords words;

    public PlanCharts(ProgressWords words) {
        this.words = words;
    }

    /** None where it cannot be said. */
    public List<Chart> all(MarkingPlan plan) {
        if (!(plan.found() instanceof Outcome.Found<Found> found)) {
            return List.of();
        }
        return List.of(
                chart("plan-phi", "plan.phi", plan, found.value(), Place::phi, true),
                chart("plan-g", "plan.g", plan, found.value(), Place::g, false));
    }

    private Chart chart(
            String id, String key, MarkingPlan plan, Found found, ToDoubleFunction<Place> value, boolean wished) {
        List<Layer> layers = new ArrayList<>();
        int most = found.curve().stream().mapToInt(Place::assessorsEach).max().orElse(1);
        for (int each = 1; each <= most; each++) {
            int assessors = each;
            layers.add(new Layer.Curve(
                    words.get("plan.layer", each),
                    INKS[(each - 1) % INKS.length],
                    found.curve().stream()
                            .filter(p -> p.assessorsEach() == assessors)
                            .map(p -> new Layer.At(p.cases(), value.applyAsDouble(p)))
                            .toList()));
        }
        if (wished) {
            layers.add(new Layer.Level(words.get("plan.wish", words.number(plan.wish(), 2)), Ink.FIT, plan.wish()));
        }
        return new Chart(
                id,
                words.get(key + ".title"),
                Axis.of(words.get("plan.axis"), "", 0, PlanMarking.MOST_DRAWN + 1.0, Axis.Scale.LINEAR),
                Axis.of(words.get(key + ".axis"), "", 0, 1, Axis.Scale.LINEAR),
                layers,
                words.get(key + ".what") + " " + basis(found.study()),
                wished ? sentence(plan) : words.get("plan.g.sentence", ends(found, value)));
    }

    private String ends(Found found, ToDoubleFunction<Place> value) {
        return found.curve().stream()
                .filter(p -> p.cases() == 1 || p.cases() == PlanMarking.MOST_DRAWN)
                .map(p -> words.get("plan.end", p.cases(), p.assessorsEach(), words.number(value.applyAsDouble(p), 2)))
                .collect(Collectors.joining("; "));
    }

    private String basis(Precision.Study study) {
        return words.get("plan.basis", study.trainees(), study.cases(), study.assessors(), study.marks());
    }

    /** What reaches the wish, or why it cannot be said. */
    public String sentence(MarkingPlan plan) {
        if (plan.found() instanceof Outcome.Refused<Found> refused) {
            return words.get(
                    "plan.refused",
                    words.why(refused.refusal()),
                    ProgressSentences.sentence(words.remedy(refused.refusal())));
        }
        List<Precision.More> plans = plan.found().orElseThrow().plans();
        String wish = words.number(plan.wish(), 2);
        return plans.isEmpty()
                ? words.get("plan.never", wish, Precision.MOST_CASES)
                : words.get(
                        "plan.sentence",
                        wish,
                        plans.stream()
                                .map(p -> words.get(
                                        "plan.one", p.cases(), p.assessorsEach(), words.number(p.minutes(), 0)))
                                .collect(Collectors.joining(words.get("plan.or"))),
                        words.number(plan.minutesEach(), 0));
    }

    /** What the marks there are would reach, and whether a second assessor helps; empty where it cannot be said. */
    public List<String> standing(MarkingPlan plan) {
        if (!(plan.found() instanceof Outcome.Found<Found> outcome)) {
            return List.of();
        }
        Found found = outcome.value();
        List<String> said = new ArrayList<>();
        long each = Math.round(
                found.study().cases() / (double) Math.max(1, found.study().trainees()));
        found.curve().stream()
                .filter(p -> p.assessorsEach() == 1 && p.cases() <= each)
                .max(Comparator.comparingInt(Place::cases))
                .filter(p -> p.cases() == Math.min(each, PlanMarking.MOST_DRAWN))
                .ifPresent(p ->
                        said.add(words.get("plan.now", p.cases(), words.number(p.phi(), 2), words.number(p.g(), 2))));
        if (found.plans().size() == 1 && found.plans().get(0).assessorsEach() == 1) {
            said.add(words.get("plan.second"));
        }
        return said;
    }

    /** What the two coefficients are, in plain words. */
    public List<String> meanings() {
        return List.of(words.get("plan.phi.what"), words.get("plan.g.what"), words.get("plan.takes"));
    }
}
