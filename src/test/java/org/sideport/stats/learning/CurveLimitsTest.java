package org.sideport.stats.learning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.sideport.stats.Interval;

/** Curves that are straight lines over log₂ n, by the textbook band of linear regression in NumPy and SciPy (oracle/progress). */
class CurveLimitsTest {

    private static final double[] VALUES = {12.1, 10.4, 9.9, 8.7, 9.2, 8.1, 7.7, 7.9, 7.2, 7.5, 6.6, 6.9};

    private static Interval limits(CaseSeries.Scale scale, LearningModel model, double at) {
        double[] numbers = IntStream.rangeClosed(1, 12).asDoubleStream().toArray();
        return CaseSeries.of(numbers, VALUES, scale)
                .flatMap(series -> LearningFit.of(series, model, 0.95))
                .flatMap(fit -> CurveLimits.at(fit, at, 0.95))
                .orElseThrow();
    }

    private static void expect(Interval limits, double lower, double upper) {
        assertThat(limits.lower()).isCloseTo(lower, within(2e-6));
        assertThat(limits.upper()).isCloseTo(upper, within(2e-6));
    }

    @Test
    void ofALogLinearCurveTheyAreThoseOfRegression() {
        expect(limits(CaseSeries.Scale.PLAIN, LearningModel.LOG_LINEAR, 1), 11.53106045299976, 12.545172270798073);
        expect(limits(CaseSeries.Scale.PLAIN, LearningModel.LOG_LINEAR, 5), 8.432745447031934, 8.838071167422918);
        expect(limits(CaseSeries.Scale.PLAIN, LearningModel.LOG_LINEAR, 12), 6.479255609499118, 7.089691549548366);
    }

    @Test
    void ofAPowerCurveOfDurationsTheyAreThoseOfRegressionOfTheLogarithms() {
        expect(limits(CaseSeries.Scale.LOG, LearningModel.POWER, 1), 11.569977228046747, 13.246393901997733);
        expect(limits(CaseSeries.Scale.LOG, LearningModel.POWER, 5), 8.269403652259633, 8.728945267855469);
        expect(limits(CaseSeries.Scale.LOG, LearningModel.POWER, 12), 6.646539895114289, 7.210556800659453);
    }
}
