package org.sideport.stats.agreement;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * Intraclass correlations of a table of subjects by raters by analysis of variance: Shrout & Fleiss 1979 (Psychological
 * Bulletin 86:420), with the names of McGraw & Wong 1996. Limits of the forms (1,·) and (3,·) are exact under normal
 * errors; those of (2,·) are by Satterthwaite's degrees of freedom (Shrout & Fleiss, page 424), and of (2,k) by stepping
 * those of (2,1) up with the Spearman-Brown formula, which is exact as the step is monotone.
 *
 * <p>Values lie below 1 and may be negative where subjects differ less than chance would make them. Linear in the number of
 * scores.
 */
public final class Icc {

    private Icc() {}

    /**
     * Of a table without gaps.
     *
     * @param level nominal coverage of the limits, for instance 0.95
     * @return refuses a table with missing cells (saying how many), with fewer than two subjects or raters, or of subjects
     *     whose mean scores do not differ
     */
    public static Outcome<IccTable> ofComplete(RatingMatrix table, double level) {
        int missing = table.missingCells();
        if (missing > 0) {
            return Outcome.refused(
                    Refusal.Reason.UNSUITABLE_DATA,
                    missing + " of "
                            + (table.subjects().size() * (long) table.raters().size())
                            + " scores are missing: not every rater has scored every subject",
                    "estimate the variance components instead, or ask for the "
                            + table.completeSubjects().subjects().size() + " complete subjects only");
        }
        return compute(table, level, List.of());
    }

    /** Of those subjects that every rater has scored; what was left out is said in the warnings. */
    public static Outcome<IccTable> ofCompleteSubjectsOnly(RatingMatrix table, double level) {
        RatingMatrix complete = table.completeSubjects();
        int left = table.subjects().size() - complete.subjects().size();
        List<String> warnings = left == 0
                ? List.of()
                : List.of(left + " of " + table.subjects().size()
                        + " subjects were left out because a rater has not scored them. If those that remain are easier or"
                        + " harder to agree on, the figures mislead.");
        return compute(complete, level, warnings);
    }

