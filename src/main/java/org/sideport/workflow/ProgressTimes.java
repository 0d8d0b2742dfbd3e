package org.sideport.workflow;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.DoubleStream;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Cut;
import org.sideport.model.MediaTime;
import org.sideport.model.Procedure;
import org.sideport.model.Recording;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Quantiles;
import org.sideport.stats.Refusal;
import org.sideport.stats.describe.GeometricMean;
import org.sideport.stats.describe.RatioOfGeometricMeans;
import org.sideport.stats.learning.CaseSeries;
import org.sideport.stats.learning.CurveLimits;
import org.sideport.stats.learning.LearningFit;
import org.sideport.stats.learning.LearningModel;
import org.sideport.stats.learning.ModelComparison;
import org.sideport.workflow.ComputeTimings.Level;
import org.sideport.workflow.ProgressView.Block;
import org.sideport.workflow.ProgressView.Change;
import org.sideport.workflow.ProgressView.Curve;
import org.sideport.workflow.ProgressView.CurvePlace;
import org.sideport.workflow.ProgressView.Peers;
import org.sideport.workflow.ProgressView.Timed;

/** Times over cases: curve, change, and what others took. */
final class ProgressTimes {

    private static final double LEVEL = 0.95;
    private static final int PLACES = 60;
    private static final List<LearningModel> MODELS = List.of(LearningModel.values());

    private ProgressTimes() {}

    /** A case with the tags that count of it. */
    record Tagged(SurgicalCase surgicalCase, int number, Tagging tagging, List<Cut> cuts) {}

    /** Times of a case by phase and step, and of the whole; {@code null} where there is only a lower limit. */
    static Map<String, @Nullable Long> of(Procedure procedure, Tagged one) {
        Recording recording = one.surgicalCase().recording();
        MediaTime end = recording == null ? null : recording.duration();
        Map<String, @Nullable Long> times = new LinkedHashMap<>();
        times.put(
                ProgressView.WHOLE,
                ComputeTimings.timer(procedure, Level.PHASE)
                        .time("", "", one.tagging(), end, one.cuts())
                        .sureOperatingUs());
        ReferenceTimes.times(procedure, one.tagging(), end, one.cuts())
                .forEach((term, timing) -> times.put(term, timing.sureActiveUs()));
        return times;
    }

    static Outcome<Curve> curve(List<Timed> own, boolean isSelection) {
        if (isSelection) {
            return Outcome.refused(
                    Refusal.Reason.SELECTED_SERIES,
                    "you see some of the trainee's cases only",
                    "the trainee and the programme director see the curve over all of them");
        }
        double[] numbers = own.stream().mapToDouble(t -> t.of().number()).toArray();
        return CaseSeries.of(
                        numbers, own.stream().mapToDouble(t -> t.us() / 1e6).toArray(), CaseSeries.Scale.LOG)
                .flatMap(series -> ModelComparison.of(series, MODELS, LEVEL))
                .flatMap(ProgressTimes::drawn);
    }

    private static Outcome<Curve> drawn(ModelComparison comparison) {
        LearningFit best = comparison.best();
        double first = best.series().caseNumber()[0];
        double last = best.series().last();
        List<CurvePlace> places = new ArrayList<>();
        for (int i = 0; i <= PLACES; i++) {
            double at = first + (last - first) * i / PLACES;
            Outcome<Interval> limits = CurveLimits.at(best, at, LEVEL);
            if (limits instanceof Outcome.Refused<Interval> refused) {
                return new Outcome.Refused<>(refused.refusal());
            }
            Interval found = limits.orElseThrow();
            places.add(new CurvePlace(at, 1e6 * best.valueAt(at), 1e6 * found.lower(), 1e6 * found.upper()));
        }
        Estimate doubling = comparison.candidates().stream()
                .map(ModelComparison.Candidate::fit)
                .filter(fit -> fit.model() == LearningModel.POWER)
                .map(fit -> fit.estimates(LEVEL).get(1))
                .findFirst()
                .orElse(null);
        return Outcome.of(new Curve(
                best.model(),
                comparison.supported().stream().map(c -> c.fit().model()).toList(),
                doubling,
                places));
    }

    static Outcome<Change> change(List<Timed> own, int recent) {
        int earlier = own.size() - recent;
        if (Math.min(recent, earlier) < FollowProgress.FEWEST_EACH) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "there are " + own.size() + " cases with a time",
                    "collect at least " + (Math.max(recent, FollowProgress.FEWEST_EACH) + FollowProgress.FEWEST_EACH));
        }
        double[] all = own.stream().mapToDouble(Timed::us).toArray();
        double[] before = Arrays.copyOf(all, earlier);
        double[] latest = Arrays.copyOfRange(all, earlier, all.length);
        return RatioOfGeometricMeans.of(latest, before, LEVEL)
                .flatMap(ratio -> GeometricMean.of(latest, LEVEL)
                        .flatMap(now -> GeometricMean.of(before, LEVEL)
                                .map(then -> new Change(
                                        recent,
                                        earlier,
                                        now.mean().value(),
                                        then.mean().value(),
                                        ratio))));
    }

    /**
     * @param times of each other person, by case number
     */
    static Peers peers(List<Map<Integer, Long>> times, int fewest) {
        int last = times.stream()
                .flatMap(t -> t.keySet().stream())
                .mapToInt(Integer::intValue)
                .max()
                .orElse(0);
        List<Block> blocks = new ArrayList<>();
        int masked = 0;
        for (int from = 1; from <= last; from *= 2) {
            int first = from;
            int to = 2 * from - 1;
            double[] medians = times.stream()
                    .map(t -> t.entrySet().stream()
                            .filter(e -> e.getKey() >= first && e.getKey() <= to)
                            .mapToDouble(Map.Entry::getValue)
                            .sorted()
                            .toArray())
                    .filter(own -> own.length > 0)
                    .mapToDouble(own -> Quantiles.type7Sorted(own, 0.5))
                    .sorted()
                    .toArray();
            if (medians.length >= fewest) {
                blocks.add(new Block(
                        from,
                        to,
                        medians.length,
                        Quantiles.type7Sorted(medians, 0.25),
                        Quantiles.type7Sorted(medians, 0.5),
                        Quantiles.type7Sorted(medians, 0.75)));
            } else if (DoubleStream.of(medians).findAny().isPresent()) {
                masked++;
            }
        }
        return new Peers((int) times.stream().filter(t -> !t.isEmpty()).count(), blocks, masked);
    }
}
