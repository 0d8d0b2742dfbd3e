package org.sideport.stats.standard;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.resample.Bootstrap;

/** Worked example of 4 judges and 5 items; further digits from R (src/test/oracle/standard/standard.R: lm and t.test). */
class AngoffTest {

    private static final Bootstrap BOOTSTRAP = new Bootstrap(2000, 7, 0.95);
    private static final double[][] POINTS = {{3, 3, 4, 3, 4}, {4, 3, 4, 3, 3}, {3, 3, 3, 3, 4}, {4, 4, 4, 3, 4}};

    /** Worked example, own data, by hand: totals 17 17 16 19, cut 17.25 of 25 = 69.0 %, SE .6292. */
    @Test
    void workedExample() {
        Angoff found = Angoff.of(POINTS, BOOTSTRAP).orElseThrow();
        assertThat(found.totals()).containsExactly(17.0, 17.0, 16.0, 19.0);
        assertThat(found.cut().value()).isEqualTo(17.25);
        assertThat(found.cut().value() / 25).isCloseTo(0.69, within(1e-15));
        assertThat(found.cut().se()).isCloseTo(0.629152869606, within(1e-12));
        assertThat(found.cut().n()).isEqualTo(4);
        assertThat(found.tLimits().lower()).isCloseTo(15.2477547747, within(1e-9));
        assertThat(found.tLimits().upper()).isCloseTo(19.2522452253, within(1e-9));
        assertThat(found.cut().warnings()).first().asString().contains("only 4 judges");
    }

    @Test
    void errorsOfJudgesAndItems() {
        Angoff found = Angoff.of(POINTS, BOOTSTRAP).orElseThrow();
        Angoff.Components c = found.components();
        assertThat(c.judge()).isCloseTo(0.025, within(1e-12));
        assertThat(c.item()).isCloseTo(0.0583333333333, within(1e-12));
        assertThat(c.rest()).isCloseTo(0.191666666667, within(1e-12));
        assertThat(c.judges()).isEqualTo(4);
        assertThat(c.items()).isEqualTo(5);
        assertThat(c.standardError(4)).isCloseTo(0.629152869606, within(1e-12));
        assertThat(c.standardError(10)).isCloseTo(0.397911212877, within(1e-12));
        assertThat(found.itemsAlsoVary()).isCloseTo(0.829156197589, within(1e-12));
        assertThat(c.standardErrorOverItems(10)).isCloseTo(0.67082039325, within(1e-11));
    }

    /** The judges' component is negative; the error over judges is still that of their totals. */
    @Test
    void negativeComponentIsShown() {
        Angoff found = Angoff.of(new double[][] {{1, 5, 3, 2}, {2, 5, 3, 1}, {1, 3, 3, 3}}, new Bootstrap(500, 7, 0.9))
                .orElseThrow();
        assertThat(found.components().judge()).isCloseTo(-0.194444444444, within(1e-12));
        assertThat(found.components().item()).isCloseTo(1.416666666667, within(1e-12));
        assertThat(found.components().rest()).isCloseTo(0.861111111111, within(1e-12));
        assertThat(found.components().standardError(3)).isCloseTo(0.333333333333, within(1e-12));
        assertThat(found.cut().se()).isCloseTo(0.333333333333, within(1e-12));
        assertThat(found.itemsAlsoVary()).isCloseTo(2.40370085031, within(1e-11));
        assertThat(found.tLimits().lower()).isCloseTo(9.69333813988, within(1e-9));
        assertThat(found.tLimits().level()).isEqualTo(0.9);
    }

    /** Items that do not differ: their negative component adds no error. */
    @Test
    void negativeItemComponentCountsAsNothing() {
        Angoff.Components c = new Angoff.Components(0.5, -0.1, 0.2, 4, 5);
        assertThat(c.standardErrorOverItems(4)).isEqualTo(c.standardError(4));
        assertThat(c.standardError(4)).isCloseTo(5 * Math.sqrt(0.54 / 4), within(1e-12));
        assertThat(new Angoff.Components(-0.1, 0, 0.2, 4, 5).standardError(4)).isZero();
    }

