package org.sideport.stats.learning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.sideport.stats.learning.ChangePoint.Shape;

/** Values that lie on a curve of the grid are started from that curve itself. */
class CurveStartsTest {

    private static double[] on(LearningModel model, double... parameters) {
        double[] values = new double[31];
        Arrays.setAll(values, i -> model.value(i + 1, parameters, null));
        return values;
    }

    private static void startsThere(LearningModel model, double... parameters) {
        for (CaseSeries.Scale scale : CaseSeries.Scale.values()) {
            List<double[]> starts = CurveStarts.of(LearningTest.series(scale, on(model, parameters)), model);
            assertThat(starts.get(0)).containsExactly(parameters, within(1e-7));
            assertThat(starts).hasSizeLessThanOrEqualTo(3);
        }
    }

    @Test
    void theGridHoldsTheCurve() {
        startsThere(LearningModel.LOG_LINEAR, 500, -40);
        startsThere(LearningModel.POWER, 500, Math.pow(2, -1 + 2.0 * 15 / 39));
        startsThere(LearningModel.POWER, 3, Math.pow(2, -1 + 2.0 * 24 / 39));
        // the widest half-time is four times the span of 30 cases
        startsThere(LearningModel.EXPONENTIAL, 900, 400, 0.25 * Math.pow(4 * 30 / 0.25, 20.0 / 39));
        startsThere(LearningModel.EXPONENTIAL, 2, 7, 0.25 * Math.pow(4 * 30 / 0.25, 39.0 / 39));
    }

    /** A line through these logarithms falls below 0, where a duration cannot be: the level remains as a start. */
    @Test
    void startsThatMakeNoCurveAreLeftOut() {
        double[] values = new double[31];
        Arrays.setAll(values, i -> i < 8 ? 1000 / (1.0 + i * i * i) : 0.001);
        List<double[]> starts =
                CurveStarts.of(LearningTest.series(CaseSeries.Scale.LOG, values), LearningModel.LOG_LINEAR);
        assertThat(starts).hasSize(1);
        assertThat(starts.get(0)[1]).isZero();
        assertThat(starts.get(0)[0]).isCloseTo(Arrays.stream(values).average().orElseThrow(), within(1e-9));
    }

    @Test
    void aSharpBendHasNarrowLimitsAndASteepLineNoBend() {
        double[] bent = new double[30];
        Arrays.setAll(bent, i -> 50 - 3.0 * Math.min(i + 1, 12.5) + 0.01 * ((i * 7) % 5 - 2));
        ChangePoint bend = ChangePoint.of(LearningTest.series(CaseSeries.Scale.PLAIN, bent), Shape.LINES, 199, 1, 0.95)
                .orElseThrow();
        assertThat(bend.at()).isCloseTo(12.5, within(0.02));
        assertThat(bend.limits().lower()).isBetween(12.47, bend.at());
        assertThat(bend.limits().upper()).isBetween(bend.at(), 12.53);
        assertThat(bend.p()).isEqualTo(1.0 / 200);
        double[] steep = new double[30];
        Arrays.setAll(steep, i -> 500 - 3.0 * (i + 1) + 0.01 * ((i * 7) % 5 - 2));
        ChangePoint none = ChangePoint.of(LearningTest.series(CaseSeries.Scale.PLAIN, steep), Shape.LINES, 199, 1, 0.95)
                .orElseThrow();
        assertThat(none.p()).isGreaterThan(0.2);
        double[] stepped = new double[30];
        Arrays.setAll(stepped, i -> (i < 11 ? 50 : 20) + 0.01 * ((i * 7) % 5 - 2));
        ChangePoint step = ChangePoint.of(
                        LearningTest.series(CaseSeries.Scale.PLAIN, stepped), Shape.LEVELS, 199, 1, 0.95)
                .orElseThrow();
        assertThat(step.limits().lower()).isEqualTo(12);
        assertThat(step.limits().upper()).isEqualTo(12);
    }
}