    private static Outcome<IccTable> compute(RatingMatrix table, double level, List<String> notes) {
        int n = table.subjects().size();
        int k = table.raters().size();
        if (n < 2 || k < 2) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "there are " + n + " subjects with " + k + " raters",
                    "at least 2 of each are needed; for useful limits 10 subjects or more");
        }
        TwoWayMeanSquares ms = TwoWayMeanSquares.of(table.scores());
        if (ms.betweenSubjects() == 0) {
            return Outcome.refused(
                    Refusal.Reason.NO_VARIATION,
                    "the mean scores of the " + n + " subjects are all the same",
                    "the coefficient compares differences between subjects with differences between raters, so subjects"
                            + " must differ; look at the share of equal scores instead");
        }
        List<String> warnings = new ArrayList<>(notes);
        if (n < 10) {
            warnings.add("There are only " + n + " subjects: the limits are wide for that reason.");
        }
        TwoWayComponents components = ms.twoWay();
        if (components.subject() < 0) {
            warnings.add(
                    "The estimated variance between subjects is below zero: there is no sign that the raters can tell"
                            + " the subjects apart.");
        }
        if (components.rater() < 0) {
            warnings.add("The estimated variance between raters is below zero: there is no sign that raters differ in"
                    + " severity.");
        }
        List<IccEstimate> estimates = new ArrayList<>();
        for (IccForm form : IccForm.values()) {
            if (form == IccForm.ICC_2_K && ms.betweenSubjects() + (ms.betweenRaters() - ms.error()) / n <= 0) {
                warnings.add("The estimated variance of mean scores is not above zero, so there is no ICC(2,k).");
            } else {
                estimates.add(estimate(form, ms, level));
            }
        }
        return Outcome.of(new IccTable(n, k, n * k, ms, components, estimates, warnings));
    }

    private static IccEstimate estimate(IccForm form, TwoWayMeanSquares ms, double level) {
        int n = ms.subjects();
        int k = ms.raters();
        boolean oneWay = form == IccForm.ICC_1_1 || form == IccForm.ICC_1_K;
        double errorSquare = oneWay ? ms.withinSubjects() : ms.error();
        double df1 = n - 1;
        double df2 = oneWay ? (double) n * (k - 1) : (double) (n - 1) * (k - 1);
        @Nullable FTest test = errorSquare == 0 ? null : FTest.of(ms.betweenSubjects() / errorSquare, df1, df2);
        double single =
                switch (form) {
                    case ICC_1_1, ICC_1_K, ICC_3_1, ICC_3_K ->
                        (ms.betweenSubjects() - errorSquare) / (ms.betweenSubjects() + (k - 1) * errorSquare);
                    case ICC_2_1, ICC_2_K -> absolute(ms);
                };
        @Nullable
        Interval limits =
                switch (form) {
                    case ICC_1_1, ICC_1_K, ICC_3_1, ICC_3_K -> test == null ? null : exact(test, k, level);
                    case ICC_2_1, ICC_2_K -> test == null ? null : satterthwaite(ms, single, level);
                };
        boolean ofMean = form == IccForm.ICC_1_K || form == IccForm.ICC_2_K || form == IccForm.ICC_3_K;
        if (ofMean) {
            single = steppedUp(single, k);
            limits = limits == null
                    ? null
                    : new Interval(steppedUp(limits.lower(), k), steppedUp(limits.upper(), k), level);
        }
        List<String> warnings = limits == null
                ? List.of(
                        test == null
                                ? "The raters differ by nothing but a constant, so there are no limits for this form."
                                : "The mean squares leave no limits for this form.")
                : List.of();
        String method = form.shroutFleiss() + " of Shrout and Fleiss, " + form.mcGrawWong() + " of McGraw and Wong";
        return new IccEstimate(form, new Estimate(single, null, limits, n, method, warnings), test);
    }

    private static double absolute(TwoWayMeanSquares ms) {
        int k = ms.raters();
        return (ms.betweenSubjects() - ms.error())
                / (ms.betweenSubjects() + (k - 1) * ms.error() + k * (ms.betweenRaters() - ms.error()) / ms.subjects());
    }

    /** Spearman-Brown; at the lower bound −1/(k − 1) the mean of k has reliability −∞. */
    private static double steppedUp(double single, int k) {
        double below = 1 + (k - 1) * single;
        return below <= 0 ? Double.NEGATIVE_INFINITY : k * single / below;
    }

    private static Interval exact(FTest test, int k, double level) {
        double lower = test.f() / FTest.quantile(0.5 + level / 2, test.df1(), test.df2());
        double upper = test.f() * FTest.quantile(0.5 + level / 2, test.df2(), test.df1());
        return new Interval((lower - 1) / (lower + k - 1), (upper - 1) / (upper + k - 1), level);
    }

    /** Shrout & Fleiss 1979, page 424. */
    private static @Nullable Interval satterthwaite(TwoWayMeanSquares ms, double icc, double level) {
        double n = ms.subjects();
        double k = ms.raters();
        double bms = ms.betweenSubjects();
        double ems = ms.error();
        double raterRatio = ms.betweenRaters() / ems;
        double a = k * icc * raterRatio;
        double b = n * (1 + (k - 1) * icc) - k * icc;
        double v = (k - 1) * (n - 1) * (a + b) * (a + b) / ((n - 1) * a * a + b * b);
        double upperF = FTest.quantile(0.5 + level / 2, n - 1, v);
        double lowerF = FTest.quantile(0.5 + level / 2, v, n - 1);
        double rest = k * ms.betweenRaters() + (k * n - k - n) * ems;
        double lower = n * (bms - upperF * ems) / (upperF * rest + n * bms);
        double upper = n * (lowerF * bms - ems) / (rest + n * lowerF * bms);
        // Where subjects differ far less than chance would make them, the approximation fails and misses the estimate.
        return lower < upper && lower <= icc && icc <= upper ? new Interval(lower, upper, level) : null;
    }
}
