package org.sideport.stats.agreement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/** Against vcd 1.4.11 (src/test/oracle/agreement/kappa.R) and printed tables. */
class CohenKappaTest {

    /** Levels 2, 3, 4, 5 of two assessors, 40 markings; agreement .675. */
    private static final int[][] LEVELS = {{4, 2, 0, 0}, {1, 6, 3, 0}, {0, 2, 9, 2}, {0, 0, 3, 8}};

    /** Agresti 1990, Categorical Data Analysis, table 2.10 (R data set SexualFun). */
    private static final int[][] COUPLES = {{7, 7, 2, 3}, {2, 8, 3, 7}, {1, 5, 4, 9}, {2, 8, 9, 14}};

    /** Landis & Koch 1977, Biometrics 33:159 (R data set MSPatients, first table). */
    private static final int[][] NEUROLOGISTS = {{38, 5, 0, 1}, {33, 11, 3, 0}, {10, 14, 5, 6}, {3, 7, 3, 10}};

    private static int[][] table(String name) {
        return switch (name) {
            case "levels" -> LEVELS;
            case "couples" -> COUPLES;
            default -> NEUROLOGISTS;
        };
    }

    @ParameterizedTest
    @CsvSource({
        "levels, NONE, .553648068670, .102863854102, .352038619319, .755257518020",
        "levels, LINEAR, .704545454545, .073660855194, .560172831295, .848918077796",
        "levels, QUADRATIC, .836477987421, .046189782729, .745947676820, .927008298023",
        "couples, NONE, .129330254042, .068598532481, -.005120399013, .263780907096",
        "couples, LINEAR, .237380627558, .078316334778, .083883431991, .390877823125",
        "couples, QUADRATIC, .332045586247, .097297521959, .141345947423, .522745225071",
        "neurologists, NONE, .207942464040, .050455365241, .109051765341, .306833162739",
        "neurologists, LINEAR, .379730547987, .051666826218, .278465429403, .480995666570",
        "neurologists, QUADRATIC, .524576464332, .060055098832, .406870633534, .642282295130",
    })
    void kappaErrorAndLimitsAreThoseOfR(
            String name, KappaWeights weights, double value, double se, double lower, double upper) {
        Kappa kappa = CohenKappa.of(table(name), weights.of(new double[] {2, 3, 4, 5}), name, 0.95)
                .orElseThrow();
        assertThat(kappa.estimate().value()).isCloseTo(value, within(1e-11));
        assertThat(kappa.estimate().se()).isCloseTo(se, within(1e-11));
        assertThat(kappa.estimate().limits().lower()).isCloseTo(lower, within(1e-9));
        assertThat(kappa.estimate().limits().upper()).isCloseTo(upper, within(1e-9));
    }

    /** By R vcd and by hand: agreement .675, kappa .553648, linear .704545, quadratic .836478, N 40. */
    @Test
    void agreementAndCountAreReported() {
        Kappa kappa = CohenKappa.of(LEVELS, KappaWeights.NONE.of(new double[] {2, 3, 4, 5}), "kappa", 0.95)
                .orElseThrow();
        assertThat(kappa.observed()).isCloseTo(.675, within(1e-12));
        // margins 6 10 13 11 and 5 10 15 10: (30 + 100 + 195 + 110) / 1600
        assertThat(kappa.expected()).isCloseTo(435.0 / 1600, within(1e-12));
        assertThat(kappa.estimate().n()).isEqualTo(40);
        assertThat(kappa.estimate().method()).isEqualTo("kappa");
        assertThat(kappa.estimate().warnings()).isEmpty();
    }

    /** Published with Gwet's program for the 3 × 3 table of abstractors: kappa .7964094. */
    @Test
    void theTableOfTheAbstractorsGivesThePublishedKappa() {
        int[][] table = {{13, 0, 0}, {0, 20, 7}, {0, 4, 56}};
        Kappa kappa = CohenKappa.of(table, KappaWeights.NONE.of(new double[] {1, 2, 3}), "kappa", 0.95)
                .orElseThrow();
        assertThat(kappa.estimate().value()).isCloseTo(.7964094, within(5e-8));
        assertThat(kappa.estimate().se()).isCloseTo(.05891072, within(5e-9));
    }

    /**
     * Fleiss, Levin & Paik 2003, Statistical Methods for Rates and Proportions, equation 18.12, by hand for
     * {{40, 10}, {20, 30}}: kappa .4, null variance (pₑ + pₑ² − Σ p q (p + q)) ⁄ (n (1 − pₑ)²) with pₑ = .5 and
     * Σ = .6·.5·1.1 + .4·.5·.9 = .51.
     */
    @Test
    void theErrorUnderNoAgreementServesTheTest() {
        Kappa kappa = CohenKappa.of(
                        new int[][] {{40, 10}, {20, 30}}, KappaWeights.NONE.of(new double[] {1, 2}), "kappa", 0.95)
                .orElseThrow();
        assertThat(kappa.estimate().value()).isCloseTo(.4, within(1e-12));
        assertThat(kappa.nullSe()).isCloseTo(Math.sqrt((.5 + .25 - .51) / 25), within(1e-12));
    }

