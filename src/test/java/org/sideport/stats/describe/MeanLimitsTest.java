package org.sideport.stats.describe;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;

class MeanLimitsTest {

    /**
     * NIST/SEMATECH e-Handbook 1.3.5.2, data ZARR13: N 195, mean 9.261460, SD 0.022789, 95 % limits 9.258242 and 9.264679
     * (from memory). One value at the mean and 97 one SD to each side have just that mean and SD.
     */
    @Test
    void limitsOfTheHandbook() {
        double[] values = new double[195];
        for (int i = 0; i < values.length; i++) {
            values[i] = 9.261460 + (i == 0 ? 0 : i <= 97 ? 0.022789 : -0.022789);
        }
        Estimate found = MeanLimits.of(values, 0.95).orElseThrow();
        assertThat(found.value()).isCloseTo(9.261460, within(1e-9));
        assertThat(found.limits().lower()).isCloseTo(9.258242, within(2e-6));
        assertThat(found.limits().upper()).isCloseTo(9.264679, within(2e-6));
        assertThat(found.n()).isEqualTo(195);
    }

    /** t with 2 degrees of freedom, 97.5 %: 4.3027 (any t table); 1 2 3 have SD 1. */
    @Test
    void threeValuesAreTheFewest() {
        Estimate found = MeanLimits.of(new double[] {1, 2, 3}, 0.95).orElseThrow();
        assertThat(found.limits().upper()).isCloseTo(2 + 4.3027 / Math.sqrt(3), within(1e-4));
        assertThat(MeanLimits.of(new double[] {1, 2}, 0.95)).isInstanceOf(Outcome.Refused.class);
        assertThat(MeanLimits.of(new double[] {2, 2, 2}, 0.95)).isInstanceOf(Outcome.Refused.class);
    }
}
