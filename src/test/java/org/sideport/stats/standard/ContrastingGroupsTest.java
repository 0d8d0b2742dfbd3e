package org.sideport.stats.standard;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.stream.IntStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.describe.BinomialLimits;
import org.sideport.stats.resample.Bootstrap;

class ContrastingGroupsTest {

    private static final Bootstrap BOOTSTRAP = new Bootstrap(1000, 5, 0.95);
    private static final double[] WEAKER = {31, 35, 28, 40, 44, 37, 33, 52, 29, 38, 41, 36};
    private static final double[] STRONGER = {55, 61, 47, 70, 58, 64, 43, 66, 59, 52};

    /**
     * Means and SD of a global score by experience: Saleh et al. 2007, Archives of Ophthalmology 125:363; cuts and
     * rates worked out outside this program (41.10, 4.30 %, 13.50 % and so on); the fifth row from Dong et al. 2025. Further digits by R's uniroot on the
     * densities (src/test/oracle/standard/standard.R); the last row is the midpoint of equal curves.
     */
    @ParameterizedTest
    @CsvSource({
        "32, 5.3, 55, 12.6, 41.1011542123, 0.0429714175101, 0.134995561534",
        "55, 12.6, 89, 4.7, 78.1353090681, 0.0331687991783, 0.010398865342",
        "55, 12.6, 90, 11.1, 73.102023261, 0.0754061029622, 0.0639619242667",
        "32, 5.3, 90, 11.1, 51.4860425648, 0.000118176145847, 0.00026049487858",
        "0.47, 0.32, 0.89, 0.23, 0.658951171559, 0.277436988382, 0.157554353356",
        "10, 2, 16, 2, 13, 0.0668072012689, 0.0668072012689"
    })
    void publishedGroups(double m1, double s1, double m2, double s2, double cut, double falsePass, double falseFail) {
        NormalCrossing found = NormalCrossing.of(new NormalGroup(null, m1, s1), new NormalGroup(null, m2, s2))
                .orElseThrow();
        assertThat(found.cut()).isCloseTo(cut, within(1e-9));
        assertThat(found.falsePass()).isCloseTo(falsePass, within(1e-10));
        assertThat(found.falseFail()).isCloseTo(falseFail, within(1e-10));
    }

    /** The printed figures themselves. */
    @Test
    void printedFiguresToAllDigits() {
        NormalCrossing first = NormalCrossing.of(new NormalGroup(11, 32, 5.3), new NormalGroup(10, 55, 12.6))
                .orElseThrow();
        assertThat(first.cut()).isCloseTo(41.10, within(0.005));
        assertThat(first.falsePass()).isCloseTo(0.0430, within(0.00005));
        assertThat(first.falseFail()).isCloseTo(0.1350, within(0.00005));
        NormalCrossing last = NormalCrossing.of(new NormalGroup(11, 32, 5.3), new NormalGroup(12, 90, 11.1))
                .orElseThrow();
        assertThat(last.cut()).isCloseTo(51.49, within(0.005));
        assertThat(last.falsePass()).isCloseTo(0.0001, within(0.00005));
        assertThat(last.falseFail()).isCloseTo(0.0003, within(0.00005));
        NormalCrossing weak = NormalCrossing.of(new NormalGroup(null, .47, .32), new NormalGroup(null, .89, .23))
                .orElseThrow();
        assertThat(weak.cut()).isCloseTo(0.6590, within(0.00005));
        assertThat(weak.falsePass()).isCloseTo(0.2774, within(0.00005));
        assertThat(weak.falseFail()).isCloseTo(0.1576, within(0.00005));
    }

    @Test
    void scoresOfTwoGroups() {
        ContrastingGroups found =
                ContrastingGroups.of(WEAKER, STRONGER, BOOTSTRAP).orElseThrow();
        assertThat(found.weaker().n()).isEqualTo(12);
        assertThat(found.weaker().mean()).isCloseTo(37, within(1e-12));
        assertThat(found.weaker().sd()).isCloseTo(6.75546916479, within(1e-10));
        assertThat(found.stronger().sd()).isCloseTo(8.44919457042, within(1e-10));
        assertThat(found.cut().value()).isCloseTo(46.7268890787, within(1e-9));
        assertThat(found.cut().value()).isEqualTo(found.theory().cut());
        assertThat(found.theory().falsePass()).isCloseTo(0.0749543594703, within(1e-10));
        assertThat(found.theory().falseFail()).isCloseTo(0.101146497571, within(1e-10));
        // seen: 52 of the weaker above 46.7, 43 of the stronger below
        assertThat(found.falsePass().value()).isEqualTo(1 / 12.0);
        assertThat(found.falsePass().limits()).isEqualTo(BinomialLimits.WILSON.of(1, 12, 0.95));
        assertThat(found.falseFail().value()).isEqualTo(0.1);
        assertThat(found.falseFail().n()).isEqualTo(10);
        assertThat(found.cut().n()).isEqualTo(22);
        assertThat(found.cut().warnings()).isEmpty();
        // above 44: 52 passes, 43 fails; above 41: 44 and 52 pass; the middle of the means is 47.25
        assertThat(found.observed()).isEqualTo(new ObservedCut(45.5, 44, 47, 1, 1, 1));
    }

