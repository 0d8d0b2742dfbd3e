package org.sideport.stats.resample;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.resample.Bootstrap.Statistic;

/** Figures marked boot are by R's package boot with 99 999 resamples, src/test/oracle/resample/bca.R. */
class BootstrapTest {

    /** Efron & Tibshirani 1993, table 14.1: test A of 26 neurologically impaired children. */
    private static final double[] SPATIAL_A = {
        48, 36, 20, 29, 42, 42, 20, 42, 22, 41, 45, 14, 6, 0, 33, 28, 34, 4, 32, 24, 47, 41, 24, 26, 30, 41
    };
    /** Efron & Tibshirani 1993, table 3.1: 15 law schools. */
    private static final double[] LSAT = {576, 635, 558, 578, 666, 580, 555, 661, 651, 605, 653, 575, 545, 572, 594};

    private static final double[] GPA = {
        3.39, 3.30, 2.81, 3.03, 3.44, 3.07, 3.00, 3.43, 3.36, 3.13, 3.12, 2.74, 2.76, 2.88, 2.96
    };
    /** Davison & Hinkley 1997, example 1.1: hours between failures of air-conditioning. */
    private static final double[] AIR = {3, 5, 7, 18, 43, 85, 91, 98, 100, 130, 230, 487};

    private static final Bootstrap MANY = new Bootstrap(40_000, 1, 0.9);

    /**
     * Efron & Tibshirani 1993, section 14.3 and table 14.2 (2 000 resamples; from memory): variance 171.5, z0 .146, a .061,
     * BCa 90 % limits 115.8 and 259.6. Boot with more resamples: z0 .180 (limit of many resamples), 116.2 and 261.4 with its
     * own a of .0641, which centres the jackknife at the estimate and not at its mean; a by the book's equation is
     * .06124012 (R).
     */
    @Test
    void limitsOfAVarianceAreThoseOfTheBook() {
        BcaLimits found = MANY.bcaDetail(26, variance(SPATIAL_A)).orElseThrow();
        assertThat(found.acceleration()).isCloseTo(ACCELERATION, within(1e-8));
        assertThat(found.z0()).isCloseTo(0.177, within(0.015));
        assertThat(found.limits().lower()).isCloseTo(115.8, within(1.5));
        assertThat(found.limits().upper()).isCloseTo(259.6, within(3.0));
        assertThat(found.limits().level()).isEqualTo(0.9);
        assertThat(found.resamples()).isEqualTo(40_000);
        assertThat(found.warnings()).isEmpty();
        // equation 14.10 by hand with z = 1.644854
        double shift = found.z0() - 1.644854;
        assertThat(found.lowerShare())
                .isCloseTo(phi(found.z0() + shift / (1 - found.acceleration() * shift)), within(1e-6));
        shift = found.z0() + 1.644854;
        assertThat(found.upperShare())
                .isCloseTo(phi(found.z0() + shift / (1 - found.acceleration() * shift)), within(1e-6));
    }

    /** Boot: percentile limits 98.0 and 235.4; the book has 100.8 and 233.9 from 2 000 resamples (memory). */
    @Test
    void percentileLimitsOfAVarianceAreThoseOfBoot() {
        Interval found = MANY.percentile(26, variance(SPATIAL_A)).orElseThrow();
        assertThat(found.lower()).isCloseTo(98.0, within(1.0));
        assertThat(found.upper()).isCloseTo(235.4, within(1.0));
        assertThat(found.level()).isEqualTo(0.9);
    }

    /** Boot: z0 −.100, BCa .431 and .926 (a −.074 by boot; Efron 1987 works with −.0756 and B = 1 000 there, memory). */
    @Test
    void limitsOfACorrelationAreThoseOfBoot() {
        Interval found = MANY.bca(15, BootstrapTest::correlation).orElseThrow();
        assertThat(found.lower()).isCloseTo(0.431, within(0.015));
        assertThat(found.upper()).isCloseTo(0.926, within(0.004));
    }

    /** Boot: BCa 56.83 and 226.83, a .0938 (for a mean both centrings of the jackknife agree). */
    @Test
    void limitsOfASkewedMeanAreThoseOfBoot() {
        BcaLimits found =
                new Bootstrap(40_000, 7, 0.95).bcaDetail(12, mean(AIR)).orElseThrow();
        assertThat(found.acceleration()).isCloseTo(0.09379807, within(1e-8));
        assertThat(found.z0()).isCloseTo(0.0971, within(0.02));
        assertThat(found.limits().lower()).isCloseTo(56.83, within(1.2));
        assertThat(found.limits().upper()).isCloseTo(226.83, within(4.5));
    }

