package org.sideport.stats.learning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.LongRange;
import org.junit.jupiter.api.Test;
import org.sideport.stats.Refusal;
import org.sideport.stats.learning.ChangePoint.Shape;

/** Against plain enumeration by lm in R (src/test/oracle/learning/learning.R). */
class ChangePointTest {

    /** Annual flow of the Nile 1871 to 1970; Cobb 1978, Biometrika 65:243, finds the fall from 1899, the 29th year. */
    private static final double[] NILE = {
        1120, 1160, 963, 1210, 1160, 1160, 813, 1230, 1370, 1140, 995, 935, 1110, 994, 1020, 960, 1180, 799, 958, 1140,
        1100, 1210, 1150, 1250, 1260, 1220, 1030, 1100, 774, 840, 874, 694, 940, 833, 701, 916, 692, 1020, 1050, 969,
        831, 726, 456, 824, 702, 1120, 1100, 832, 764, 821, 768, 845, 864, 862, 698, 845, 744, 796, 1040, 759, 781, 865,
        845, 944, 984, 897, 822, 1010, 771, 676, 649, 846, 812, 742, 801, 1040, 860, 874, 848, 890, 744, 749, 838, 1050,
        918, 986, 797, 923, 975, 815, 1020, 906, 901, 1170, 912, 746, 919, 718, 714, 740
    };

    private static final double[] WOBBLE = {
        5.1, 4.7, 5.6, 5.0, 4.4, 5.3, 4.9, 5.8, 4.6, 5.2, 5.0, 4.5, 5.5, 4.8, 5.4, 5.1
    };

    private static ChangePoint of(CaseSeries.Scale scale, Shape shape) {
        return ChangePoint.of(LearningTest.series(scale, NILE), shape, 499, 11, 0.95)
                .orElseThrow();
    }

    @Test
    void theNileFallsFromTheYear29() {
        ChangePoint found = of(CaseSeries.Scale.PLAIN, Shape.LEVELS);
        assertThat(found.at()).isEqualTo(29);
        assertThat(found.before()).isCloseTo(1097.75, within(1e-9));
        assertThat(found.after()).isCloseTo(849.972222222, within(1e-8));
        assertThat(found.sumOfSquares()).isCloseTo(1597457.19444, within(1e-4));
        assertThat(found.f()).isCloseTo(37.5774879309, within(1e-8));
        // no series without change comes near
        assertThat(found.p()).isEqualTo(1.0 / 500);
        // Cobb 1978, table 1: nearly all of the likelihood lies on 1897 to 1900, the years 27 to 30
        assertThat(found.limits().lower()).isBetween(25.0, 29.0);
        assertThat(found.limits().upper()).isBetween(29.0, 33.0);
        assertThat(found.n()).isEqualTo(100);
        assertThat(found.resamples()).isEqualTo(499);
        // 100 (log 2π + log(SS/100) + 1) + 2·4 + 2·4·5/95
        assertThat(found.aicc())
                .isCloseTo(100 * (Math.log(2 * Math.PI * 1597457.19444 / 100) + 1) + 8 + 40.0 / 95, within(1e-6));
    }

    @Test
    void levelsOfDurationsAreGeometricMeans() {
        ChangePoint found = of(CaseSeries.Scale.LOG, Shape.LEVELS);
        assertThat(found.before()).isCloseTo(Math.exp(6.99330334831), within(1e-6));
        assertThat(found.after()).isCloseTo(Math.exp(6.73421177892), within(1e-6));
        assertThat(found.sumOfSquares()).isCloseTo(2.07330081447, within(1e-10));
        assertThat(found.f()).isCloseTo(31.6574924063, within(1e-8));
    }

