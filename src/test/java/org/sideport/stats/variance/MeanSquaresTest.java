package org.sideport.stats.variance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.api.Assertions.withinPercentage;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.data.Factor;

class MeanSquaresTest {

    /** Shrout & Fleiss 1979, Psychological Bulletin 86:420, table 2. */
    private static final double[] SHROUT = {
        9, 2, 5, 8, 6, 1, 3, 2, 8, 4, 6, 8, 7, 1, 2, 6, 10, 5, 6, 9, 6, 2, 4, 7,
    };

    private static List<MeanSquares.Source> twoWay(int n, int raters) {
        Factor target = Factor.of(
                "target", IntStream.range(0, n).mapToObj(i -> "T" + i / raters).toList());
        Factor judge = Factor.of(
                "judge", IntStream.range(0, n).mapToObj(i -> "J" + i % raters).toList());
        return List.of(
                new MeanSquares.Source(1, target),
                new MeanSquares.Source(2, judge),
                new MeanSquares.Source(3, Crossing.of(List.of(target, judge))));
    }

    /** Published mean squares 11.24, 32.49, 1.02; the digits and the components by arithmetic from them. */
    @Test
    void reproducesShroutAndFleiss() {
        MeanSquares.Table table = MeanSquares.fit(SHROUT, twoWay(24, 4)).orElseThrow();

        assertThat(table.lines()).extracting(MeanSquares.Line::name).containsExactly("target", "judge", "residual");
        assertThat(table.lines()).extracting(MeanSquares.Line::df).containsExactly(5, 3, 15);
        assertThat(table.lines().get(0).meanSquare()).isCloseTo(11.24167, within(5e-6));
        assertThat(table.lines().get(1).meanSquare()).isCloseTo(32.48611, within(5e-6));
        assertThat(table.lines().get(2).meanSquare()).isCloseTo(1.01944, within(5e-6));
        assertThat(table.lines().get(1).sumOfSquares()).isCloseTo(3 * 32.48611, within(2e-5));
        VarianceComponents components = table.components();
        assertThat(components.component("target").variance()).isCloseTo(2.555556, within(5e-7));
        assertThat(components.component("judge").variance()).isCloseTo(5.244444, within(5e-7));
        assertThat(components.residual().variance()).isCloseTo(1.019444, within(5e-7));
        assertThat(components.residual().levels()).isEqualTo(24);
        assertThat(components.component("judge").levels()).isEqualTo(4);
        assertThat(components.mean()).isCloseTo(127.0 / 24, within(1e-12));
        assertThat(components.method()).isEqualTo("mean squares");
        assertThat(components.criterion()).isNull();
        assertThat(components.warnings()).singleElement().asString().contains("judge rests on 4 levels");
    }

    /**
     * The unbiased variance of a mean square is 2 MS² / (df + 2), since E(MS²) = θ² (df + 2) / df for a mean square of
     * expectation θ; Brennan 2001, Generalizability Theory, section 6.1 uses it (memory).
     */
    @Test
    void standardErrorsAddTheVariancesOfTheMeanSquares() {
        VarianceComponents c =
                MeanSquares.fit(SHROUT, twoWay(24, 4)).orElseThrow().components();
        double bms = 11.2416666667;
        double jms = 32.4861111111;
        double ems = 1.0194444444;
        assertThat(c.component("target").se())
                .isCloseTo(Math.sqrt(2 * (bms * bms / 7 + ems * ems / 17)) / 4, withinPercentage(1e-6));
        assertThat(c.component("judge").se())
                .isCloseTo(Math.sqrt(2 * (jms * jms / 5 + ems * ems / 17)) / 6, withinPercentage(1e-6));
        assertThat(c.residual().se()).isCloseTo(ems * Math.sqrt(2.0 / 17), withinPercentage(1e-6));
    }

    /** Two scores a cell by hand: cells {1,3} {5,5} / {2,4} {8,10}; means 2 5 / 3 9. */
    @Test
    void severalScoresACellGiveAnInteractionAndAResidual() {
        double[] y = {1, 3, 5, 5, 2, 4, 8, 10};
        Factor a = Factor.of("a", List.of("1", "1", "1", "1", "2", "2", "2", "2"));
        Factor b = Factor.of("b", List.of("1", "1", "2", "2", "1", "1", "2", "2"));
        MeanSquares.Table table = MeanSquares.fit(
                        y,
                        List.of(
                                new MeanSquares.Source(3, Crossing.of(List.of(a, b))),
                                new MeanSquares.Source(1, a),
                                new MeanSquares.Source(2, b)))
                .orElseThrow();
        // Grand mean 4.75; a: 3.5, 6.0; b: 2.5, 7.0. SS a = 4(1.25² + 1.25²), SS b = 4(2.25² + 2.25²).
        // Cells less a less b plus grand: 2 - 3.5 - 2.5 + 4.75 = .75, so SS ab = 8 · .75². Within: 2 + 0 + 2 + 2.
        assertThat(table.lines()).extracting(MeanSquares.Line::name).containsExactly("a:b", "a", "b", "residual");
        assertThat(table.lines()).extracting(MeanSquares.Line::df).containsExactly(1, 1, 1, 4);
        assertThat(table.lines()).extracting(MeanSquares.Line::sumOfSquares).containsExactly(4.5, 12.5, 40.5, 6.0);
        // E: res s; ab s + 2 ab; a s + 2 ab + 4 a.
        assertThat(table.components().component("a:b").variance()).isCloseTo((4.5 - 1.5) / 2, within(1e-12));
        assertThat(table.components().component("a").variance()).isCloseTo((12.5 - 4.5) / 4, within(1e-12));
        assertThat(table.components().component("b").variance()).isCloseTo((40.5 - 4.5) / 4, within(1e-12));
        assertThat(table.components().residual().variance()).isCloseTo(1.5, within(1e-12));
        assertThat(table.components().residual().levels()).isEqualTo(8);
    }