    @Test
    void theSeedDecidesTheLimits() {
        Bootstrap one = new Bootstrap(500, 11, 0.95);
        assertThat(one.bca(12, mean(AIR))).isEqualTo(new Bootstrap(500, 11, 0.95).bca(12, mean(AIR)));
        assertThat(one.bca(12, mean(AIR))).isNotEqualTo(new Bootstrap(500, 12, 0.95).bca(12, mean(AIR)));
    }

    /** The JDK's generator of that name is the same recurrence; its plain draws must agree for ever. */
    @ParameterizedTest
    @ValueSource(longs = {0, 1, -5, 1234567, Long.MIN_VALUE})
    void theGeneratorIsSplitMix(long seed) {
        SplitMix ours = new SplitMix(seed);
        SplittableRandom theirs = new SplittableRandom(seed);
        for (int i = 0; i < 100; i++) {
            assertThat(ours.next()).isEqualTo(theirs.nextLong());
        }
    }

    /** 700 000 draws below 7: each value 100 000 times, standard deviation 293; below 1 there is only 0. */
    @Test
    void drawsBelowABoundAreEven() {
        SplitMix random = new SplitMix(42);
        int[] counts = new int[7];
        for (int i = 0; i < 700_000; i++) {
            counts[random.below(7)]++;
        }
        for (int count : counts) {
            assertThat(count).isCloseTo(100_000, within(1_500));
        }
        assertThat(random.below(1)).isZero();
        // a bound for which 2^32 is far from a multiple: without drawing again one value in two would be twice as
        // frequent
        int bound = 0x6000_0000;
        long third = 0;
        for (int i = 0; i < 90_000; i++) {
            int drawn = random.below(bound);
            assertThat(drawn).isBetween(0, bound - 1);
            third += drawn % 3 == 0 ? 1 : 0;
        }
        assertThat(third).isCloseTo(30_000, within(900L));
    }

    @Test
    void tooFewUnitsAreRefused() {
        assertThat(refusal(MANY.bca(2, i -> 1)).reason()).isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(refusal(MANY.percentile(2, i -> 1)).why()).contains("2 units");
        assertThat(refusal(MANY.percentile(1, i -> 1)).why()).contains("1 unit ");
        assertThat(new Bootstrap(100, 1, 0.9).bca(3, mean(AIR))).isInstanceOf(Outcome.Found.class);
        assertThat(new Bootstrap(100, 1, 0.9).percentile(3, mean(AIR))).isInstanceOf(Outcome.Found.class);
    }

    @Test
    void aStatisticThatDoesNotExistIsRefused() {
        assertThat(refusal(MANY.bca(5, i -> Double.NaN)).reason()).isEqualTo(Refusal.Reason.UNSUITABLE_DATA);
        assertThat(refusal(MANY.bca(5, i -> Double.POSITIVE_INFINITY)).reason())
                .isEqualTo(Refusal.Reason.UNSUITABLE_DATA);
        assertThat(refusal(MANY.percentile(5, i -> Double.NaN)).reason()).isEqualTo(Refusal.Reason.TOO_FEW);
    }

    /** With all of 4 units apart in a resample having probability 4!/4⁴ = .094, nine resamples in ten are lost. */
    @Test
    void lossOfMostResamplesIsRefused() {
        Statistic onlyIfAllDiffer = i -> Arrays.stream(i).distinct().count() == i.length
                ? Arrays.stream(i).sum()
                : Double.NaN;
        assertThat(refusal(MANY.bca(4, onlyIfAllDiffer)).why()).contains("of 40000 resamples");
    }

    /** A resample of 4 without the first unit has probability .75⁴ = .316; those are left out, and so is one jackknife value. */
    @Test
    void lossOfSomeResamplesIsWarnedOf() {
        Statistic needsTheFirst =
                i -> Arrays.stream(i).anyMatch(k -> k == 0) ? Arrays.stream(i).sum() : Double.NaN;
        BcaLimits found = MANY.bcaDetail(4, needsTheFirst).orElseThrow();
        assertThat(found.resamples()).isCloseTo((int) (40_000 * (1 - 0.31640625)), within(400));
        assertThat(found.acceleration()).isZero();
        assertThat(found.warnings()).hasSize(2);
        assertThat(found.warnings().get(0)).contains((40_000 - found.resamples()) + " of 40000");
        assertThat(found.warnings().get(1)).contains("not for acceleration");
    }

