package org.sideport.stats.learning;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.regression.NonlinearFit;
import org.sideport.stats.regression.NonlinearLeastSquares;
import org.sideport.stats.resample.Bootstrap;

/**
 * From which case on a fitted curve is as good as a reference value: the curve, not single cases, which scatter about it.
 *
 * @param cases case number, fractional; {@code null} if the curve never gets there
 * @param limits percentile bootstrap limits over the cases; the upper is infinite where resampled curves do not get
 *     there; {@code null} if too few resamples allow a fit
 * @param last case number in the data; beyond it everything is extrapolation
 */
public record CasesToReference(
        double reference,
        Reach reach,
        @Nullable Double cases,
        @Nullable Interval limits,
        double last,
        List<String> warnings) {

    /** Where the curve meets the reference. */
    public enum Reach {
        FROM_THE_FIRST,
        WITHIN_THE_DATA,
        BEYOND_THE_DATA,
        NEVER
    }

    /** Later than this is never. */
    private static final double HORIZON = 1e6;

    public CasesToReference {
        warnings = List.copyOf(warnings);
    }

    /**
     * @param reference in the unit of the values
     * @param lowerIsBetter whether values at or below the reference are as good
     * @param bootstrap resamples cases with replacement, refitting the same kind of curve
     */
    public static CasesToReference of(LearningFit fit, double reference, boolean lowerIsBetter, Bootstrap bootstrap) {
        double last = fit.series().last();
        double at = first(fit.model(), fit.fit().parameters(), reference, lowerIsBetter);
        Reach reach = at <= 1
                ? Reach.FROM_THE_FIRST
                : at <= last ? Reach.WITHIN_THE_DATA : at <= HORIZON ? Reach.BEYOND_THE_DATA : Reach.NEVER;
        List<String> warnings = new ArrayList<>();
        if (reach == Reach.BEYOND_THE_DATA) {
            warnings.add("The curve meets the reference only beyond the last case in the data; that is a guess.");
        }
        Outcome<Interval> limits = bootstrap.percentile(fit.series().size(), rows -> {
            CaseSeries resampled = fit.series().resampled(rows);
            CurveOfCases curve = new CurveOfCases(resampled, fit.model());
            Outcome<NonlinearFit> again = NonlinearLeastSquares.fit(
                    fit.model().parameters(),
                    curve,
                    curve.response(),
                    List.of(fit.fit().parameters()),
                    bootstrap.level());
            return again instanceof Outcome.Found<NonlinearFit> found
                    ? first(fit.model(), found.value().parameters(), reference, lowerIsBetter)
                    : Double.NaN;
        });
        if (limits instanceof Outcome.Refused<Interval> refused) {
            warnings.add("No limits: " + refused.refusal().why() + ".");
        }
        return new CasesToReference(
                reference,
                reach,
                reach == Reach.NEVER ? null : (Double) at,
                limits instanceof Outcome.Found<Interval> found ? open(found.value()) : null,
                last,
                warnings);
    }

    private static Interval open(Interval limits) {
        return new Interval(
                limits.lower() > HORIZON ? Double.POSITIVE_INFINITY : limits.lower(),
                limits.upper() > HORIZON ? Double.POSITIVE_INFINITY : limits.upper(),
                limits.level());
    }

    /** The case number alone, of a curve with these parameters; {@code null} if it never gets there. */
    public static @Nullable Double pointOf(
            LearningModel model, double[] parameters, double reference, boolean lowerIsBetter) {
        double at = first(model, parameters, reference, lowerIsBetter);
        return at > HORIZON ? null : (Double) at;
    }

    /** Case number from 1 at which the curve is first as good; ten times the horizon if it never is. */
    static double first(LearningModel model, double[] b, double reference, boolean lowerIsBetter) {
        double start = model.value(1, b, null);
        if (lowerIsBetter ? start <= reference : start >= reference) {
            return 1;
        }
        double at = model.caseOf(reference, b);
        // a curve that moves away has met the reference before case 1 or never
        return at >= 1 && at <= HORIZON ? at : 10 * HORIZON;
    }
}
