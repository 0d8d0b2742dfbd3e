package org.sideport.stats.agreement;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal.Reason;

/**
 * Kappa of several raters for each subject, not always the same ones (Fleiss 1971, Psychological Bulletin 76:378), weighted
 * and with missing scores as Gwet 2014 extends it (Handbook of Inter-Rater Reliability, 4th edition, chapters 2 and 5).
 * Standard error over subjects by linearisation; for the test of no agreement that of Fleiss, Nee & Landis 1979,
 * Psychological Bulletin 86:974.
 */
public final class FleissKappa {

    private FleissKappa() {}

    /**
     * @param kappa over all categories
     * @param categories kappa of each category against all others (Fleiss 1971, equation 15), in the order of the counts;
     *     {@code null} for a category that was not used or used for all; empty with unequal numbers of scores
     */
    public record Result(Kappa kappa, List<@Nullable Double> categories) {}

    /**
     * @param counts [subject][category], how many raters chose it; subjects without a score are passed over
     * @param weights agreement weights, symmetric, 1 on the diagonal
     * @param level coverage of the limits
     * @return refused where fewer than 2 subjects have two scores, or for a single category in use
     */
    public static Outcome<Result> of(int[][] counts, double[][] weights, double level) {
        return ScoredSubjects.of(counts).flatMap(scored -> {
            SubjectKappa subjects = new SubjectKappa(scored.counts(), weights);
            double[] shares = subjects.shares();
            if (Arrays.stream(shares).max().orElse(1) > 1 - 1e-12) {
                return Outcome.refused(
                        Reason.NO_VARIATION,
                        "all raters used one category only, so that chance alone explains all agreement",
                        "read the share of equal scores instead");
            }
            return Outcome.of(result(scored, subjects, shares, level));
        });
    }

    private static Result result(ScoredSubjects scored, SubjectKappa subjects, double[] shares, double level) {
        int raters = scored.equalRaters();
        String name = "Fleiss' kappa, "
                + (raters > 0 ? raters + " raters" : "unequal numbers of raters (Gwet 2014)")
                + "; standard error by linearisation";
        Kappa kappa = subjects.estimate(p -> times(subjects.weights(), p), name, level, scored.warnings());
        if (raters < 2) {
            return new Result(kappa, List.of());
        }
        double error = nullSe(shares, scored.counts().length, raters);
        return new Result(
                new Kappa(
                        kappa.observed(),
                        kappa.expected(),
                        kappa.estimate(),
                        isPlain(subjects.weights()) ? (Double) error : null),
                categories(scored.counts(), shares, raters));
    }

    private static double[] times(double[][] weights, double[] shares) {
        double[] product = new double[shares.length];
        for (int k = 0; k < shares.length; k++) {
            for (int l = 0; l < shares.length; l++) {
                product[k] += weights[k][l] * shares[l];
            }
        }
        return product;
    }

    private static boolean isPlain(double[][] weights) {
        return Arrays.stream(weights)
                .mapToDouble(row -> Arrays.stream(row).sum())
                .allMatch(sum -> sum == 1);
    }

    /** Fleiss, Nee & Landis 1979, equation 12. */
    private static double nullSe(double[] shares, int n, int raters) {
        double pq = 0;
        double skew = 0;
        for (double p : shares) {
            pq += p * (1 - p);
            skew += p * (1 - p) * (1 - 2 * p);
        }
        return Math.sqrt(2 * (pq * pq - skew) / ((double) n * raters * (raters - 1))) / pq;
    }

    private static List<@Nullable Double> categories(int[][] counts, double[] shares, int raters) {
        List<@Nullable Double> kappas = new ArrayList<>();
        for (int k = 0; k < shares.length; k++) {
            double apart = 0;
            for (int[] row : counts) {
                apart += (double) row[k] * (raters - row[k]);
            }
            double chance = (double) counts.length * raters * (raters - 1) * shares[k] * (1 - shares[k]);
            kappas.add(chance == 0 ? null : (Double) (1 - apart / chance));
        }
        return kappas;
    }
}
