package org.sideport.stats.casemix;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.sideport.stats.Interval;
import org.sideport.stats.casemix.LogisticLikelihood.Maximum;

class LogisticLikelihoodTest {

    private static LogisticLikelihood of(double[][] columns, double[] outcome, boolean penalised) {
        return new LogisticLikelihood(columns, outcome, new double[outcome.length], penalised);
    }

    private static double[] ones(int n) {
        double[] ones = new double[n];
        Arrays.fill(ones, 1);
        return ones;
    }

    @Test
    void probabilityHoldsAtBothEnds() {
        assertThat(LogisticLikelihood.probability(0)).isEqualTo(0.5);
        assertThat(LogisticLikelihood.probability(800)).isEqualTo(1);
        assertThat(LogisticLikelihood.probability(-800)).isZero();
        assertThat(LogisticLikelihood.probability(-40)).isCloseTo(Math.exp(-40), within(1e-32));
        assertThat(LogisticLikelihood.probability(Math.log(3))).isCloseTo(0.75, within(1e-15));
        assertThat(LogisticLikelihood.probability(-Math.log(3))).isCloseTo(0.25, within(1e-15));
    }

    /** 3 of 10: log likelihood 3 log .3 + 7 log .7, information 10 · .3 · .7; from far off too. */
    @Test
    void interceptAlone() {
        double[] y = {1, 1, 1, 0, 0, 0, 0, 0, 0, 0};
        for (double start : new double[] {0, 9, -9, 25}) {
            Maximum found = of(new double[][] {ones(10)}, y, false).maximise(new double[] {start}, -1);
            assertThat(found).isNotNull();
            assertThat(found.beta()[0]).isCloseTo(Math.log(3 / 7.0), within(1e-10));
            assertThat(found.logLikelihood()).isCloseTo(3 * Math.log(.3) + 7 * Math.log(.7), within(1e-12));
            assertThat(found.value()).isEqualTo(found.logLikelihood());
            assertThat(found.covariance().getEntry(0, 0)).isCloseTo(1 / 2.1, within(1e-9));
        }
    }

    /** Firth 1993, Biometrika 80:27, section 3.1: log odds with half an event and half a non-event more. */
    @Test
    void firthWithInterceptAlone() {
        double[] y = {1, 1, 1, 0, 0, 0, 0, 0, 0, 0};
        Maximum found = of(new double[][] {ones(10)}, y, true).maximise(new double[1], -1);
        assertThat(found).isNotNull();
        assertThat(found.beta()[0]).isCloseTo(Math.log(3.5 / 7.5), within(1e-10));
        double p = 3.5 / 11;
        assertThat(found.value() - found.logLikelihood()).isCloseTo(Math.log(10 * p * (1 - p)) / 2, within(1e-10));
        Maximum none = of(new double[][] {ones(4)}, new double[4], true).maximise(new double[1], -1);
        assertThat(none).isNotNull();
        assertThat(none.beta()[0]).isCloseTo(Math.log(0.5 / 4.5), within(1e-9));
    }

    /** A held coefficient stays; the others go where its column, as an offset, sends them. */
    @Test
    void heldCoefficientIsAnOffset() {
        CaseOutcomes data = TestData.read("birthwt.csv");
        double[][] columns = data.columns();
        LogisticLikelihood whole = of(columns, data.outcome(), false);
        double[] start = new double[9];
        start[5] = 0.4;
        Maximum held = whole.maximise(start, 5);
        double[] offset = Arrays.stream(columns[5]).map(v -> 0.4 * v).toArray();
        double[][] others = new double[8][];
        for (int j = 0, k = 0; j < 9; j++) {
            if (j != 5) {
                others[k++] = columns[j];
            }
        }
        LogisticLikelihood part = new LogisticLikelihood(others, data.outcome(), offset, false);
        Maximum free = part.maximise(new double[8], -1);
        assertThat(held).isNotNull();
        assertThat(free).isNotNull();
        assertThat(held.beta()[5]).isEqualTo(0.4);
        assertThat(held.value()).isCloseTo(free.value(), within(1e-9));
        assertThat(held.beta()[2] / whole.scale(2)).isCloseTo(free.beta()[2] / part.scale(2), within(1e-9));
        assertThat(whole.scale(2)).isEqualTo(Arrays.stream(columns[2]).max().orElseThrow());
    }

    /** With the only coefficient held nothing moves. */
    @Test
    void onlyCoefficientHeld() {
        Maximum found =
                of(new double[][] {ones(4)}, new double[] {1, 0, 0, 0}, false).maximise(new double[] {0.7}, 0);
        assertThat(found).isNotNull();
        assertThat(found.beta()).containsExactly(0.7);
        assertThat(found.logLikelihood())
                .isCloseTo(-Math.log1p(Math.exp(-0.7)) - 3 * Math.log1p(Math.exp(0.7)), within(1e-12));
    }

    /** Without a finite maximum there is none; nor limits from a likelihood that stays flat. */
    @Test
    void separatedOutcomesHaveNoMaximum() {
        double[][] columns = {ones(6), {1, 2, 3, 4, 5, 6}};
        assertThat(of(columns, new double[] {0, 0, 0, 1, 1, 1}, false).maximise(new double[2], -1))
                .isNull();
        assertThat(of(new double[][] {ones(3), new double[3]}, new double[] {0, 1, 0}, false)
                        .maximise(new double[2], -1))
                .isNull();
    }

    /** Against the other fits of these tests: limits are where the statistic reaches 2.7055 (any chi-square table). */
    @Test
    void profileLimitsLieWhereTheRatioReachesTheQuantile() {
        CaseOutcomes data = TestData.read("infert.csv");
        LogisticLikelihood likelihood = of(data.columns(), data.outcome(), false);
        Maximum maximum = likelihood.maximise(new double[7], -1);
        assertThat(maximum).isNotNull();
        LikelihoodProfile profile = new LikelihoodProfile(likelihood, maximum, 2);
        for (double guess : new double[] {0.02, 0.2, 3}) {
            Interval limits = profile.limits(guess, 0.9);
            assertThat(limits).isNotNull();
            for (double limit : List.of(limits.lower(), limits.upper())) {
                double[] start = maximum.beta().clone();
                start[2] = limit * likelihood.scale(2);
                Maximum held = likelihood.maximise(start, 2);
                assertThat(held).isNotNull();
                assertThat(2 * (maximum.value() - held.value())).isCloseTo(2.705543454, within(1e-7));
            }
            assertThat(limits.level()).isEqualTo(0.9);
        }
        // drop1 in logistic.txt
        assertThat(profile.ratioAtZero()).isCloseTo(21.14156192, within(1e-7));
    }

    @Test
    void upperTailOfChiSquare() {
        // pchisq(c(3.841458820694124, 18.30703805327515, 400), c(1, 10, 1), lower.tail = FALSE)
        assertThat(ChiSquare.upperTail(3.841458820694124, 1)).isCloseTo(0.05, within(1e-14));
        assertThat(ChiSquare.upperTail(18.30703805327515, 10)).isCloseTo(0.05, within(1e-14));
        assertThat(ChiSquare.upperTail(400, 1)).isCloseTo(5.507248237212467e-89, within(1e-98));
        assertThat(ChiSquare.upperTail(0, 1)).isEqualTo(1);
        assertThat(ChiSquare.upperTail(-1e-12, 1)).isEqualTo(1);
    }
}