    @Test
    void twoLinesMayJoinAtACase() {
        ChangePoint found = of(CaseSeries.Scale.PLAIN, Shape.LINES);
        assertThat(found.at()).isCloseTo(43, within(1e-9));
        assertThat(found.before()).isCloseTo(-8.17368316833, within(1e-9));
        assertThat(found.after()).isCloseTo(0.751664357076, within(1e-9));
        assertThat(found.sumOfSquares()).isCloseTo(1833664.25863, within(1e-4));
        assertThat(found.f()).isCloseTo(10.1462252966, within(1e-8));
        assertThat(found.p()).isBetween(0.002, 0.02);
        assertThat(found.limits().contains(43)).isTrue();
    }

    @Test
    void twoLinesMayJoinBetweenCases() {
        ChangePoint found = ChangePoint.of(LearningTest.loss(CaseSeries.Scale.PLAIN), Shape.LINES, 199, 3, 0.95)
                .orElseThrow();
        assertThat(found.at()).isCloseTo(117.95371192, within(1e-5));
        assertThat(found.sumOfSquares()).isCloseTo(76.7389560175, within(1e-8));
        assertThat(found.before()).isCloseTo(-0.38410647957, within(1e-8));
        assertThat(found.after()).isCloseTo(-0.200816313473, within(1e-8));
        assertThat(found.f()).isCloseTo(183.083469633, within(1e-6));
        ChangePoint levels = ChangePoint.of(LearningTest.loss(CaseSeries.Scale.PLAIN), Shape.LEVELS, 199, 3, 0.95)
                .orElseThrow();
        assertThat(levels.at()).isEqualTo(107);
        assertThat(levels.sumOfSquares()).isCloseTo(5789.37290909, within(1e-6));
    }

    /** R: the best break of these values is less striking than that of 95.7 % of series without change. */
    @Test
    void aSeriesWithoutChangeIsNotGivenOne() {
        ChangePoint found = ChangePoint.of(
                        LearningTest.series(CaseSeries.Scale.PLAIN, WOBBLE), Shape.LEVELS, 1999, 5, 0.95)
                .orElseThrow();
        assertThat(found.f()).isCloseTo(0.310221941537, within(1e-9));
        assertThat(found.p()).isCloseTo(0.9574, within(0.02));
        // nothing fixes the place
        assertThat(found.limits().upper() - found.limits().lower()).isGreaterThan(6);
    }

    /** Of pure noise a twentieth may be called a change at 0.05: 200 series give 10, with a standard deviation of 3.1. */
    @Test
    void theTestKeepsItsLevel() {
        Random random = new Random(20_24);
        int called = 0;
        for (int s = 0; s < 200; s++) {
            double[] noise = random.doubles(20).map(u -> Math.log(u / (1 - u))).toArray();
            ChangePoint found = ChangePoint.of(
                            LearningTest.series(CaseSeries.Scale.PLAIN, noise), Shape.LEVELS, 199, s, 0.95)
                    .orElseThrow();
            called += found.p() <= 0.05 ? 1 : 0;
        }
        assertThat(called).isBetween(2, 20);
    }

    @Test
    void theSameSeedGivesTheSame() {
        CaseSeries nile = LearningTest.series(CaseSeries.Scale.PLAIN, NILE);
        ChangePoint one = ChangePoint.of(nile, Shape.LINES, 199, 1, 0.9).orElseThrow();
        assertThat(ChangePoint.of(nile, Shape.LINES, 199, 1, 0.9).orElseThrow()).isEqualTo(one);
        assertThat(ChangePoint.of(nile, Shape.LINES, 199, 2, 0.9).orElseThrow().limits())
                .isNotEqualTo(one.limits());
        assertThat(one.limits().level()).isEqualTo(0.9);
    }