    @Test
    void seesImbalance() {
        assertThat(MeanSquares.balanced(twoWay(24, 4))).isTrue();
        assertThat(MeanSquares.balanced(twoWay(23, 4))).isFalse();
        // Marginally equal, but the combinations are not all there.
        Factor a = Factor.of("a", List.of("1", "1", "2", "2"));
        Factor b = Factor.of("b", List.of("1", "1", "2", "2"));
        List<MeanSquares.Source> same = List.of(
                new MeanSquares.Source(1, a),
                new MeanSquares.Source(2, b),
                new MeanSquares.Source(3, Crossing.of(List.of(a, b))));
        assertThat(MeanSquares.balanced(same)).isFalse();
        assertRefused(
                MeanSquares.fit(Arrays.copyOf(SHROUT, 23), twoWay(23, 4)),
                Refusal.Reason.UNSUITABLE_DATA,
                "not balanced");
    }

    @Test
    void refusesWhatHasNoDegreeOfFreedomOrDoesNotVary() {
        assertRefused(MeanSquares.fit(new double[] {1, 2, 3}, twoWay(3, 1)), Refusal.Reason.TOO_FEW, "judge");
        assertRefused(MeanSquares.fit(new double[] {7, 7, 7, 7}, twoWay(4, 2)), Refusal.Reason.NO_VARIATION, "all 4");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> MeanSquares.fit(new double[4], twoWay(4, 2).subList(0, 2)));
        Factor target = twoWay(4, 2).get(0).factor();
        assertThatIllegalArgumentException().isThrownBy(() -> new MeanSquares.Source(0, target));
    }

    /** Three persons whom two raters rank in opposite ways: between-person mean square 0, error positive. */
    @Test
    void leavesANegativeComponentAsItComesAndSaysSo() {
        VarianceComponents c = MeanSquares.fit(new double[] {1, 3, 2, 2, 3, 1}, twoWay(6, 2))
                .orElseThrow()
                .components();
        // MS target 0, MS error = 4 / 2 = 2: (0 - 2) / 2.
        assertThat(c.component("target").variance()).isCloseTo(-1, within(1e-12));
        assertThat(c.component("target").truncated()).isZero();
        assertThat(c.warnings()).anyMatch(w -> w.startsWith("the variance of target comes out negative"));
    }

    @Test
    void crossingNamesOnlyWhatOccurs() {
        Factor a = Factor.of("a", List.of("x", "y", "x"));
        Factor b = Factor.of("b", List.of("1", "2", "1"));
        Factor c = Factor.of("c", List.of("p", "q", "r"));
        Factor crossed = Crossing.of(List.of(a, b, c));
        assertThat(crossed.name()).isEqualTo("a:b:c");
        assertThat(crossed.levels()).containsExactly("x:1:p", "y:2:q", "x:1:r");
        assertThat(crossed.codes()).containsExactly(0, 1, 2);
        assertThat(Crossing.of(List.of(a))).isSameAs(a);
        assertThatIllegalArgumentException().isThrownBy(() -> Crossing.of(List.of()));
        assertThatIllegalArgumentException().isThrownBy(() -> Crossing.of(List.of(a, Factor.of("d", List.of("1")))));
    }

    @Test
    void aComponentIsFoundByNameOrNotAtAll() {
        VarianceComponents c =
                MeanSquares.fit(SHROUT, twoWay(24, 4)).orElseThrow().components();
        assertThat(c.component("residual")).isEqualTo(c.residual());
        assertThatIllegalArgumentException().isThrownBy(() -> c.component("ward"));
        assertThatIllegalArgumentException().isThrownBy(() -> new VarianceComponent("x", 2, Double.NaN, null));
        assertThat(Stream.of(2.0, -1.0).map(v -> new VarianceComponent("x", 2, v, null).truncated()))
                .containsExactly(2.0, 0.0);
    }

    private static void assertRefused(Outcome<?> outcome, Refusal.Reason reason, String words) {
        assertThat(outcome).isInstanceOfSatisfying(Outcome.Refused.class, refused -> {
            assertThat(refused.refusal().reason()).isEqualTo(reason);
            assertThat(refused.refusal().why()).contains(words);
        });
    }
}
