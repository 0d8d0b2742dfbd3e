package org.sideport.stats.learning;

import java.util.ArrayList;
import java.util.List;
import org.sideport.stats.Outcome;
import org.sideport.stats.regression.RobustFit;
import org.sideport.stats.regression.RobustLoss;
import org.sideport.stats.regression.RobustRegression;

/**
 * A curve fitted so that outlying cases count less, and which cases these are. Nothing is taken away silently: each case
 * keeps its weight here.
 *
 * @param fit weights in the order of the series; parameters in the unit of the values
 * @param outlying cases farther than {@link #FAR} scales from the robust curve, in order of their number
 */
public record OutlyingCases(CaseSeries series, LearningModel model, RobustFit fit, List<OutlyingCase> outlying) {

    /** Scaled distance beyond which a case is named: 0.3 % of normal errors. */
    public static final double FAR = 3;

    /**
     * @param expected value of the robust curve
     * @param distance residual in units of the robust scale, on the scale of the errors
     * @param weight 0 to 1
     */
    public record OutlyingCase(double caseNumber, double value, double expected, double distance, double weight) {}

    public OutlyingCases {
        outlying = List.copyOf(outlying);
    }

    /** @return refused as {@link RobustRegression} refuses */
    public static Outcome<OutlyingCases> of(LearningFit least, RobustLoss loss, double level) {
        CurveOfCases curve = new CurveOfCases(least.series(), least.model());
        return RobustRegression.curve(
                        least.model().parameters(),
                        curve,
                        curve.response(),
                        List.of(least.fit().parameters()),
                        loss,
                        level)
                .map(fit ->
                        new OutlyingCases(least.series(), least.model(), fit, far(least.series(), least.model(), fit)));
    }

    private static List<OutlyingCase> far(CaseSeries series, LearningModel model, RobustFit fit) {
        List<OutlyingCase> far = new ArrayList<>();
        for (int i = 0; i < series.size(); i++) {
            double distance = fit.residuals()[i] / fit.scale();
            if (Math.abs(distance) > FAR) {
                double n = series.caseNumber()[i];
                far.add(new OutlyingCase(
                        n, series.value()[i], model.value(n, fit.parameters(), null), distance, fit.weights()[i]));
            }
        }
        return far;
    }
}
