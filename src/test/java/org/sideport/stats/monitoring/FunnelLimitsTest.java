package org.sideport.stats.monitoring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.stats.Interval;

/** The formula of Spiegelhalter 2005 (Statistics in Medicine 24:1185, appendix A.1.1), worked out elsewhere. */
class FunnelLimitsTest {

    /**
     * With SciPy 1.17.1: r = binom.ppf(p, n, t), (r − (binom.cdf(r, n, t) − p) / binom.pmf(r, n, t)) / n; below 0 cut off.
     */
    @ParameterizedTest
    @CsvSource({
        "0.05, 20, 0, 0.1423647650, 0, 0.2350598787",
        "0.05, 100, 0.0061229314, 0.0919073440, 0, 0.1246384954",
        "0.0244, 287, 0.0064444101, 0.0419306905, 0.0000968354, 0.0552380408",
        "0.1, 50, 0.0138629270, 0.1797227276, 0, 0.2401284188"
    })
    void limitsAreThoseOfTheFormula(double target, int n, double low95, double high95, double low998, double high998) {
        Interval inner = FunnelLimits.at(target, n, 0.95);
        Interval outer = FunnelLimits.at(target, n, 0.998);
        assertThat(inner.lower()).isCloseTo(low95, within(1e-9));
        assertThat(inner.upper()).isCloseTo(high95, within(1e-9));
        assertThat(outer.lower()).isCloseTo(low998, within(1e-9));
        assertThat(outer.upper()).isCloseTo(high998, within(1e-9));
    }

    /** In exact fractions (Python's fractions.Fraction): 10 cases at 1/10. */
    @Test
    void tenCasesInFractions() {
        assertThat(FunnelLimits.at(0.1, 10, 0.95).upper()).isCloseTo(0.27873565979624787, within(1e-10));
        assertThat(FunnelLimits.at(0.1, 10, 0.998).upper()).isCloseTo(0.442669526277208, within(1e-10));
    }

    /** What limits are for: of people at the unit's rate, about as many lie outside as the level says. */
    @Test
    void fewLieOutsideByChance() {
        java.util.Random random = new java.util.Random(7);
        int outside = 0;
        int people = 20_000;
        for (int i = 0; i < people; i++) {
            int failures = 0;
            for (int c = 0; c < 200; c++) {
                failures += random.nextDouble() < 0.1 ? 1 : 0;
            }
            outside += FunnelLimits.at(0.1, 200, 0.95).contains(failures / 200.0) ? 0 : 1;
        }
        // 5 % but for whole numbers: one count's probability on either side, 1.4 % at most
        assertThat(outside / (double) people).isBetween(0.03, 0.065);
    }
}
