package org.sideport.stats.gtheory;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CutScoreTest {

    private static DStudy.Coefficients coefficients(double universe, double error) {
        double phi = universe / (universe + error);
        return new DStudy.Coefficients(universe, error, error, phi, phi, Math.sqrt(error), Math.sqrt(error));
    }

    /** R mvtnorm 1.1.3, src/test/oracle/gtheory/cutscore.R. */
    @ParameterizedTest
    @CsvSource({
        "77, 23, 70, 0, 60, 0.885000000, 0.869154173, 0.907719917, 0.841344746",
        "4, 1, 10, 0, 10, 0.800000000, 0.795167235, 0.852416382, 0.500000000",
        "1, 3, 3, 0.2, 3.1, 0.250000000, 0.581046566, 0.667354967, 0.480061194",
        "0.5, 0.01, 2, 0.1, 3.2, 0.994594595, 0.984683618, 0.989202520, 0.046445970",
        "2, 0.7, 0, 0, -1.3, 0.840546697, 0.831064940, 0.879697638, 0.785573169"
    })
    void agreesWithR(
            double universe,
            double error,
            double mean,
            double meanVariance,
            double cut,
            double phiLambda,
            double consistency,
            double accuracy,
            double passRate) {
        CutScore score = CutScore.of(coefficients(universe, error), mean, meanVariance, cut);
        assertThat(score.phiLambda()).isCloseTo(phiLambda, within(1e-9));
        assertThat(score.consistency()).isCloseTo(consistency, within(2e-9));
        assertThat(score.accuracy()).isCloseTo(accuracy, within(2e-9));
        assertThat(score.passRate()).isCloseTo(passRate, within(1e-9));
    }

    /** Sheppard 1899: both below the mean with probability 1/4 + asin(r) / 2 pi. */
    @ParameterizedTest
    @CsvSource({"0", ".3", ".5", ".9", ".999"})
    void quadrantsFollowSheppard(double r) {
        assertThat(CutScore.bothBelow(0, 0, r)).isCloseTo(.25 + Math.asin(r) / (2 * Math.PI), within(1e-12));
    }

    @Test
    void withoutErrorDecisionsAreSafe() {
        CutScore score = CutScore.of(coefficients(4, 0), 10, 0, 12);
        assertThat(score.consistency()).isCloseTo(1, within(1e-12));
        assertThat(score.accuracy()).isCloseTo(1, within(1e-12));
        assertThat(score.phiLambda()).isEqualTo(1);
        assertThat(CutScore.bothBelow(1, -.5, 1))
                .isCloseTo(new NormalDistribution().cumulativeProbability(-.5), within(1e-15));
    }

    /** Brennan & Kane 1977: at the mean Φ(λ) is Φ, its least. */
    @Property(tries = 100)
    void phiLambdaIsLeastAtTheMeanAndAccuracyExceedsConsistency(
            @ForAll @DoubleRange(min = .1, max = 5) double universe,
            @ForAll @DoubleRange(min = .1, max = 5) double error,
            @ForAll @DoubleRange(min = -4, max = 4) double cut) {
        DStudy.Coefficients c = coefficients(universe, error);
        CutScore score = CutScore.of(c, 0, 0, cut);
        assertThat(score.phiLambda()).isBetween(c.phi(), 1.0);
        assertThat(CutScore.of(c, cut, 0.5, cut).phiLambda()).isCloseTo(c.phi(), within(1e-12));
        assertThat(score.accuracy()).isGreaterThan(score.consistency() - 1e-12).isLessThanOrEqualTo(1 + 1e-12);
        assertThat(score.consistency()).isGreaterThanOrEqualTo(.5 - 1e-12);
    }
}