    /** The first call is the estimate; then half of 100 resamples allow the statistic, or one fewer. */
    @Test
    void exactlyHalfTheResamplesIsEnough() {
        assertThat(new Bootstrap(100, 1, 0.9)
                        .bcaDetail(5, series(50))
                        .orElseThrow()
                        .resamples())
                .isEqualTo(50);
        assertThat(refusal(new Bootstrap(100, 1, 0.9).bca(5, series(51))).why()).startsWith("in 51 of 100 resamples");
        // of 101 half is 50.5
        assertThat(new Bootstrap(101, 1, 0.9)
                        .bcaDetail(5, series(50))
                        .orElseThrow()
                        .resamples())
                .isEqualTo(51);
        assertThat(refusal(new Bootstrap(101, 1, 0.9).bca(5, series(51))).why()).startsWith("in 51 of 101");
    }

    /** Not a number as often as said, then the call's own number. */
    private static Statistic series(int lost) {
        int[] calls = {-1};
        return i -> {
            int call = ++calls[0];
            return call >= 1 && call <= lost ? Double.NaN : call % 7;
        };
    }

    /** A quarter of the resamples below the estimate, half equal to it, a quarter above: no bias. */
    @Test
    void resamplesEqualToTheEstimateCountHalf() {
        int[] calls = {-1};
        Statistic ties = i -> {
            calls[0]++;
            return calls[0] == 0 ? 0 : List.of(-1.0, 0.0, 0.0, 1.0).get(calls[0] % 4);
        };
        assertThat(new Bootstrap(400, 1, 0.9).bcaDetail(5, ties).orElseThrow().z0())
                .isCloseTo(0, within(1e-12));
    }

    @Test
    void resamplesAllAlikeGiveAPointAndAWarning() {
        BcaLimits found = MANY.bcaDetail(5, i -> 3).orElseThrow();
        assertThat(found.limits()).isEqualTo(new Interval(3, 3, 0.9));
        assertThat(found.warnings()).singleElement().asString().contains("same number");
        assertThat(found.lowerShare()).isCloseTo(0.05, within(1e-12));
        assertThat(found.upperShare()).isCloseTo(0.95, within(1e-12));
        assertThat(MANY.percentile(5, i -> 3).orElseThrow()).isEqualTo(new Interval(3, 3, 0.9));
    }

    /** A statistic whose estimate lies above all resamples: z0 is finite, the limits the largest of them. */
    @Test
    void anEstimateBeyondAllResamplesGivesFiniteLimits() {
        Statistic distinct = i -> Arrays.stream(i).distinct().count() == i.length ? 10 : i[0] / 10.0;
        BcaLimits found = new Bootstrap(2_000, 3, 0.95).bcaDetail(12, distinct).orElseThrow();
        assertThat(found.z0()).isGreaterThan(3).isFinite();
        assertThat(found.limits().upper()).isEqualTo(1.1);
        assertThat(found.warnings()).anyMatch(w -> w.contains("very end"));
    }

    /**
     * Two of a thousand units hold nearly everything: the acceleration is near its bound, and beyond the pole of equation
     * 14.10 the upper limit must be the largest resample, not the smallest.
     */
    @Test
    void beyondThePoleTheLimitIsTheEndOfTheResamples() {
        Statistic steep = i -> i.length < 5
                ? (Arrays.stream(i).noneMatch(k -> k == 0) ? 0 : 1)
                : Math.pow(Arrays.stream(i).filter(k -> k == 0).count(), 3);
        // left-one-out values 0, 1, 1, 1, 1: mean .8, deviations .8, −.2 four times; a = .48 / (6 · .8^1.5) = .1118034
        BcaLimits found = new Bootstrap(5_000, 9, 1 - 1e-15).bcaDetail(5, steep).orElseThrow();
        assertThat(found.acceleration()).isCloseTo(0.1118034, within(1e-7));
        assertThat(found.upperShare()).isEqualTo(1);
        assertThat(found.limits().upper()).isGreaterThanOrEqualTo(64);
        assertThat(found.lowerShare()).isLessThan(0.001);
        Statistic mirrored = i -> -steep.of(i);
        BcaLimits mirror =
                new Bootstrap(5_000, 9, 1 - 1e-15).bcaDetail(5, mirrored).orElseThrow();
        assertThat(mirror.lowerShare()).isZero();
        assertThat(mirror.limits().lower()).isEqualTo(-found.limits().upper());
    }