    @Test
    void scoresOfAMatrixAreTabulatedAndGapsPassedOver() {
        double na = Double.NaN;
        RatingMatrix matrix = RatingMatrix.of(new double[][] {{2, 3}, {na, 4}, {4, 4}, {5, na}, {2, 2}, {4, 3}});
        Kappa kappa = CohenKappa.of(matrix, new double[] {2, 3, 4, 5}, KappaWeights.LINEAR, 0.95)
                .orElseThrow();
        // pairs 2-3, 4-4, 2-2, 4-3: weights 2/3, 1, 1, 2/3
        assertThat(kappa.observed()).isCloseTo((2.0 / 3 + 1 + 1 + 2.0 / 3) / 4, within(1e-12));
        assertThat(kappa.estimate().n()).isEqualTo(4);
        assertThat(kappa.estimate().method()).isEqualTo("Cohen's kappa, linear weights");
        assertThat(kappa.estimate().warnings()).singleElement().asString().contains("only 4 subjects");
        assertThatThrownBy(() -> CohenKappa.of(matrix, new double[] {2, 4, 5}, KappaWeights.LINEAR, 0.95))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("3.0");
    }

    @ParameterizedTest
    @CsvSource({"NONE, Cohen's kappa", "QUADRATIC, 'Cohen''s kappa, quadratic weights'"})
    void theMethodNamesItsWeights(KappaWeights weights, String name) {
        RatingMatrix matrix = RatingMatrix.of(new double[][] {{1, 2}, {2, 2}, {1, 1}});
        assertThat(CohenKappa.of(matrix, new double[] {1, 2}, weights, 0.95)
                        .orElseThrow()
                        .estimate()
                        .method())
                .isEqualTo(name);
    }

    private static Refusal refusal(Outcome<?> outcome) {
        return ((Outcome.Refused<?>) outcome).refusal();
    }

    @Test
    void whatCannotBeComputedIsRefused() {
        double[][] two = KappaWeights.NONE.of(new double[] {1, 2});
        assertThat(refusal(CohenKappa.of(new int[][] {{0, 0}, {0, 0}}, two, "k", 0.95))
                        .why())
                .isEqualTo("no subject was marked by both raters");
        assertThat(refusal(CohenKappa.of(new int[][] {{1, 0}, {0, 0}}, two, "k", 0.95))
                        .why())
                .isEqualTo("only 1 subject was marked by both raters");
        assertThat(refusal(CohenKappa.of(new int[][] {{9, 0}, {0, 0}}, two, "k", 0.95))
                        .reason())
                .isEqualTo(Refusal.Reason.NO_VARIATION);
        RatingMatrix three = RatingMatrix.of(new double[][] {{1, 2, 1}, {2, 2, 2}});
        assertThat(refusal(CohenKappa.of(three, new double[] {1, 2}, KappaWeights.NONE, 0.95))
                        .why())
                .contains("there are 3 raters");
    }

    /** With n + n scores the limits cannot be given where nobody disagreed, and never leave −1 to 1. */
    @Test
    void perfectAgreementHasNoLimitsAndOthersStayWithinBounds() {
        double[][] two = KappaWeights.NONE.of(new double[] {1, 2});
        Kappa perfect =
                CohenKappa.of(new int[][] {{5, 0}, {0, 4}}, two, "k", 0.95).orElseThrow();
        assertThat(perfect.estimate().value()).isEqualTo(1);
        assertThat(perfect.estimate().limits()).isNull();
        Kappa rough =
                CohenKappa.of(new int[][] {{2, 0}, {1, 2}}, two, "k", 0.999).orElseThrow();
        assertThat(rough.estimate().limits().upper()).isEqualTo(1);
        Kappa opposite =
                CohenKappa.of(new int[][] {{0, 2}, {2, 1}}, two, "k", 0.9999).orElseThrow();
        assertThat(opposite.estimate().limits().lower()).isEqualTo(-1);
    }

    /**
     * Fleiss & Cohen 1973, Educational and Psychological Measurement 33:613: with quadratic weights kappa is the
     * intraclass correlation ICC(2,1), apart from terms of order 1/n.
     */
    @Test
    void quadraticKappaIsTheIntraclassCorrelationOfManySubjects() {
        SplittableRandom random = new SplittableRandom(11);
        double[][] scores = new double[20_000][2];
        for (double[] row : scores) {
            double truth = random.nextDouble(1, 5);
            row[0] = Math.rint(Math.min(5, Math.max(1, truth + random.nextGaussian())));
            row[1] = Math.rint(Math.min(5, Math.max(1, truth - 0.5 + random.nextGaussian())));
        }
        RatingMatrix matrix = RatingMatrix.of(scores);
        double icc = Icc.ofComplete(matrix, 0.95)
                .orElseThrow()
                .get(IccForm.ICC_2_1)
                .estimate()
                .value();
        double kappa = CohenKappa.of(matrix, matrix.values(), KappaWeights.QUADRATIC, 0.95)
                .orElseThrow()
                .estimate()
                .value();
        assertThat(kappa).isCloseTo(icc, within(5e-5));
    }
}
