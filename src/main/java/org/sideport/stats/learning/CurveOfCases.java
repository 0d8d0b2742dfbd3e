package org.sideport.stats.learning;

import org.jspecify.annotations.Nullable;
import org.sideport.stats.regression.CurveFunction;

/** A learning model at the cases of a series, on the scale on which errors are of equal size. */
final class CurveOfCases implements CurveFunction {

    private final CaseSeries series;
    private final LearningModel model;
    private final double[] response;

    CurveOfCases(CaseSeries series, LearningModel model) {
        this.series = series;
        this.model = model;
        response = series.response();
    }

    @Override
    public double value(int observation, double[] parameters, double @Nullable [] gradient) {
        double value = model.value(series.caseNumber()[observation], parameters, gradient);
        if (series.scale() == CaseSeries.Scale.PLAIN) {
            return value;
        }
        if (!(value > 0)) {
            return Double.NaN;
        }
        if (gradient != null) {
            for (int j = 0; j < gradient.length; j++) {
                gradient[j] /= value;
            }
        }
        return Math.log(value);
    }

    double[] response() {
        return response;
    }

    double sumOfSquares(double[] parameters) {
        double sum = 0;
        for (int i = 0; i < response.length; i++) {
            double r = response[i] - value(i, parameters, null);
            sum += r * r;
        }
        return sum;
    }
}