    @Test
    void unfitSeriesAreRefused() {
        double[] numbers = {1, 1, 1, 1, 1, 2, 2, 3, 4, 5, 6, 6};
        double[] values = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12};
        CaseSeries six = CaseSeries.of(numbers, values, CaseSeries.Scale.PLAIN).orElseThrow();
        assertThat(ChangePoint.of(six, Shape.LEVELS, 100, 1, 0.95).orElseThrow().at())
                .isEqualTo(4);
        CaseSeries five = new CaseSeries(
                new double[] {1, 2, 3, 3, 4, 5}, new double[] {1, 2, 3, 4, 5, 7}, CaseSeries.Scale.PLAIN);
        Refusal refusal = LearningTest.refusal(ChangePoint.of(five, Shape.LEVELS, 100, 1, 0.95));
        assertThat(refusal.why()).isEqualTo("no place among 6 cases leaves 3 different case numbers on either side");
        double[] step = {1, 1, 1, 1, 1, 1, 2, 2, 2, 2, 2, 2};
        assertThat(LearningTest.refusal(ChangePoint.of(
                                LearningTest.series(CaseSeries.Scale.PLAIN, step), Shape.LEVELS, 100, 1, 0.95))
                        .reason())
                .isEqualTo(Refusal.Reason.NO_VARIATION);
        assertThatThrownBy(() -> ChangePoint.of(six, Shape.LEVELS, 99, 1, 0.95)).hasMessageContaining("99 resamples");
    }

    @Property(tries = 30)
    void scaleAndShiftPassThroughPlaceAndTest(
            @ForAll @LongRange(min = 0, max = 10_000) long seed,
            @ForAll @DoubleRange(min = 0.01, max = 100.0) double scale,
            @ForAll @DoubleRange(min = -50.0, max = 50.0) double shift) {
        Random random = new Random(seed);
        double[] values = new double[18];
        Arrays.setAll(values, i -> (i < 9 ? 4 : 2) + random.nextGaussian());
        double[] changed = Arrays.stream(values).map(v -> scale * v + shift).toArray();
        for (Shape shape : Shape.values()) {
            ChangePoint before = ChangePoint.of(
                            LearningTest.series(CaseSeries.Scale.PLAIN, values), shape, 100, seed, 0.95)
                    .orElseThrow();
            ChangePoint after = ChangePoint.of(
                            LearningTest.series(CaseSeries.Scale.PLAIN, changed), shape, 100, seed, 0.95)
                    .orElseThrow();
            assertThat(after.at()).isCloseTo(before.at(), within(1e-6));
            assertThat(after.f()).isCloseTo(before.f(), within(1e-6 * (1 + before.f())));
            assertThat(after.p()).isCloseTo(before.p(), within(0.011));
            assertThat(after.before())
                    .isCloseTo(
                            scale * before.before() + (shape == Shape.LEVELS ? shift : 0), within(1e-6 * (1 + scale)));
            assertThat(after.p()).isBetween(1.0 / 101, 1.0);
        }
    }

    /** Never worse than what trying every place by itself finds. */
    @Property(tries = 60)
    void noPlaceOfAFineGridIsBetter(@ForAll @LongRange(min = 0, max = 10_000) long seed) {
        Random random = new Random(seed);
        double[] x = new double[14];
        double[] y = new double[14];
        for (int i = 0; i < 14; i++) {
            x[i] = (i == 0 ? 1 : x[i - 1]) + random.nextInt(3);
            y[i] = Math.abs(x[i] - 9) + random.nextGaussian();
        }
        BreakSearch.Break best = new BreakSearch(x, Shape.LINES).best(y);
        if (best == null) {
            return;
        }
        assertThat(hinge(x, y, best.at())).isCloseTo(best.sumOfSquares(), within(1e-8));
        long[] places = Arrays.stream(x).distinct().mapToLong(v -> (long) v).toArray();
        for (double place = places[2]; place <= places[places.length - 3]; place += 0.05) {
            assertThat(best.sumOfSquares()).isLessThanOrEqualTo(hinge(x, y, place) + 1e-8);
        }
    }

    private static double hinge(double[] x, double[] y, double place) {
        double[] bend = Arrays.stream(x).map(v -> Math.max(0, v - place)).toArray();
        return org.sideport.stats.regression.LinearLeastSquares.fit(
                        org.sideport.stats.regression.DesignMatrix.of(
                                java.util.List.of("x", "bend"), new double[][] {x, bend}, true),
                        y,
                        0.95)
                .orElseThrow()
                .sumOfSquares();
    }
}