    @Test
    void limitsAreTheBootstrapOverJudges() {
        Angoff found = Angoff.of(POINTS, BOOTSTRAP).orElseThrow();
        double[] totals = {17, 17, 16, 19};
        Interval expected = BOOTSTRAP
                .bca(
                        4,
                        idx -> Arrays.stream(idx)
                                .mapToDouble(i -> totals[i])
                                .average()
                                .orElseThrow())
                .orElseThrow();
        assertThat(found.cut().limits()).isEqualTo(expected);
        assertThat(found.cut().limits()).isNotNull();
        assertThat(found.cut().limits().contains(17.25)).isTrue();
    }

    @Test
    void tenJudgesGiveNoWarning() {
        double[][] points = new double[10][2];
        for (int j = 0; j < 10; j++) {
            points[j] = new double[] {j % 3, j % 4};
        }
        assertThat(Angoff.of(points, BOOTSTRAP).orElseThrow().cut().warnings()).isEmpty();
        assertThat(Angoff.of(Arrays.copyOf(points, 9), BOOTSTRAP)
                        .orElseThrow()
                        .cut()
                        .warnings())
                .singleElement()
                .asString()
                .contains("only 9 judges");
    }

    /** Two judges cannot be resampled: a cut without bootstrap limits, which says so. */
    @Test
    void twoJudgesHaveNoBootstrapLimits() {
        Angoff found = Angoff.of(new double[][] {{1, 2}, {2, 3}}, BOOTSTRAP).orElseThrow();
        assertThat(found.cut().value()).isEqualTo(4);
        assertThat(found.cut().limits()).isNull();
        assertThat(found.cut().warnings()).anyMatch(w -> w.startsWith("There are no limits: there are only 2 units"));
        // t with 1 degree of freedom, 97.5 %: 12.7062 (any t table)
        assertThat(found.tLimits().upper()).isCloseTo(4 + 12.7062, within(1e-4));
    }

    private static Refusal refusal(double[][] points) {
        return ((Outcome.Refused<Angoff>) Angoff.of(points, BOOTSTRAP)).refusal();
    }

    @Test
    void tooFewAreRefused() {
        assertThat(refusal(new double[][] {{1, 2}}).why()).isEqualTo("there are 1 judge and 2 items");
        assertThat(refusal(new double[][] {{1}, {2}}).why()).isEqualTo("there are 2 judges and 1 item");
        assertThat(refusal(new double[0][0]).why()).isEqualTo("there are 0 judges and 0 items");
        assertThat(refusal(new double[0][0]).reason()).isEqualTo(Refusal.Reason.TOO_FEW);
        assertThatThrownBy(() -> Angoff.of(new double[][] {{1, 2}, {1}}, BOOTSTRAP))
                .hasMessageContaining("rows of 2 and 1 items");
    }

    /** Neither the order of the judges nor that of the items matters, and items that vary never lessen the error. */
    @Property(tries = 50)
    void orderDoesNotMatter(@ForAll @Size(12) List<@IntRange(max = 4) Integer> cells) {
        double[][] points = new double[3][4];
        double[][] rotated = new double[3][4];
        for (int j = 0; j < 3; j++) {
            for (int i = 0; i < 4; i++) {
                points[j][i] = cells.get(j * 4 + i);
                rotated[(j + 1) % 3][(i + 2) % 4] = points[j][i];
            }
        }
        Bootstrap quick = new Bootstrap(100, 1, 0.95);
        Angoff first = Angoff.of(points, quick).orElseThrow();
        Angoff second = Angoff.of(rotated, quick).orElseThrow();
        assertThat(second.cut().value()).isCloseTo(first.cut().value(), within(1e-12));
        assertThat(second.components().rest()).isCloseTo(first.components().rest(), within(1e-12));
        assertThat(second.itemsAlsoVary()).isCloseTo(first.itemsAlsoVary(), within(1e-7));
        assertThat(first.itemsAlsoVary())
                .isGreaterThanOrEqualTo(first.components().standardError(3) - 1e-12);
    }
}
