package org.sideport.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class DistributionTest {

    /** Hyndman & Fan 1996, The American Statistician 50:361, definition 7; figures by R 4.2.2, {@code quantile(x, type = 7)}. */
    @Test
    void quantilesAreOfTypeSeven() {
        double[] x = {3, 7, 8, 9, 12, 15, 21, 40};
        Distribution d = Distribution.of(x);
        assertThat(d.p10()).isCloseTo(5.8, within(1e-12));
        assertThat(d.q1()).isCloseTo(7.75, within(1e-12));
        assertThat(d.median()).isCloseTo(10.5, within(1e-12));
        assertThat(d.q3()).isCloseTo(16.5, within(1e-12));
        assertThat(d.p90()).isCloseTo(26.7, within(1e-12));
        assertThat(Quantiles.type7(x, 0)).isEqualTo(3);
        assertThat(Quantiles.type7(x, 1)).isEqualTo(40);
    }

    @Test
    void meanAndSpreadOfAShortTableByHand() {
        // logs of 1, 10, 100 are 0, L, 2L: mean L, sample SD L, so both geometric figures are 10
        Distribution d = Distribution.of(1, 10, 100);
        assertThat(d.geometricMean()).isCloseTo(10, within(1e-12));
        assertThat(d.geometricSd()).isCloseTo(10, within(1e-12));
        assertThat(d.mean()).isCloseTo(37, within(1e-12));
        // deviations -36, -27, 63: squares 1296 + 729 + 3969 = 5994; / 2 = 2997
        assertThat(d.sd()).isCloseTo(Math.sqrt(2997), within(1e-12));
    }

    @Test
    void aSingleValueHasNoSpreadAndZeroHasNoLog() {
        Distribution one = Distribution.of(5);
        assertThat(one.sd()).isNull();
        assertThat(one.geometricSd()).isNull();
        assertThat(one.geometricMean()).isCloseTo(5, within(1e-12));
        assertThat(one.p10()).isEqualTo(5);
        Distribution withZero = Distribution.of(0, 5);
        assertThat(withZero.geometricMean()).isNull();
        assertThat(withZero.mean()).isEqualTo(2.5);
    }

    @Test
    void nothingAndNonsenseAreRefused() {
        assertThatThrownBy(() -> Distribution.of()).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Distribution.of(1, Double.NaN)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Quantiles.type7(new double[] {1}, 1.5)).isInstanceOf(IllegalArgumentException.class);
    }
}