    /** The acceleration is a ratio without unit: the same for hours and for millionths of a million years. */
    @ParameterizedTest
    @ValueSource(doubles = {1e-150, 1, 1e150})
    void theUnitDoesNotMatter(double unit) {
        double[] scaled = Arrays.stream(AIR).map(x -> x * unit).toArray();
        BcaLimits found =
                new Bootstrap(400, 7, 0.95).bcaDetail(12, mean(scaled)).orElseThrow();
        BcaLimits plain = new Bootstrap(400, 7, 0.95).bcaDetail(12, mean(AIR)).orElseThrow();
        assertThat(found.acceleration()).isCloseTo(0.09379807, within(1e-8));
        assertThat(found.limits().lower() / unit).isCloseTo(plain.limits().lower(), within(1e-9));
    }

    @Test
    void impossibleSettingsAreErrors() {
        assertThatThrownBy(() -> new Bootstrap(99, 1, 0.95)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Bootstrap(100, 1, 0)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Bootstrap(100, 1, 1)).isInstanceOf(IllegalArgumentException.class);
        assertThat(new Bootstrap(100, 1, 0.5).resamples()).isEqualTo(100);
    }

    /** Less than twice the cost of sorting 200 values 10 000 times, best of several runs of each. */
    @Test
    void tenThousandResamplesOfTwoHundredValuesCostLessThanTwiceAsManySorts() {
        double[] values =
                IntStream.range(0, 200).mapToDouble(i -> Math.sin(i * i)).toArray();
        Bootstrap bootstrap = new Bootstrap(10_000, 5, 0.95);
        long sorting = Long.MAX_VALUE;
        long resampling = Long.MAX_VALUE;
        double sink = 0;
        for (int run = 0; run < 8; run++) {
            long start = System.nanoTime();
            for (int i = 0; i < 10_000; i++) {
                double[] copy = values.clone();
                Arrays.sort(copy);
                sink += copy[0];
            }
            sorting = Math.min(sorting, System.nanoTime() - start);
            start = System.nanoTime();
            sink += bootstrap.bca(200, mean(values)).orElseThrow().lower();
            resampling = Math.min(resampling, System.nanoTime() - start);
        }
        System.out.printf(
                Locale.ROOT, "10 000 sorts %.1f ms, 10 000 BCa resamples %.1f ms%n", sorting / 1e6, resampling / 1e6);
        assertThat(sink).isFinite();
        assertThat(resampling).isLessThan(2 * sorting);
    }

    private static final double ACCELERATION = 0.06124012;

    private static Statistic mean(double[] x) {
        return indices -> {
            double sum = 0;
            for (int i : indices) {
                sum += x[i];
            }
            return sum / indices.length;
        };
    }

    private static Statistic variance(double[] x) {
        return indices -> {
            double mean = mean(x).of(indices);
            double sum = 0;
            for (int i : indices) {
                sum += (x[i] - mean) * (x[i] - mean);
            }
            return sum / indices.length;
        };
    }

    private static double correlation(int[] indices) {
        double mx = mean(LSAT).of(indices);
        double my = mean(GPA).of(indices);
        double sxy = 0;
        double sxx = 0;
        double syy = 0;
        for (int i : indices) {
            sxy += (LSAT[i] - mx) * (GPA[i] - my);
            sxx += (LSAT[i] - mx) * (LSAT[i] - mx);
            syy += (GPA[i] - my) * (GPA[i] - my);
        }
        return sxy / Math.sqrt(sxx * syy);
    }

    private static double phi(double z) {
        return new org.hipparchus.distribution.continuous.NormalDistribution().cumulativeProbability(z);
    }

    private static Refusal refusal(Outcome<?> outcome) {
        assertThat(outcome).isInstanceOf(Outcome.Refused.class);
        return ((Outcome.Refused<?>) outcome).refusal();
    }
}
