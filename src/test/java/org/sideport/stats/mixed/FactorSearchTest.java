package org.sideport.stats.mixed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FactorSearchTest {

    /**
     * The deviance is stationary wherever a column of the factor is zero, so that a plain search from there would stay.
     * Criterion by lme4, src/test/oracle/mixed/mixed.R.
     */
    @ParameterizedTest
    @CsvSource({
        "sleepstudy, 0, 0, 0", "sleepstudy, 1, 0, 0", "sleepstudy, 0, 1, 0", "sleepstudy, 0, 0, 1",
        "sleepstudy, -1, 0.5, -1", "sleepstudy, 1, -0.5, -1", "sleepstudy, 50, 0, 0", "sleepstudy, 100, 100, 100",
        "sleepstudy, 0.001, 0, 0.001", "orthodont, 0, 0, 0", "orthodont, -3, 0, 3", "orthodont, 0, 0, 1",
        "oxboys, 0, 0, 0", "oxboys, 0, 0, 1", "oxboys, -100, 3, -0.01"
    })
    void everyStartLeadsToTheSameMinimum(String model, double first, double across, double second) {
        Deviance deviance = new Deviance(new CrossProducts(Reference.data(model)), Criterion.REML);
        FactorSearch.Found found = FactorSearch.search(deviance, new double[][] {{first, 0}, {across, second}});
        assertThat(found.converged()).isTrue();
        assertThat(found.deviance()).isCloseTo(Reference.of(model, "criterion"), within(2e-8));
        assertThat(deviance.profiled(found.factor())).isCloseTo(found.deviance(), within(1e-10));
        assertThat(found.factor()[0][0]).isNotNegative();
        assertThat(found.factor()[1][1]).isNotNegative();
        assertThat(found.factor()[0][1]).isZero();
    }

    @ParameterizedTest
    @CsvSource({"dyestuff, 0", "dyestuff, -2", "dyestuff, 30", "dyestuff2, 0", "dyestuff2, 5", "dyestuff2, -40"})
    void soItDoesWithOneRandomColumn(String model, double start) {
        Deviance deviance = new Deviance(new CrossProducts(Reference.data(model)), Criterion.REML);
        FactorSearch.Found found = FactorSearch.search(deviance, new double[][] {{start}});
        assertThat(found.converged()).isTrue();
        assertThat(found.deviance()).isCloseTo(Reference.of(model, "criterion"), within(1e-8));
        double ratio = Reference.of(model, "sd.1") / Reference.of(model, "sigma");
        assertThat(found.factor()[0][0]).isCloseTo(ratio, within(1e-6));
    }
}
