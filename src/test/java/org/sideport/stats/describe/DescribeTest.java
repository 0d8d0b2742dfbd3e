package org.sideport.stats.describe;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/** Figures marked R are by R 4.2.2, src/test/oracle/describe/describe.R. */
class DescribeTest {

    /** The example with which Neumaier's sum is told from Kahan's: exactly 2, a plain sum gives 0. */
    @Test
    void aSumKeepsSmallTermsBesideLargeOnes() {
        assertThat(ExactSum.of(1, 1e100, 1, -1e100).value()).isEqualTo(2);
        assertThat(ExactSum.of(1e100, 1, -1e100, 1).value()).isEqualTo(2);
        double[] tenths = new double[1_000_000];
        java.util.Arrays.fill(tenths, 0.1);
        // a million times the double nearest to 0.1, rounded once
        assertThat(ExactSum.of(tenths).value())
                .isEqualTo(new java.math.BigDecimal(0.1)
                        .multiply(java.math.BigDecimal.valueOf(1_000_000))
                        .doubleValue());
        assertThat(ExactSum.of().value()).isZero();
    }

    /** (2²⁷ + 1)² = 2⁵⁴ + 2²⁸ + 1 needs 55 bits; a double has 53. */
    @Test
    void aProductKeepsItsLastDigits() {
        double a = 134_217_729;
        ExactSum sum = new ExactSum();
        sum.addProduct(a, a);
        sum.add(-18_014_398_509_481_984.0);
        sum.add(-268_435_456);
        assertThat(sum.value()).isEqualTo(1);
    }

