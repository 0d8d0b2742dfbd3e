package org.sideport.stats.casemix;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/** Against R: src/test/oracle/casemix/logistic.R (birthwt) and expected.R. */
class RiskCalibrationTest {

    private static final CaseOutcomes DATA = TestData.read("birthwt.csv");
    private double[] risk;

    @BeforeEach
    void fit() {
        risk = new LogisticRegression(LogisticMethod.MAXIMUM_LIKELIHOOD, 0.95, false)
                .fit(DATA)
                .orElseThrow()
                .risk();
    }

    @Test
    void tenthsAndChiSquareAgreeWithTheReference() {
        RiskCalibration found = RiskCalibration.of(risk, DATA.outcome(), true, 0.95);
        assertThat(found.groups())
                .extracting(RiskCalibration.Group::n)
                .containsExactly(19, 19, 19, 19, 19, 18, 19, 19, 19, 19);
        assertThat(found.groups())
                .extracting(RiskCalibration.Group::observed)
                .containsExactly(0, 2, 6, 1, 7, 7, 5, 7, 10, 14);
        double[] expected = {
            1.17660452351,
            2.02515494116,
            3.17006839046,
            4.30335595302,
            4.89247489090,
            5.32832169306,
            6.46307972504,
            8.08128563887,
            10.20006089997,
            13.35959334401
        };
        for (int g = 0; g < 10; g++) {
            assertThat(found.groups().get(g).expected()).isCloseTo(expected[g], within(1e-9));
        }
        assertThat(found.groups().get(0).from()).isCloseTo(0.0272, within(5e-5));
        assertThat(found.groups().get(0).to()).isLessThanOrEqualTo(0.0849);
        assertThat(found.groups().get(9).from()).isGreaterThan(0.591);
        assertThat(found.groups().get(9).to()).isCloseTo(0.839, within(5e-4));
        assertThat(found.hosmerLemeshow()).isCloseTo(10.3983356008, within(1e-8));
        assertThat(found.degreesOfFreedom()).isEqualTo(8);
        assertThat(found.p()).isCloseTo(0.238173103469, within(1e-9));
        assertThat(found.brier()).isCloseTo(0.179434725565, within(1e-11));
        assertThat(found.warnings()).hasSize(2);
    }

    /** A model with an intercept agrees with its own data: expected = observed, intercept 0, slope 1. */
    @Test
    void aModelAgreesWithItsOwnCases() {
        RiskCalibration found = RiskCalibration.of(risk, DATA.outcome(), true, 0.9);
        assertThat(found.events().observed()).isEqualTo(59);
        assertThat(found.events().expected()).isCloseTo(59, within(1e-9));
        assertThat(found.events().ratio().limits()).isNotNull();
        assertThat(found.events().ratio().limits().lower()).isCloseTo(0.795917689486, within(1e-9));
        assertThat(found.events().ratio().limits().upper()).isCloseTo(1.24209625068, within(1e-9));
        assertThat(found.events().ratio().warnings()).isEmpty();
        assertThat(found.inTheLarge()).isNotNull();
        assertThat(found.inTheLarge().estimate()).isCloseTo(0, within(1e-9));
        assertThat(found.slope()).isNotNull();
        assertThat(found.slope().estimate()).isCloseTo(1, within(1e-9));
    }

    /** The risks distorted by 0.4 + 0.7 log odds, refitted by glm. */
    @Test
    void distortedRisksAreFoundOut() {
        double[] distorted = Arrays.stream(risk)
                .map(p -> 1 / (1 + Math.exp(-(0.4 + 0.7 * Math.log(p / (1 - p))))))
                .toArray();
        RiskCalibration found = RiskCalibration.of(distorted, DATA.outcome(), false, 0.95);
        assertThat(found.inTheLarge()).isNotNull();
        assertThat(found.inTheLarge().estimate()).isCloseTo(-0.607770351437, within(1e-9));
        assertThat(found.inTheLarge().se()).isCloseTo(0.165100406523, within(1e-9));
        assertThat(found.inTheLarge().pWald()).isCloseTo(0.000232123734249, within(1e-11));
        assertThat(found.slope()).isNotNull();
        assertThat(found.slope().estimate()).isCloseTo(1 / 0.7, within(1e-9));
        assertThat(found.slope().se()).isCloseTo(0.281993970795, within(1e-8));
        assertThat(found.degreesOfFreedom()).isEqualTo(10);
        assertThat(found.warnings()).noneMatch(w -> w.contains("same cases"));
    }

