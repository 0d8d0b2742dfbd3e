package org.sideport.stats.agreement;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.stat.correlation.PearsonsCorrelation;
import org.hipparchus.stat.descriptive.moment.Mean;
import org.hipparchus.stat.descriptive.moment.Variance;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal.Reason;

/**
 * Cronbach's alpha of a sum of items (Cronbach 1951, Psychometrika 16:297), which is ICC(3,k) with items in the place of
 * raters; limits by the F distribution (Feldt 1965, Psychometrika 30:357), exact for normal data. Subjects with a missing
 * item are left out and counted.
 */
public final class CronbachAlpha {

    private CronbachAlpha() {}

    /**
     * @param estimate n counts complete subjects
     * @param items in the matrix's order
     */
    public record Result(Estimate estimate, List<Item> items) {
        public Result {
            items = List.copyOf(items);
        }
    }

    /**
     * @param alphaWithout alpha of the sum without this item; {@code null} with two items or where nothing varies
     * @param restCorrelation with the sum of the other items; {@code null} where one of them does not vary
     */
    public record Item(
            String name,
            double mean,
            double sd,
            @Nullable Double alphaWithout,
            @Nullable Double restCorrelation) {}

    /**
     * @param items subjects by items
     * @return refused below 3 complete subjects or 2 items, or where sums do not vary
     */
    public static Outcome<Result> of(RatingMatrix items, double level) {
        RatingMatrix complete = items.completeSubjects();
        int n = complete.subjects().size();
        int k = complete.raters().size();
        if (n < 3 || k < 2) {
            return Outcome.refused(
                    Reason.TOO_FEW,
                    "there are " + n + " subjects with all items and " + k + " items",
                    "alpha needs at least 3 subjects and 2 items; fill in missing scores");
        }
        int dropped = items.subjects().size() - n;
        return Icc.ofComplete(complete, level).map(table -> {
            Estimate icc = table.get(IccForm.ICC_3_K).estimate();
            List<String> warnings = new ArrayList<>(icc.warnings());
            if (dropped > 0) {
                warnings.add(dropped + (dropped == 1 ? " subject is" : " subjects are")
                        + " left out because of missing items.");
            }
            if (n < 30) {
                warnings.add("There are only " + n + " subjects: the limits are wide.");
            }
            Estimate estimate = new Estimate(
                    icc.value(), null, icc.limits(), n, "Cronbach's alpha; limits after Feldt 1965", warnings);
            List<Item> rows = new ArrayList<>();
            for (int j = 0; j < k; j++) {
                rows.add(item(complete, j));
            }
            return new Result(estimate, rows);
        });
    }

    private static Item item(RatingMatrix matrix, int j) {
        double[] own = column(matrix, j);
        double[] rest = without(matrix, j);
        Variance variance = new Variance();
        double sd = Math.sqrt(variance.evaluate(own));
        double restVariance = variance.evaluate(rest);
        int k = matrix.raters().size() - 1;
        double items = 0;
        for (int other = 0; other <= k; other++) {
            items += other == j ? 0 : variance.evaluate(column(matrix, other));
        }
        return new Item(
                matrix.raters().get(j),
                new Mean().evaluate(own),
                sd,
                k < 2 || restVariance == 0 ? null : (Double) (k / (k - 1.0) * (1 - items / restVariance)),
                sd == 0 || restVariance == 0 ? null : (Double) new PearsonsCorrelation().correlation(own, rest));
    }

    private static double[] column(RatingMatrix matrix, int j) {
        double[] column = new double[matrix.scores().length];
        for (int i = 0; i < column.length; i++) {
            column[i] = matrix.scores()[i][j];
        }
        return column;
    }

    /** Each subject's sum, one item left out. */
    private static double[] without(RatingMatrix matrix, int out) {
        double[] sums = new double[matrix.scores().length];
        for (int i = 0; i < sums.length; i++) {
            for (int j = 0; j < matrix.raters().size(); j++) {
                sums[i] += j == out ? 0 : matrix.scores()[i][j];
            }
        }
        return sums;
    }
}