    @Test
    void limitsAreTheBootstrapOverPersons() {
        ContrastingGroups found =
                ContrastingGroups.of(WEAKER, STRONGER, BOOTSTRAP).orElseThrow();
        assertThat(found.cut().limits())
                .isEqualTo(BOOTSTRAP
                        .bca(22, idx -> {
                            double[] low = IntStream.of(idx)
                                    .filter(i -> i < 12)
                                    .mapToDouble(i -> WEAKER[i])
                                    .toArray();
                            double[] high = IntStream.of(idx)
                                    .filter(i -> i >= 12)
                                    .mapToDouble(i -> STRONGER[i - 12])
                                    .toArray();
                            NormalGroup a = NormalGroup.of(low);
                            NormalGroup b = NormalGroup.of(high);
                            return a == null || b == null
                                    ? Double.NaN
                                    : NormalCrossing.of(a, b).map(NormalCrossing::cut)
                                                    instanceof Outcome.Found<Double> c
                                            ? c.value()
                                            : Double.NaN;
                        })
                        .orElseThrow());
        assertThat(found.cut().limits()).isNotNull();
        assertThat(found.cut().limits().contains(46.727)).isTrue();
    }

    @Test
    void smallGroupsAreWarnedOf() {
        assertThat(ContrastingGroups.of(Arrays.copyOf(WEAKER, 9), STRONGER, BOOTSTRAP)
                        .orElseThrow()
                        .cut()
                        .warnings())
                .first()
                .asString()
                .contains("only 9 scores");
        assertThat(ContrastingGroups.of(Arrays.copyOf(WEAKER, 3), Arrays.copyOf(STRONGER, 3), BOOTSTRAP)
                        .orElseThrow()
                        .cut()
                        .warnings())
                .anyMatch(w -> w.contains("resamples the statistic does not exist"));
    }

    private static Refusal refusal(double[] weaker, double[] stronger) {
        return ((Outcome.Refused<ContrastingGroups>) ContrastingGroups.of(weaker, stronger, BOOTSTRAP)).refusal();
    }

    @Test
    void unfitGroupsAreRefused() {
        assertThat(refusal(new double[] {1, 2}, STRONGER).why()).isEqualTo("the groups have 2 and 10 scores");
        assertThat(refusal(WEAKER, new double[] {1, 2}).reason()).isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(refusal(new double[] {3, 3, 3}, STRONGER).why())
                .isEqualTo("all scores of the weaker group are equal");
        assertThat(refusal(WEAKER, new double[] {99, 99, 99}).why())
                .isEqualTo("all scores of the stronger group are equal");
        assertThat(refusal(STRONGER, WEAKER).why())
                .isEqualTo("the mean of the stronger group, 37.00, is not above that of the weaker group, 57.50");
        assertThat(refusal(WEAKER, WEAKER).reason()).isEqualTo(Refusal.Reason.UNSUITABLE_DATA);
    }

    /** N(0, 10) and N(1, 0.5): the densities are .0399 < .108 at 0 already. */
    @Test
    void curvesThatDoNotCrossBetweenTheMeansAreRefused() {
        for (NormalGroup[] pair : new NormalGroup[][] {
            {new NormalGroup(null, 0, 10), new NormalGroup(null, 1, 0.5)},
            {new NormalGroup(null, 0, 0.5), new NormalGroup(null, 1, 10)}
        }) {
            Outcome<NormalCrossing> outcome = NormalCrossing.of(pair[0], pair[1]);
            assertThat(((Outcome.Refused<NormalCrossing>) outcome).refusal().why())
                    .startsWith("the normal curves do not cross between the means, 0.000 and 1.000");
        }
    }

