package org.sideport.stats.agreement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/** Against R psych 2.2.9, src/test/oracle/agreement/icc.R. */
class CronbachAlphaTest {

    @Test
    void attitudeGivesTheFiguresOfR() {
        CronbachAlpha.Result result =
                CronbachAlpha.of(RatingMatrix.of(OpenData.attitude()), 0.95).orElseThrow();
        assertThat(result.estimate().value()).isCloseTo(.843142769565, within(1e-11));
        assertThat(result.estimate().limits().lower()).isCloseTo(.739375685643, within(1e-9));
        assertThat(result.estimate().limits().upper()).isCloseTo(.915773072160, within(1e-9));
        assertThat(result.estimate().n()).isEqualTo(30);
        assertThat(result.estimate().warnings()).isEmpty();
        double[] without = {
            .809760206309, .796917457274, .827847765939, .803030975023, .795386574198, .863872311446, .840464868265
        };
        double[] rest = {
            .671262057224, .742109710222, .560711111480, .714445498134, .786275593834, .265034339197, .460810549468
        };
        double[] mean = {64.6333333333, 66.6, 53.1333333333, 56.3666666667, 64.6333333333, 74.7666666667, 42.9333333333
        };
        double[] sd = {
            12.17256194759,
            13.31475717468,
            12.23542999352,
            11.73701287655,
            10.39722553620,
            9.89490754895,
            10.28870600534
        };
        for (int j = 0; j < 7; j++) {
            CronbachAlpha.Item item = result.items().get(j);
            assertThat(item.name()).isEqualTo(String.valueOf(j + 1));
            assertThat(item.alphaWithout()).isCloseTo(without[j], within(1e-11));
            assertThat(item.restCorrelation()).isCloseTo(rest[j], within(1e-11));
            assertThat(item.mean()).isCloseTo(mean[j], within(1e-9));
            assertThat(item.sd()).isCloseTo(sd[j], within(1e-10));
        }
    }

    /** Shrout & Fleiss 1979: ICC(3,4) .91, the same as alpha. */
    @Test
    void alphaIsIccOfTheMean() {
        CronbachAlpha.Result result =
                CronbachAlpha.of(RatingMatrix.of(OpenData.shroutFleiss()), 0.95).orElseThrow();
        assertThat(result.estimate().value()).isCloseTo(.9093155424, within(1e-10));
        assertThat(result.estimate().warnings())
                .anyMatch(w -> w.startsWith("There are only 6 subjects: the limits are wide"));
    }

    @Test
    void subjectsWithAMissingItemAreLeftOutAndCounted() {
        double[][] scores = Arrays.copyOf(OpenData.attitude(), 32);
        scores[30] = new double[] {1, 1, 1, 1, 1, 1, Double.NaN};
        scores[31] = new double[] {Double.NaN, 1, 1, 1, 1, 1, 1};
        CronbachAlpha.Result two =
                CronbachAlpha.of(RatingMatrix.of(scores), 0.95).orElseThrow();
        assertThat(two.estimate().value()).isCloseTo(.843142769565, within(1e-11));
        assertThat(two.estimate().warnings()).containsExactly("2 subjects are left out because of missing items.");
        CronbachAlpha.Result one = CronbachAlpha.of(RatingMatrix.of(Arrays.copyOf(scores, 31)), 0.95)
                .orElseThrow();
        assertThat(one.estimate().warnings()).containsExactly("1 subject is left out because of missing items.");
    }

    @Test
    void anItemThatDoesNotVaryHasNoCorrelation() {
        CronbachAlpha.Result result = CronbachAlpha.of(
                        RatingMatrix.of(new double[][] {{1, 4, 2}, {2, 4, 3}, {3, 4, 3}, {4, 4, 5}}), 0.95)
                .orElseThrow();
        assertThat(result.items().get(1).restCorrelation()).isNull();
        assertThat(result.items().get(1).sd()).isZero();
        // without the constant: items 1 2 3 4 and 2 3 3 5: 2 (1 − (5/3 + 19/12) ⁄ var(3 5 6 9)), var 6.25
        assertThat(result.items().get(1).alphaWithout())
                .isCloseTo(2 * (1 - (5.0 / 3 + 19.0 / 12) / 6.25), within(1e-12));
        CronbachAlpha.Result two = CronbachAlpha.of(
                        RatingMatrix.of(new double[][] {{1, 2}, {2, 3}, {3, 3}, {4, 5}}), 0.95)
                .orElseThrow();
        assertThat(two.items().get(0).alphaWithout()).isNull();
        assertThat(two.items().get(0).restCorrelation()).isNotNull();
    }

    @Test
    void whatCannotBeComputedIsRefused() {
        assertThat(reason(new double[][] {{1, 2}, {2, 3}})).isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(reason(new double[][] {{1}, {2}, {3}})).isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(reason(new double[][] {{1, 3}, {2, 2}, {3, 1}})).isEqualTo(Refusal.Reason.NO_VARIATION);
    }

    private static Refusal.Reason reason(double[][] scores) {
        return ((Outcome.Refused<?>) CronbachAlpha.of(RatingMatrix.of(scores), 0.95))
                .refusal()
                .reason();
    }
}
