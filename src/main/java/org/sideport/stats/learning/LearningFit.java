package org.sideport.stats.learning;

import java.util.ArrayList;
import java.util.List;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.regression.AkaikeCriterion;
import org.sideport.stats.regression.Coefficient;
import org.sideport.stats.regression.NonlinearFit;
import org.sideport.stats.regression.NonlinearLeastSquares;
import org.sideport.stats.regression.ProfileLikelihood;

/**
 * A learning curve fitted by least squares: of logarithms for durations, of values for scores.
 *
 * @param fit residuals and residual SD are on the scale of the errors, parameters in the unit of the values
 * @param aicc on the scale of the errors, so comparable between curves of the same series; the errors' variance counts as
 *     a parameter
 */
public record LearningFit(CaseSeries series, LearningModel model, NonlinearFit fit, double aicc) {

    /**
     * @param level coverage of the linear-approximation limits inside {@link #fit}
     * @return refused if the search fails, the data do not tell the parameters apart, or all values lie on the curve
     */
    public static Outcome<LearningFit> of(CaseSeries series, LearningModel model, double level) {
        List<double[]> starts = CurveStarts.of(series, model);
        if (starts.isEmpty()) {
            return Outcome.refused(
                    Refusal.Reason.NOT_CONVERGED,
                    "no " + name(model) + " curve goes through these values",
                    "take another curve");
        }
        CurveOfCases curve = new CurveOfCases(series, model);
        return NonlinearLeastSquares.fit(model.parameters(), curve, curve.response(), starts, level)
                .flatMap(fit -> {
                    double total = 0;
                    for (double y : curve.response()) {
                        total += y * y;
                    }
                    if (!(fit.sumOfSquares() > 1e-26 * total)) {
                        return Outcome.refused(
                                Refusal.Reason.NO_VARIATION,
                                "all values lie on the " + name(model) + " curve, so there is no error to judge by",
                                "check the data");
                    }
                    double aicc = AkaikeCriterion.corrected(
                            fit.sumOfSquares(),
                            series.size(),
                            model.parameters().size() + 1);
                    return Outcome.of(new LearningFit(series, model, fit, aicc));
                });
    }

    static String name(LearningModel model) {
        return switch (model) {
            case CONSTANT -> "constant";
            case POWER -> "power";
            case LOG_LINEAR -> "log-linear";
            case EXPONENTIAL -> "exponential";
        };
    }

    /** Expected value at a case number from 1; for durations the median. */
    public double valueAt(double caseNumber) {
        return model.value(caseNumber, fit.parameters(), null);
    }

    /**
     * The parameters with profile-likelihood limits, in the order of {@link LearningModel#parameters}. An infinite limit
     * says that the data set no bound there; where the profile fails the limits are missing and a warning says so.
     */
    public List<Estimate> estimates(double level) {
        CurveOfCases curve = new CurveOfCases(series, model);
        List<Estimate> estimates = new ArrayList<>();
        for (int j = 0; j < model.parameters().size(); j++) {
            Coefficient coefficient = fit.coefficients().get(j);
            Outcome<Interval> limits = ProfileLikelihood.limits(curve, curve.response(), fit, j, level);
            Estimate estimate = new Estimate(
                    coefficient.value(),
                    coefficient.se(),
                    limits instanceof Outcome.Found<Interval> found ? found.value() : null,
                    series.size(),
                    "least squares, profile-likelihood limits",
                    List.of());
            estimates.add(
                    limits instanceof Outcome.Refused<Interval> refused
                            ? estimate.withWarnings(
                                    List.of("No limits: " + refused.refusal().why() + "."))
                            : estimate);
        }
        return estimates;
    }
}