    @Test
    void impossibleCurvesAreProgrammingErrors() {
        for (double sd : new double[] {0, -1, Double.NaN, Double.POSITIVE_INFINITY}) {
            assertThatThrownBy(() -> new NormalGroup(null, 1, sd)).hasMessageContaining("no normal curve");
        }
        assertThatThrownBy(() -> new NormalGroup(null, Double.NaN, 1)).hasMessageContaining("no normal curve");
        assertThat(NormalGroup.of(new double[] {1})).isNull();
        assertThat(NormalGroup.of(new double[] {1, 1})).isNull();
        assertThat(NormalGroup.of(new double[] {1, 3})).isEqualTo(new NormalGroup(2, 2, Math.sqrt(2)));
        assertThatThrownBy(() -> ObservedCut.of(new double[0], new double[] {1, 2}))
                .hasMessageContaining("two groups");
        assertThatThrownBy(() -> ObservedCut.of(new double[] {1, 2}, new double[0]))
                .hasMessageContaining("two groups");
        assertThatThrownBy(() -> ObservedCut.of(new double[] {1}, new double[] {1}))
                .hasMessageContaining("two groups");
    }

    /** By hand. */
    @Test
    void observedCutMisjudgesFewest() {
        assertThat(ObservedCut.of(new double[] {1, 2, 3}, new double[] {5, 6, 7}))
                .isEqualTo(new ObservedCut(4, 3, 5, 0, 0, 0));
        // above 4 the 5 of the weaker passes, above 5 the 5 of the stronger fails; means 11/3 and 17/3, middle 14/3
        assertThat(ObservedCut.of(new double[] {2, 4, 5}, new double[] {5, 6, 6}))
                .isEqualTo(new ObservedCut(4.5, 4, 5, 1, 0, 1));
        // the same turned round, so that the later gap is the nearer one: middle 1.6667
        assertThat(ObservedCut.of(new double[] {0, 0, 1}, new double[] {1, 2, 6}))
                .isEqualTo(new ObservedCut(1.5, 1, 2, 0, 1, 1));
        // means 3 and 6, middle 4.5: gap 2 to 4 misjudges 1, gap 4 to 6 two, gap 6 to 7 one
        assertThat(ObservedCut.of(new double[] {1, 2, 6}, new double[] {4, 7, 7}))
                .isEqualTo(new ObservedCut(3, 2, 4, 1, 0, 1));
    }

    /** At the cut the two densities are equal, and it lies between the means. */
    @Property(tries = 300)
    void densitiesAreEqualAtTheCut(
            @ForAll @DoubleRange(min = -50, max = 50) double mean,
            @ForAll @DoubleRange(min = 0.5, max = 30) double distance,
            @ForAll @DoubleRange(min = 0.5, max = 10) double s1,
            @ForAll @DoubleRange(min = 0.5, max = 10) double s2) {
        Outcome<NormalCrossing> outcome =
                NormalCrossing.of(new NormalGroup(null, mean, s1), new NormalGroup(null, mean + distance, s2));
        double atFirst = logRatio(mean, mean, s1, distance, s2);
        double atSecond = logRatio(mean + distance, mean, s1, distance, s2);
        if (outcome instanceof Outcome.Found<NormalCrossing> found) {
            NormalCrossing crossing = found.value();
            assertThat(crossing.cut()).isBetween(mean, mean + distance);
            assertThat(logRatio(crossing.cut(), mean, s1, distance, s2)).isCloseTo(0, within(1e-8));
            assertThat(crossing.falsePass()).isGreaterThanOrEqualTo(0).isLessThan(0.5);
            assertThat(crossing.falseFail()).isGreaterThanOrEqualTo(0).isLessThan(0.5);
        } else {
            assertThat(atFirst <= 1e-12 || atSecond >= -1e-12).isTrue();
        }
    }

    private static double logRatio(double x, double mean, double s1, double distance, double s2) {
        double z1 = (x - mean) / s1;
        double z2 = (x - mean - distance) / s2;
        return -z1 * z1 / 2 - Math.log(s1) + z2 * z2 / 2 + Math.log(s2);
    }

    /** Turning the scale round turns the crossing round. */
    @Property(tries = 100)
    void mirrorImage(
            @ForAll @DoubleRange(min = 5, max = 30) double distance,
            @ForAll @DoubleRange(min = 1, max = 4) double s1,
            @ForAll @DoubleRange(min = 1, max = 4) double s2) {
        NormalCrossing one = NormalCrossing.of(new NormalGroup(null, 0, s1), new NormalGroup(null, distance, s2))
                .orElseThrow();
        NormalCrossing other = NormalCrossing.of(new NormalGroup(null, -distance, s2), new NormalGroup(null, 0, s1))
                .orElseThrow();
        assertThat(other.cut()).isCloseTo(-one.cut(), within(1e-9));
        assertThat(other.falsePass()).isCloseTo(one.falseFail(), within(1e-9));
    }
}
