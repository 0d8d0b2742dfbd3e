package org.sideport.stats.agreement;

import java.util.Arrays;
import java.util.List;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal.Reason;

/**
 * Kappa of two raters, plain (Cohen 1960, Educational and Psychological Measurement 20:37) or weighted (Cohen 1968,
 * Psychological Bulletin 70:213), with the large-sample standard errors of Fleiss, Cohen & Everitt 1969, Psychological
 * Bulletin 72:323, equations 8 to 14. The limits are normal; they are rough below some 30 subjects.
 */
public final class CohenKappa {

    private CohenKappa() {}

    /**
     * @param table [first rater's category][second rater's category], counts of subjects
     * @param weights agreement weights, 1 on the diagonal
     * @param level coverage of the limits
     * @return refused for an empty table and where chance alone gives full agreement
     */
    public static Outcome<Kappa> of(int[][] table, double[][] weights, String name, double level) {
        int q = table.length;
        int n = Arrays.stream(table).flatMapToInt(Arrays::stream).sum();
        if (n < 2) {
            return Outcome.refused(
                    Reason.TOO_FEW,
                    n == 1 ? "only 1 subject was marked by both raters" : "no subject was marked by both raters",
                    "kappa needs two at least, and 30 to be worth reading");
        }
        double[] rows = new double[q];
        double[] columns = new double[q];
        for (int i = 0; i < q; i++) {
            for (int j = 0; j < q; j++) {
                rows[i] += (double) table[i][j] / n;
                columns[j] += (double) table[i][j] / n;
            }
        }
        double observed = 0;
        double expected = 0;
        double[] rowWeights = new double[q];
        double[] columnWeights = new double[q];
        for (int i = 0; i < q; i++) {
            for (int j = 0; j < q; j++) {
                observed += weights[i][j] * table[i][j] / n;
                expected += weights[i][j] * rows[i] * columns[j];
                rowWeights[i] += weights[i][j] * columns[j];
                columnWeights[j] += weights[i][j] * rows[i];
            }
        }
        double room = 1 - expected;
        if (room < 1e-12) {
            return Outcome.refused(
                    Reason.NO_VARIATION,
                    "both raters used one category only, so that chance alone explains all agreement",
                    "read the exact agreement instead");
        }
        double kappa = (observed - expected) / room;
        double spread = 0;
        double nullSpread = 0;
        for (int i = 0; i < q; i++) {
            for (int j = 0; j < q; j++) {
                double both = rowWeights[i] + columnWeights[j];
                spread += Math.pow(weights[i][j] - both * (1 - kappa), 2) * table[i][j] / n;
                nullSpread += Math.pow(weights[i][j] - both, 2) * rows[i] * columns[j];
            }
        }
        double variance = (spread - Math.pow(kappa - expected * (1 - kappa), 2)) / (n * room * room);
        double nullVariance = (nullSpread - expected * expected) / (n * room * room);
        double se = Math.sqrt(Math.max(0, variance));
        double z = new NormalDistribution().inverseCumulativeProbability(0.5 + level / 2);
        // With no disagreement at all the formula's error is 0, which is no honest limit.
        @Nullable
        Interval limits =
                se == 0 ? null : new Interval(Math.max(-1, kappa - z * se), Math.min(1, kappa + z * se), level);
        List<String> warnings = n < 30 ? List.of("only " + n + " subjects: the limits are rough") : List.of();
        return Outcome.of(new Kappa(observed, expected, new Estimate(kappa, se, limits, n, name, warnings), (Double)
                Math.sqrt(Math.max(0, nullVariance))));
    }

    /**
     * Of the subjects that both raters of the matrix have marked.
     *
     * @param matrix with two raters
     * @param values the scale's categories, ascending, all that occur and perhaps more
     */
    public static Outcome<Kappa> of(RatingMatrix matrix, double[] values, KappaWeights weights, double level) {
        if (matrix.raters().size() != 2) {
            return Outcome.refused(
                    Reason.UNSUITABLE_DATA,
                    "there are " + matrix.raters().size() + " raters, and Cohen's kappa takes 2",
                    "use Fleiss' kappa, Gwet's AC or Krippendorff's alpha for more");
        }
        int[][] table = new int[values.length][values.length];
        for (double[] row : matrix.scores()) {
            if (!Double.isNaN(row[0]) && !Double.isNaN(row[1])) {
                table[RatingMatrix.category(values, row[0])][RatingMatrix.category(values, row[1])]++;
            }
        }
        String name =
                switch (weights) {
                    case NONE -> "Cohen's kappa";
                    case LINEAR -> "Cohen's kappa, linear weights";
                    case QUADRATIC -> "Cohen's kappa, quadratic weights";
                };
        return of(table, weights.of(values), name, level);
    }
}