    @Test
    void fewOrEqualRisksGiveNoChiSquare() {
        RiskCalibration found =
                RiskCalibration.of(new double[] {0.1, 0.1, 0.2, 0.2}, new double[] {0, 0, 0, 0}, false, 0.95);
        assertThat(found.groups()).hasSize(2);
        assertThat(found.groups().get(1)).isEqualTo(new RiskCalibration.Group(0.2, 0.2, 2, 0, 0.4));
        assertThat(found.hosmerLemeshow()).isNull();
        assertThat(found.degreesOfFreedom()).isNull();
        assertThat(found.p()).isNull();
        assertThat(found.inTheLarge()).isNull();
        assertThat(found.slope()).isNull();
        assertThat(found.brier()).isCloseTo((0.01 + 0.04) / 2, within(1e-15));
        assertThat(found.warnings()).singleElement().asString().contains("Only 0.6 events");
        assertThat(RiskCalibration.of(new double[] {0.1, 0.2}, new double[] {1, 1}, false, 0.95)
                        .inTheLarge())
                .isNull();
    }

    @Test
    void threeGroupsAreEnoughForAChiSquare() {
        double[] risk = new double[60];
        double[] outcome = new double[60];
        for (int i = 0; i < 60; i++) {
            risk[i] = 0.25 * (1 + i / 20);
            outcome[i] = i % 2;
        }
        RiskCalibration found = RiskCalibration.of(risk, outcome, false, 0.95);
        assertThat(found.groups()).hasSize(3);
        // 10 observed of 20 in each: (10-5)²/5 + (10-5)²/15 twice
        assertThat(found.hosmerLemeshow()).isCloseTo(2 * (25 / 5.0 + 25 / 15.0), within(1e-12));
        assertThat(found.degreesOfFreedom()).isEqualTo(3);
        assertThat(found.warnings()).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({"2, 0.96832138875, 0.22799872", "0, 0.30173826375, 1", "7, 1, 3.75000019925e-09"})
    void exactChanceOfSoManyEvents(int observed, double atMost, double atLeast) {
        double[] risk = {.01, .02, .03, .10, .25, .05, .5};
        double[] outcome = new double[7];
        Arrays.fill(outcome, 0, observed, 1);
        ExpectedEvents found = ExpectedEvents.of(risk, outcome, 0.95);
        assertThat(found.n()).isEqualTo(7);
        assertThat(found.observed()).isEqualTo(observed);
        assertThat(found.expected()).isCloseTo(0.96, within(1e-12));
        assertThat(found.sd()).isCloseTo(0.795989949685, within(1e-11));
        assertThat(found.atMost()).isCloseTo(atMost, within(1e-11));
        assertThat(found.atLeast()).isCloseTo(atLeast, within(1e-14));
    }

    @Test
    void exactChanceAmongManyCases() {
        double[] risk = new double[200];
        double[] outcome = new double[200];
        for (int i = 0; i < 200; i++) {
            risk[i] = (i + 1) / 1000.0;
            outcome[i] = i < 30 ? 1 : 0;
        }
        ExpectedEvents found = ExpectedEvents.of(risk, outcome, 0.95);
        assertThat(found.atMost()).isCloseTo(0.991073169146, within(1e-11));
        assertThat(found.atLeast()).isCloseTo(0.0155921568018, within(1e-11));
        assertThat(found.ratio().value()).isCloseTo(30 / 20.1, within(1e-12));
        assertThat(found.ratio().se()).isCloseTo(Math.sqrt(30) / 20.1, within(1e-12));
    }

    /** R's poisson.test with 4.2 expected. */
    @ParameterizedTest
    @CsvSource({"0, 0, 0.878304631932", "5, 0.3865443786, 2.7781743046"})
    void exactLimitsOfTheRatio(int observed, double lower, double upper) {
        double[] risk = new double[42];
        Arrays.fill(risk, 0.1);
        double[] outcome = new double[42];
        Arrays.fill(outcome, 0, observed, 1);
        Estimate ratio = ExpectedEvents.of(risk, outcome, 0.95).ratio();
        assertThat(ratio.limits()).isNotNull();
        assertThat(ratio.limits().lower()).isCloseTo(lower, within(1e-10));
        assertThat(ratio.limits().upper()).isCloseTo(upper, within(1e-10));
        assertThat(ratio.n()).isEqualTo(42);
        assertThat(ratio.se() == null).isEqualTo(observed == 0);
        assertThat(ratio.warnings()).singleElement().asString().contains("Only 4.2 events are expected among 42 cases");
    }

    @Test
    void impossibleRisksAreProgrammingErrors() {
        for (double bad : new double[] {0, 1, Double.NaN}) {
            assertThatThrownBy(() -> ExpectedEvents.of(new double[] {bad}, new double[] {0}, 0.95))
                    .hasMessageContaining("between 0 and 1");
        }
        assertThatThrownBy(() -> ExpectedEvents.of(new double[0], new double[0], 0.95))
                .hasMessageContaining("0 risks");
        assertThatThrownBy(() -> ExpectedEvents.of(new double[] {0.5}, new double[0], 0.95))
                .hasMessageContaining("1 risks for 0 outcomes");
        assertThatThrownBy(() -> ExpectedEvents.of(new double[] {0.5}, new double[] {0.5}, 0.95))
                .hasMessageContaining("0 or 1");
    }

    /** pROC: area and DeLong's limits. */
    @Test
    void concordanceAgreesWithTheReference() {
        Estimate c = ConcordanceStatistic.of(risk, DATA.outcome(), 0.95).orElseThrow();
        assertThat(c.value()).isCloseTo(0.746088657106, within(1e-11));
        assertThat(c.se()).isCloseTo(0.0375566295746, within(1e-11));
        assertThat(c.limits()).isNotNull();
        assertThat(c.limits().lower()).isCloseTo(0.672479016, within(1e-9));
        assertThat(c.limits().upper()).isCloseTo(0.819698298, within(1e-9));
        assertThat(c.n()).isEqualTo(189);
        assertThat(c.warnings()).isEmpty();
    }

    /** By counting pairs: 3 events × 2 others, 4 in order, 1 tie. */
    @Test
    void concordanceCountsPairs() {
        Estimate c = ConcordanceStatistic.of(new double[] {3, 1, 2, 4, 2}, new double[] {1, 0, 1, 1, 0}, 0.95)
                .orElseThrow();
        assertThat(c.value()).isCloseTo(5.5 / 6, within(1e-15));
        // DeLong: placements of events 1, .5+.. : (1, .75, 1), of others (1, 5/6)
        double se =
                Math.sqrt((2 * Math.pow(1 / 12.0, 2) + Math.pow(1 / 6.0, 2)) / 2 / 3 + 2 * Math.pow(1 / 12.0, 2) / 2);
        assertThat(c.se()).isCloseTo(se, within(1e-14));
        assertThat(c.limits()).isNotNull();
        assertThat(c.limits().upper()).isEqualTo(1);
        assertThat(c.warnings()).singleElement().asString().contains("Only 2 cases");
        Estimate low = ConcordanceStatistic.of(new double[] {3, 1, 2, 4, 2}, new double[] {0, 1, 0, 0, 1}, 0.95)
                .orElseThrow();
        assertThat(low.value()).isCloseTo(0.5 / 6, within(1e-15));
        assertThat(low.limits()).isNotNull();
        assertThat(low.limits().lower()).isZero();
    }

    @Test
    void concordanceNeedsBothOutcomes() {
        Outcome<Estimate> none = ConcordanceStatistic.of(new double[] {1, 2}, new double[] {1, 1}, 0.95);
        assertThat(((Outcome.Refused<Estimate>) none).refusal().reason()).isEqualTo(Refusal.Reason.NO_VARIATION);
        assertThat(((Outcome.Refused<Estimate>) none).refusal().why())
                .isEqualTo("all of the 2 cases had the same outcome");
        assertThat(ConcordanceStatistic.of(new double[] {1, 2}, new double[] {0, 0}, 0.95))
                .isInstanceOf(Outcome.Refused.class);
        Estimate once = ConcordanceStatistic.of(new double[] {1, 2, 3}, new double[] {0, 0, 1}, 0.95)
                .orElseThrow();
        assertThat(once.value()).isEqualTo(1);
        assertThat(once.se()).isNull();
        assertThat(once.limits()).isNull();
        Estimate alone = ConcordanceStatistic.of(new double[] {1, 2, 3}, new double[] {1, 0, 1}, 0.95)
                .orElseThrow();
        assertThat(alone.value()).isEqualTo(0.5);
        assertThat(alone.se()).isNull();
    }

    @Test
    void tenOfTheRarerOutcomeAreEnough() {
        for (int events : new int[] {9, 10}) {
            double[] risks = new double[30];
            double[] outcome = new double[30];
            double[] turned = new double[30];
            for (int i = 0; i < 30; i++) {
                risks[i] = (i * 7 % 30 + 1) / 40.0;
                outcome[i] = i < events ? 1 : 0;
                turned[i] = 1 - outcome[i];
            }
            int expected = events < 10 ? 1 : 0;
            assertThat(ConcordanceStatistic.of(risks, outcome, 0.95)
                            .orElseThrow()
                            .warnings())
                    .hasSize(expected);
            assertThat(ConcordanceStatistic.of(risks, turned, 0.95)
                            .orElseThrow()
                            .warnings())
                    .hasSize(expected);
        }
        assertThatThrownBy(() -> ConcordanceStatistic.of(new double[] {1}, new double[] {0.5}, 0.95))
                .hasMessageContaining("0 or 1");
    }

    @Test
    void fiveExpectedEventsAreEnough() {
        for (int n : new int[] {9, 10}) {
            double[] risks = new double[n];
            Arrays.fill(risks, 0.5);
            assertThat(ExpectedEvents.of(risks, new double[n], 0.95).ratio().warnings())
                    .hasSize(n < 10 ? 1 : 0);
        }
    }
}
