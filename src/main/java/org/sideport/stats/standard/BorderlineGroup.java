package org.sideport.stats.standard;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Distribution;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.resample.Bootstrap;

/**
 * The borderline group method (Livingston & Zieky 1982, Passing Scores, memory): the cut is the mean score of those whom
 * the assessors graded as borderline.
 *
 * @param cut the mean, with its standard error {@code SD / √n} and bootstrap limits; {@code n} counts the borderline
 * @param median of the same scores, which one outlying score moves less; with bootstrap limits
 * @param scores of the borderline
 */
public record BorderlineGroup(Estimate cut, Estimate median, Distribution scores) {

    static final int ENOUGH = 10;

    /**
     * @param borderline scores of those graded borderline, finite
     * @return refused below 2 scores
     */
    public static Outcome<BorderlineGroup> of(double[] borderline, Bootstrap bootstrap) {
        int n = borderline.length;
        if (n < 2) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    n == 0 ? "nobody was graded borderline" : "only one was graded borderline",
                    "collect at least " + ENOUGH
                            + " borderline performances, or use borderline regression, which uses all");
        }
        List<String> warnings = new ArrayList<>();
        if (n < ENOUGH) {
            warnings.add("Only " + n + " were graded borderline; below about " + ENOUGH + " the cut is unsteady.");
        }
        Distribution scores = Distribution.of(borderline);
        @Nullable Double sd = scores.sd();
        Estimate cut = CutEstimate.of(
                scores.mean(),
                sd == null ? null : (Double) (sd / Math.sqrt(n)),
                n,
                "borderline group, mean",
                warnings,
                bootstrap,
                indices ->
                        Arrays.stream(indices).mapToDouble(i -> borderline[i]).sum() / indices.length);
        Estimate median =
                CutEstimate.of(scores.median(), null, n, "borderline group, median", List.of(), bootstrap, indices -> {
                    double[] drawn = Arrays.stream(indices)
                            .mapToDouble(i -> borderline[i])
                            .sorted()
                            .toArray();
                    int half = drawn.length / 2;
                    return drawn.length % 2 == 1 ? drawn[half] : (drawn[half - 1] + drawn[half]) / 2;
                });
        return Outcome.of(new BorderlineGroup(cut, median, scores));
    }
}
