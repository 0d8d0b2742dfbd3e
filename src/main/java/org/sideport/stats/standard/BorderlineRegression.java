package org.sideport.stats.standard;

import java.util.ArrayList;
import java.util.List;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.resample.Bootstrap;

/**
 * Borderline regression (Wood, Humphrey-Murto & Norman 2006, Advances in Health Sciences Education 11:115): the scores are
 * regressed on the global grades and the cut is read at the grade that stands for borderline. It uses all performances,
 * and takes the relation as a straight line, the grades as evenly spaced and the performances as independent.
 *
 * @param grade of each performance; not to be changed
 * @param score of each performance; not to be changed
 * @param intercept points at grade 0
 * @param slope points for one grade more
 * @param r2 share of the variance of the scores that the grades explain, 0 to 1
 * @param residualSd s of y on x, {@code √(Σ residual² / (n − 2))}, points
 */
@SuppressWarnings("ArrayRecordComponent")
public record BorderlineRegression(
        double[] grade, double[] score, double intercept, double slope, double r2, double residualSd) {

    static final int ENOUGH_BORDERLINE = 10;
    private static final double WEAK = 0.5;

    /** Sums of squares and products about the means. */
    private record Sums(double n, double meanX, double meanY, double xx, double xy, double yy) {

        static Sums of(double[] x, double[] y, int[] indices) {
            double meanX = 0;
            double meanY = 0;
            for (int i : indices) {
                meanX += x[i] / indices.length;
                meanY += y[i] / indices.length;
            }
            double xx = 0;
            double xy = 0;
            double yy = 0;
            for (int i : indices) {
                double dx = x[i] - meanX;
                double dy = y[i] - meanY;
                xx += dx * dx;
                xy += dx * dy;
                yy += dy * dy;
            }
            return new Sums(indices.length, meanX, meanY, xx, xy, yy);
        }

        /** Not a number where all grades drawn are equal. */
        double at(double grade) {
            return xx > 0 ? meanY + xy / xx * (grade - meanX) : Double.NaN;
        }
    }

    /**
     * @param grade a number for each performance, higher for better
     * @param score points of the same
     * @return refused below 4 performances, if all grades or all scores are equal, or if the scores do not rise with the
     *     grades
     */
    public static Outcome<BorderlineRegression> of(double[] grade, double[] score) {
        int n = grade.length;
        if (score.length != n) {
            throw new IllegalArgumentException(n + " grades for " + score.length + " scores");
        }
        if (n < 4) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "there are " + n + " graded performances",
                    "collect at least 4, better several of each grade");
        }
        Sums sums = Sums.of(grade, score, all(n));
        if (sums.xx() == 0 || sums.yy() == 0) {
            return Outcome.refused(
                    Refusal.Reason.NO_VARIATION,
                    "all " + n + (sums.xx() == 0 ? " grades" : " scores") + " are equal",
                    "collect performances of different quality");
        }
        if (sums.xy() <= 0) {
            return Outcome.refused(
                    Refusal.Reason.UNSUITABLE_DATA,
                    "the scores do not rise with the grades",
                    "check that a higher grade means a better performance");
        }
        double slope = sums.xy() / sums.xx();
        double unexplained = Math.max(sums.yy() - slope * sums.xy(), 0);
        return Outcome.of(new BorderlineRegression(
                grade,
                score,
                sums.meanY() - slope * sums.meanX(),
                slope,
                Math.min(slope * sums.xy() / sums.yy(), 1),
                Math.sqrt(unexplained / (n - 2))));
    }

    private static int[] all(int n) {
        return java.util.stream.IntStream.range(0, n).toArray();
    }

    /**
     * The cut at a grade, between two grades if need be: {@code intercept + slope · grade} with the standard error of the
     * line {@code s √(1/n + (grade − mean)² / Sxx)} (Draper & Smith 1998, Applied Regression Analysis, 3rd ed., equation
     * 3.1.1) and bootstrap limits over performances. {@code n} counts performances.
     *
     * @param borderline the grade that stands for borderline
     */
    public Estimate cut(double borderline, Bootstrap bootstrap) {
        int n = grade.length;
        Sums sums = Sums.of(grade, score, all(n));
        double d = borderline - sums.meanX();
        double se = residualSd * Math.sqrt(1.0 / n + d * d / sums.xx());
        return CutEstimate.of(
                sums.at(borderline),
                se,
                n,
                "borderline regression",
                warnings(borderline),
                bootstrap,
                indices -> Sums.of(grade, score, indices).at(borderline));
    }

    private List<String> warnings(double borderline) {
        List<String> warnings = new ArrayList<>();
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        int near = 0;
        for (double g : grade) {
            low = Math.min(low, g);
            high = Math.max(high, g);
            // a cut between two grades rests on both
            near += Math.abs(g - borderline) < 1 ? 1 : 0;
        }
        if (borderline < low || borderline > high) {
            warnings.add("Grade " + plain(borderline) + " lies outside the grades given, " + plain(low) + " to "
                    + plain(high) + ": the line is drawn on beyond the data.");
        } else if (near < ENOUGH_BORDERLINE) {
            warnings.add("Only " + near + " performances were graded within 1 of " + plain(borderline)
                    + "; below about " + ENOUGH_BORDERLINE + " the cut rests on the straight line.");
        }
        if (r2 < WEAK) {
            warnings.add("The grades explain only " + Math.round(100 * r2)
                    + " % of the differences in score: the line is a weak ground for a cut.");
        }
        return warnings;
    }

    private static String plain(double value) {
        return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
    }
}
