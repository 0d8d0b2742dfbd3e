package org.sideport.stats.standard;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.hipparchus.distribution.continuous.TDistribution;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.describe.Moments;
import org.sideport.stats.resample.Bootstrap;

/**
 * Angoff's method (1971, in Thorndike, Educational Measurement, 2nd ed., p. 508–600), extended to items with several
 * points: each judge says for each item how many points a person who only just passes would get; the cut is the mean over
 * judges of the sum over items.
 *
 * @param cut in points, with the standard error over judges {@code SD of their totals / √judges} and bootstrap limits over
 *     judges; {@code n} counts judges
 * @param tLimits of the cut by Student's t over judges, which for few judges are the more honest ones
 * @param totals sum of each judge
 * @param components the variance of single judgements
 * @param itemsAlsoVary standard error where the items too are a sample of those that might have been asked:
 *     {@code I √(σ²judge / J + σ²item / I + σ²rest / (I J))} (Brennan 2001, Generalizability Theory, section 2.3.1)
 */
public record Angoff(Estimate cut, Interval tLimits, List<Double> totals, Components components, double itemsAlsoVary) {

    static final int ENOUGH_JUDGES = 10;

    /**
     * Variance components of judges × items from the mean squares (Brennan 2001, table 2.3). A negative estimate is shown
     * as it is; a negative one of items counts as 0 in errors.
     *
     * @param judge severity of judges, points² of one item
     * @param item difficulty of items
     * @param rest judges who differ over items, and chance
     */
    public record Components(double judge, double item, double rest, int judges, int items) {

        /** Standard error of the cut in points with another number of judges and the same items. */
        public double standardError(int otherJudges) {
            // judge + rest / items is the judges' mean square by item, which is never negative
            return items * Math.sqrt(Math.max(judge + rest / items, 0) / otherJudges);
        }

        /** As {@link #standardError}, the items a sample too. */
        public double standardErrorOverItems(int otherJudges) {
            double error = standardError(otherJudges);
            return Math.sqrt(error * error + items * Math.max(item, 0));
        }
    }

    public Angoff {
        totals = List.copyOf(totals);
    }

    /**
     * @param points one row for each judge, one column for each item; finite
     * @return refused below 2 judges or 2 items
     */
    public static Outcome<Angoff> of(double[][] points, Bootstrap bootstrap) {
        int judges = points.length;
        int items = judges == 0 ? 0 : points[0].length;
        for (double[] row : points) {
            if (row.length != items) {
                throw new IllegalArgumentException("rows of " + items + " and " + row.length + " items");
            }
        }
        if (judges < 2 || items < 2) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "there are " + judges + (judges == 1 ? " judge and " : " judges and ") + items
                            + (items == 1 ? " item" : " items"),
                    "ask at least 2 judges, better about " + ENOUGH_JUDGES + ", for at least 2 items");
        }
        double[] totals = Arrays.stream(points)
                .mapToDouble(row -> Arrays.stream(row).sum())
                .toArray();
        Moments moments = Moments.of(totals);
        double se = sd(moments) / Math.sqrt(judges);
        List<String> warnings = new ArrayList<>();
        if (judges < ENOUGH_JUDGES) {
            warnings.add("There are only " + judges + " judges; about " + ENOUGH_JUDGES
                    + " are needed for a cut that another panel would set too.");
        }
        Components components = components(points, judges, items);
        Estimate cut = CutEstimate.of(
                moments.mean(),
                se,
                judges,
                "Angoff, bootstrap limits over judges",
                warnings,
                bootstrap,
                indices -> Arrays.stream(indices).mapToDouble(i -> totals[i]).sum() / indices.length);
        double t = new TDistribution(judges - 1.0).inverseCumulativeProbability(0.5 + bootstrap.level() / 2);
        return Outcome.of(new Angoff(
                cut,
                new Interval(moments.mean() - t * se, moments.mean() + t * se, bootstrap.level()),
                Arrays.stream(totals).boxed().toList(),
                components,
                components.standardErrorOverItems(judges)));
    }

    private static double sd(Moments moments) {
        @Nullable Double sd = moments.sd();
        return sd == null ? 0 : sd;
    }

    private static Components components(double[][] points, int judges, int items) {
        double[] byItem = new double[items];
        double[] byJudge = new double[judges];
        double mean = 0;
        for (int j = 0; j < judges; j++) {
            for (int i = 0; i < items; i++) {
                byItem[i] += points[j][i] / judges;
                byJudge[j] += points[j][i] / items;
            }
            mean += byJudge[j] / judges;
        }
        double judgeSquares = 0;
        double itemSquares = 0;
        double rest = 0;
        for (int j = 0; j < judges; j++) {
            judgeSquares += items * (byJudge[j] - mean) * (byJudge[j] - mean);
            for (int i = 0; i < items; i++) {
                double d = points[j][i] - byJudge[j] - byItem[i] + mean;
                rest += d * d;
            }
        }
        for (int i = 0; i < items; i++) {
            itemSquares += judges * (byItem[i] - mean) * (byItem[i] - mean);
        }
        double restSquare = rest / ((judges - 1) * (items - 1));
        return new Components(
                (judgeSquares / (judges - 1) - restSquare) / items,
                (itemSquares / (items - 1) - restSquare) / judges,
                restSquare,
                judges,
                items);
    }
}