    @Test
    void aSeriesWithoutSpreadHasNoAutocorrelation() {
        assertThat(Moments.of(4, 4, 4)).isEqualTo(new Moments(3, 4, 0.0, null));
        assertThat(Moments.of(4)).isEqualTo(new Moments(1, 4, null, null));
        // deviations −1, 0, 1: products 0 of squares 2
        assertThat(Moments.of(1, 2, 3)).isEqualTo(new Moments(3, 2, 1.0, 0.0));
        assertThatThrownBy(() -> Moments.of()).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Moments.of(1, Double.POSITIVE_INFINITY)).isInstanceOf(IllegalArgumentException.class);
    }

    /** R, aov on three groups of unequal size. */
    @Test
    void analysisOfVarianceOfUnequalGroupsAgreesWithR() {
        OneWayAnova anova = OneWayAnova.of(
                        List.of(new double[] {6.1, 5.9, 7.2, 6.6}, new double[] {8.1, 7.7, 9.0}, new double[] {
                            5.0, 5.5, 6.1, 4.9, 5.2
                        }))
                .orElseThrow();
        assertThat(anova.dfBetween()).isEqualTo(2);
        assertThat(anova.dfWithin()).isEqualTo(9);
        assertThat(anova.ssBetween()).isCloseTo(16.0605, within(1e-12));
        assertThat(anova.ssWithin()).isCloseTo(2.82866666666667, within(1e-12));
        assertThat(anova.f()).isCloseTo(25.5499351873674, within(1e-11));
        assertThat(anova.p()).isCloseTo(0.000194607862975603, within(1e-15));
        assertThat(anova.rSquared()).isCloseTo(16.0605 / 18.8891666666667, within(1e-12));
    }

    @Test
    void analysisOfVarianceRefusesWhatItCannotAnswer() {
        assertThat(reason(OneWayAnova.of(List.of(new double[] {1, 2})))).isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(reason(OneWayAnova.of(List.of(new double[] {1}, new double[] {2}))))
                .isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(reason(OneWayAnova.of(List.of(new double[] {1, 1}, new double[] {2, 2}))))
                .isEqualTo(Refusal.Reason.NO_VARIATION);
        OneWayAnova smallest =
                OneWayAnova.of(List.of(new double[] {1}, new double[] {2, 4})).orElseThrow();
        assertThat(smallest.dfWithin()).isEqualTo(1);
        // means 1 and 3, grand mean 7/3: 16/9 + 2·4/9 = 24/9; within 2
        assertThat(smallest.ssBetween()).isCloseTo(24.0 / 9, within(1e-14));
        assertThat(smallest.ssWithin()).isEqualTo(2);
        OneWayAnova alike = OneWayAnova.of(List.of(new double[] {1, 3}, new double[] {1, 3}))
                .orElseThrow();
        assertThat(alike.f()).isZero();
        assertThat(alike.p()).isEqualTo(1);
        assertThatThrownBy(() -> OneWayAnova.of(List.of(new double[0], new double[] {1, 2})))
                .isInstanceOf(IllegalArgumentException.class);
    }

    /** Newcombe 1998, Statistics in Medicine 17:857, table I, methods 3 and 5 (four decimals); further digits by R. */
    @ParameterizedTest
    @CsvSource({
        "81, 263, 0.255288519878274, 0.3662095769828, 0.252736745585271, 0.367621922601351",
        "15, 148, 0.0623863995307363, 0.160487241723308, 0.0578440100834486, 0.161650490349479",
        "0, 20, 0, 0.161125158052819, 0, 0.168433470983085",
        "1, 29, 0.00611321429276266, 0.171755218793203, 0.000872646883579923, 0.177644295488723",
        "20, 20, 0.838874841947181, 1, 0.831566529016915, 1"
    })
    void limitsOfAShareAgreeWithNewcombesTable(
            int count, int n, double wilsonLow, double wilsonHigh, double exactLow, double exactHigh) {
        Interval wilson = BinomialLimits.WILSON.of(count, n, 0.95);
        Interval exact = BinomialLimits.CLOPPER_PEARSON.of(count, n, 0.95);
        assertThat(wilson.lower()).isCloseTo(wilsonLow, within(1e-9));
        assertThat(wilson.upper()).isCloseTo(wilsonHigh, within(1e-9));
        assertThat(exact.lower()).isCloseTo(exactLow, within(1e-9));
        assertThat(exact.upper()).isCloseTo(exactHigh, within(1e-9));
        assertThat(wilson.level()).isEqualTo(0.95);
    }

    @Test
    void limitsFollowTheLevelAndRefuseImpossibleCounts() {
        Interval ninety = BinomialLimits.WILSON.of(15, 148, 0.9);
        assertThat(ninety.lower()).isCloseTo(0.0674432622468715, within(1e-9));
        assertThat(ninety.upper()).isCloseTo(0.1495729317464, within(1e-9));
        for (int[] bad : new int[][] {{-1, 5}, {6, 5}, {0, 0}}) {
            assertThatThrownBy(() -> BinomialLimits.CLOPPER_PEARSON.of(bad[0], bad[1], 0.95))
                    .isInstanceOf(IllegalArgumentException.class);
        }
    }

    /** Three of ten below, two equal: percentile (3 + 1) / 10; limits from 3 of 10 and 5 of 10. */
    @Test
    void aPercentileCountsTiesHalfAndItsLimitsCoverThem() {
        double[] reference = {10, 1, 5, 2, 5, 3, 6, 7, 8, 9};
        Estimate rank =
                PercentileRank.of(5, reference, BinomialLimits.WILSON, 0.95).orElseThrow();
        assertThat(rank.value()).isEqualTo(0.4);
        assertThat(rank.n()).isEqualTo(10);
        assertThat(rank.method()).contains("Wilson");
        // prop.test(3, 10, correct = FALSE) and prop.test(5, 10, correct = FALSE): 0.1077913, 0.7634066 (R 4.2.2)
        assertThat(rank.limits().lower()).isCloseTo(0.1077913, within(1e-6));
        assertThat(rank.limits().upper()).isCloseTo(0.7634066, within(1e-6));
        assertThat(rank.warnings()).singleElement().asString().contains("only 10 values");
        Estimate exact = PercentileRank.of(5, reference, BinomialLimits.CLOPPER_PEARSON, 0.95)
                .orElseThrow();
        // binom.test(3, 10), binom.test(5, 10): 0.06673951, 0.8129138 (R 4.2.2)
        assertThat(exact.limits().lower()).isCloseTo(0.06673951, within(1e-7));
        assertThat(exact.limits().upper()).isCloseTo(0.8129138, within(1e-6));
        assertThat(exact.method()).contains("Clopper-Pearson");
    }

    @Test
    void aPercentileOutsideTheReferenceIsWarnedOfAndAnEmptyReferenceRefused() {
        double[] reference = new double[20];
        java.util.Arrays.setAll(reference, i -> i);
        assertThat(PercentileRank.of(10.5, reference, BinomialLimits.WILSON, 0.95)
                        .orElseThrow()
                        .warnings())
                .isEmpty();
        Estimate below =
                PercentileRank.of(-1, reference, BinomialLimits.WILSON, 0.95).orElseThrow();
        assertThat(below.value()).isZero();
        assertThat(below.warnings()).singleElement().asString().contains("outside the reference");
        Estimate above =
                PercentileRank.of(99, reference, BinomialLimits.WILSON, 0.95).orElseThrow();
        assertThat(above.value()).isEqualTo(1);
        assertThat(above.warnings()).singleElement().asString().contains("outside the reference");
        assertThat(reason(PercentileRank.of(1, new double[0], BinomialLimits.WILSON, 0.95)))
                .isEqualTo(Refusal.Reason.TOO_FEW);
    }

    /** Ranks 2 and 9 of 10 for the median with coverage .9785: Conover 1999, section 3.2; here by R qbinom. */
    @Test
    void limitsOfTheMedianAreOrderStatistics() {
        double[] x = {10, 1, 9, 2, 8, 3, 7, 4, 6, 5};
        QuantileLimits limits = QuantileLimits.of(x, 0.5, 0.95).orElseThrow();
        assertThat(limits.lowerRank()).isEqualTo(2);
        assertThat(limits.upperRank()).isEqualTo(9);
        assertThat(limits.limits()).isEqualTo(new Interval(2, 9, 0.95));
        assertThat(limits.coverage()).isCloseTo(0.978515625, within(1e-12));
    }

    @Test
    void limitsOfOtherQuantilesAgreeWithR() {
        double[] x = new double[50];
        java.util.Arrays.setAll(x, i -> i + 1);
        QuantileLimits p90 = QuantileLimits.of(x, 0.9, 0.95).orElseThrow();
        assertThat(p90.limits()).isEqualTo(new Interval(41, 50, 0.95));
        assertThat(p90.coverage()).isCloseTo(0.970308289088088, within(1e-12));
        QuantileLimits p25 =
                QuantileLimits.of(java.util.Arrays.copyOf(x, 30), 0.25, 0.9).orElseThrow();
        assertThat(p25.limits()).isEqualTo(new Interval(4, 13, 0.9));
        assertThat(p25.coverage()).isCloseTo(0.940957033396344, within(1e-12));
    }

    @Test
    void aSmallSampleBoundsOneSideOrNone() {
        double[] x = new double[20];
        java.util.Arrays.setAll(x, i -> i + 1);
        QuantileLimits p90 = QuantileLimits.of(x, 0.9, 0.95).orElseThrow();
        assertThat(p90.limits().upper()).isInfinite();
        assertThat(p90.upperRank()).isNull();
        assertThat(p90.lowerRank()).isEqualTo(15); // P(B ≤ 14) = .0113, P(B ≤ 15) = .0432, binomial tables n = 20
        assertThat(p90.coverage()).isCloseTo(1 - 0.0113, within(5e-5));
        QuantileLimits p10 = QuantileLimits.of(x, 0.1, 0.95).orElseThrow();
        assertThat(p10.limits().lower()).isInfinite();
        assertThat(p10.lowerRank()).isNull();
        assertThat(p10.upperRank()).isEqualTo(6);
        assertThat(p10.limits().upper()).isEqualTo(6);
        // 2 · 0.5⁵ = .0625 > .05, 2 · 0.5⁶ = .03125
        assertThat(reason(QuantileLimits.of(new double[] {1, 2, 3, 4, 5}, 0.5, 0.95)))
                .isEqualTo(Refusal.Reason.TOO_FEW);
        QuantileLimits six =
                QuantileLimits.of(new double[] {1, 2, 3, 4, 5, 6}, 0.5, 0.95).orElseThrow();
        assertThat(six.limits()).isEqualTo(new Interval(1, 6, 0.95));
        assertThat(six.coverage()).isCloseTo(0.96875, within(1e-12));
        assertThatThrownBy(() -> QuantileLimits.of(x, 0, 0.95)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> QuantileLimits.of(x, 1, 0.95)).isInstanceOf(IllegalArgumentException.class);
    }

    /** R: t.test of the logs. */
    /**
     * Operating times of the less experienced surgeons of Cataract-101 (Schoeffmann et al. 2018, doi
     * 10.1145/3204949.3208137, 45 cases): mean 696.3 s, SD 146.1 s, geometric mean 682 s, geometric SD 1.23. A log-normal
     * sample, by its quantiles, of that arithmetic mean and SD must have the published geometric ones: ln GM = ln(mean) −
     * s²/2 with s² = ln(1 + (SD/mean)²).
     */
    @Test
    void publishedOperatingTimesAreLogNormal() {
        double s2 = Math.log1p(Math.pow(146.1 / 696.3, 2));
        NormalDistribution logs = new NormalDistribution(Math.log(696.3) - s2 / 2, Math.sqrt(s2));
        double[] times = new double[4000];
        for (int i = 0; i < times.length; i++) {
            times[i] = Math.exp(logs.inverseCumulativeProbability((i + 0.5) / times.length));
        }
        GeometricMean found = GeometricMean.of(times, 0.95).orElseThrow();
        assertThat(found.mean().value()).isCloseTo(682, within(0.7));
        assertThat(found.sdFactor()).isCloseTo(1.23, within(0.005));
        assertThat(Moments.of(times).mean()).isCloseTo(696.3, within(0.2));
        assertThat(Moments.of(times).sd()).isCloseTo(146.1, within(0.5));
    }

    @Test
    void theGeometricMeanHasLimitsFromTheLogs() {
        GeometricMean found = GeometricMean.of(new double[] {3, 7, 8, 9, 12, 15, 21, 40}, 0.95)
                .orElseThrow();
        assertThat(found.mean().value()).isCloseTo(11.0888867426588, within(1e-12));
        assertThat(found.sdFactor()).isCloseTo(2.17414206749524, within(1e-12));
        assertThat(found.mean().limits().lower()).isCloseTo(5.7930621882407, within(1e-9));
        assertThat(found.mean().limits().upper()).isCloseTo(21.2259777637322, within(1e-9));
        assertThat(found.mean().se()).isCloseTo(3.0448046153022, within(1e-12));
        assertThat(found.mean().n()).isEqualTo(8);
        assertThat(reason(GeometricMean.of(new double[] {3, 0}, 0.95))).isEqualTo(Refusal.Reason.UNSUITABLE_DATA);
        assertThat(reason(GeometricMean.of(new double[] {3}, 0.95))).isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(GeometricMean.of(new double[] {3, 3}, 0.95).orElseThrow().sdFactor())
                .isEqualTo(1);
    }

    @Property(tries = 200)
    void aPercentileAndItsLimitsStayBetweenNoneAndAll(
            @ForAll @Size(min = 1, max = 40) List<@IntRange(min = 0, max = 9) Integer> raw,
            @ForAll @IntRange(min = -1, max = 10) int value,
            @ForAll BinomialLimits method,
            @ForAll @DoubleRange(min = 0.5, max = 0.99) double level) {
        double[] reference = raw.stream().mapToDouble(Integer::doubleValue).toArray();
        Estimate rank = PercentileRank.of(value, reference, method, level).orElseThrow();
        assertThat(rank.limits().lower()).isBetween(0.0, rank.value());
        assertThat(rank.limits().upper()).isBetween(rank.value(), 1.0);
        Estimate next = PercentileRank.of(value + 1, reference, method, level).orElseThrow();
        assertThat(next.value()).isGreaterThanOrEqualTo(rank.value());
    }

    private static Refusal.Reason reason(Outcome<?> outcome) {
        assertThat(outcome).isInstanceOf(Outcome.Refused.class);
        Refusal refusal = ((Outcome.Refused<?>) outcome).refusal();
        assertThat(refusal.why()).isNotBlank();
        assertThat(refusal.remedy()).isNotBlank();
        return refusal.reason();
    }
}
