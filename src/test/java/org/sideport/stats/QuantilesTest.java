package org.sideport.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Figures by R 4.2.2, src/test/oracle/describe/describe.R; the types are those of Hyndman & Fan 1996. */
class QuantilesTest {

    private static final double[] X = {3, 7, 8, 9, 12, 15, 21, 40};
    private static final double[] P = {0, .05, .1, .25, .3, .5, .625, .75, .9, 1};
    private static final double[] UNORDERED = {5, 1, 4, 2, 3, 2, 7, 6, 9, 10, 8};
    private static final double[] Q = {.1, .5, .55, .9};

    @ParameterizedTest
    @CsvSource({
        "1, 3 3 3 7 8 9 12 15 40 40, 2 5 6 9",
        "2, 3 3 3 7.5 8 10.5 13.5 18 40 40, 2 5 6 9",
        "3, 3 3 3 7 7 9 12 15 21 40, 1 5 5 9",
        "4, 3 3 3 7 7.4 9 12 15 24.8 40, 1.1 4.5 5.05 8.9",
        "5, 3 3 4.2 7.5 7.9 10.5 13.5 18 34.3 40, 1.6 5 5.55 9.4",
        "6, 3 3 3 7.25 7.7 10.5 13.875 19.5 40 40, 1.2 5 5.6 9.8",
        "7, 3 4.4 5.8 7.75 8.1 10.5 13.125 16.5 26.7 40, 2 5 5.5 9",
        "8, 3 3 3.66666666666667 7.41666666666667 7.83333333333333 10.5 13.625 18.5 36.8333333333333 40,"
                + " 1.46666666666667 5 5.56666666666667 9.53333333333333",
        "9, 3 3 3.8 7.4375 7.85 10.5 13.59375 18.375 36.2 40, 1.5 5 5.5625 9.5"
    })
    void allNineDefinitionsAgreeWithR(int number, String expected, String withTies) {
        QuantileType type = QuantileType.ofNumber(number);
        assertThat(type.number()).isEqualTo(number);
        compare(X, P, type, expected);
        compare(UNORDERED, Q, type, withTies);
    }

    private static void compare(double[] x, double[] p, QuantileType type, String expected) {
        double[] wanted = Arrays.stream(expected.trim().split(" "))
                .mapToDouble(Double::parseDouble)
                .toArray();
        assertThat(wanted).hasSameSizeAs(p);
        for (int i = 0; i < p.length; i++) {
            assertThat(Quantiles.of(x, p[i], type))
                    .as("type %s at %s", type, p[i])
                    .isCloseTo(wanted[i], within(1e-12));
        }
    }

    /** 0.1 × 30 is 3.0000000000000004 in binary: by definition 1 the answer is the third value all the same. */
    @Test
    void roundingOfThePositionDoesNotMoveToTheNextValue() {
        double[] x = new double[30];
        Arrays.setAll(x, i -> i + 1);
        assertThat(3 * 0.1 * 10).isGreaterThan(3);
        assertThat(Quantiles.of(x, 3 * 0.1 / 3, QuantileType.INVERTED_CDF)).isEqualTo(3);
        assertThat(Quantiles.of(new double[] {1, 2, 3, 4, 5, 6, 7, 8, 9, 10}, 3 * 0.1, QuantileType.INVERTED_CDF))
                .isEqualTo(3);
        assertThat(Quantiles.of(
                        new double[] {1, 2, 3, 4, 5, 6, 7, 8, 9, 10}, 3 * 0.1, QuantileType.AVERAGED_INVERTED_CDF))
                .isEqualTo(3.5);
    }

    @Test
    void infiniteValuesGiveNoNaN() {
        double inf = Double.POSITIVE_INFINITY;
        assertThat(Quantiles.type7Sorted(new double[] {1, inf, inf}, 0.75)).isEqualTo(inf);
        assertThat(Quantiles.type7Sorted(new double[] {-inf, inf}, 0.25)).isEqualTo(-inf);
        assertThat(Quantiles.type7Sorted(new double[] {-inf, inf}, 0.5)).isEqualTo(inf);
        assertThat(Quantiles.type7Sorted(new double[] {-inf, inf}, 0.75)).isEqualTo(inf);
        assertThat(Quantiles.type7Sorted(new double[] {1, 2, inf}, 0.5)).isEqualTo(2);
        assertThat(Quantiles.type7Sorted(new double[] {1, 2, inf}, 0.75)).isEqualTo(inf);
        assertThat(Quantiles.type7Sorted(new double[] {-inf, 2, 3}, 0.25)).isEqualTo(-inf);
    }

    @Test
    void theInputKeepsItsOrder() {
        double[] x = {3, 1, 2};
        assertThat(Quantiles.type7(x, 0.5)).isEqualTo(2);
        assertThat(x).containsExactly(3, 1, 2);
    }

    @Test
    void impossibleRequestsAreErrors() {
        assertThatThrownBy(() -> Quantiles.type7(new double[0], 0.5)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Quantiles.type7Sorted(X, -0.01)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Quantiles.type7Sorted(X, 1.01)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Quantiles.type7Sorted(X, Double.NaN)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> QuantileType.ofNumber(0)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> QuantileType.ofNumber(10)).isInstanceOf(IllegalArgumentException.class);
    }

    @Property(tries = 300)
    void quantilesGrowWithTheShareAndStayWithinTheData(
            @ForAll @Size(min = 1, max = 30) double[] raw,
            @ForAll @IntRange(min = 1, max = 9) int number,
            @ForAll @DoubleRange(min = 0, max = 1) double p,
            @ForAll @DoubleRange(min = 0, max = 1) double q) {
        double[] x = Arrays.stream(raw).map(v -> Math.round(v % 1000)).toArray();
        QuantileType type = QuantileType.ofNumber(number);
        double low = Quantiles.of(x, Math.min(p, q), type);
        double high = Quantiles.of(x, Math.max(p, q), type);
        assertThat(low).isLessThanOrEqualTo(high + 1e-9);
        assertThat(low).isGreaterThanOrEqualTo(Arrays.stream(x).min().orElseThrow());
        assertThat(high).isLessThanOrEqualTo(Arrays.stream(x).max().orElseThrow());
    }
}
