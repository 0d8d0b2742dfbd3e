package org.sideport.stats.rasch;

import java.util.List;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;

/** The level to be expected where all but one facet stand at their mean, on the scale of the marks. */
final class FairAverage {

    private final UsableMarks usable;
    private final Parameters parameters;
    private final ConditionalFit fit;

    FairAverage(UsableMarks usable, Parameters parameters, ConditionalFit fit) {
        this.usable = usable;
        this.parameters = parameters;
        this.fit = fit;
    }

    /** Over the items, of somebody who stands so many logits above them. */
    Estimate overItems(Estimate standing) {
        if (usable.model() == StepModel.RATING_SCALE) {
            return transformed(standing, new int[] {0}, true);
        }
        int[] items = IntStream.range(0, usable.items().length)
                .filter(i -> parameters.items()[i] >= 0)
                .toArray();
        return transformed(standing, items, false);
    }

    /** On one item, the difficulty being in the standing. */
    Estimate onItem(Estimate standing, int item) {
        return transformed(standing, new int[] {item}, true);
    }

    private Estimate transformed(Estimate standing, int[] items, boolean atZero) {
        Interval limits = standing.limits();
        @Nullable
        Interval moved = limits == null
                ? null
                : new Interval(
                        level(limits.lower(), items, atZero), level(limits.upper(), items, atZero), limits.level());
        Double se = standing.se();
        return new Estimate(
                level(standing.value(), items, atZero),
                se == null ? null : (Double) (se * slope(standing.value(), items, atZero)),
                moved,
                standing.n(),
                "expected level, the others at their mean",
                List.of());
    }

    private MarkCurve curve(int item, boolean atZero) {
        return parameters.curve(
                fit.values(), item, 0, atZero ? 0 : fit.values()[parameters.items()[item]]);
    }

    private double level(double standing, int[] items, boolean atZero) {
        double sum = 0;
        for (int item : items) {
            sum += usable.categories()
                    .get(item)
                    .level(curve(item, atZero).moments(standing).mean());
        }
        return sum / items.length;
    }

    private double slope(double standing, int[] items, boolean atZero) {
        double sum = 0;
        for (int item : items) {
            sum += usable.categories().get(item).unit()
                    * curve(item, atZero).moments(standing).variance();
        }
        return sum / items.length;
    }
}
