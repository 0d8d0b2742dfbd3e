package org.sideport.stats.agreement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/** Against Bland & Altman 1986, 1999 and 2007; further digits by R, src/test/oracle/agreement/blandaltman.R. */
class BlandAltmanTest {

    /** Bland & Altman 1986, Lancet i:307: first readings of peak flow by two meters, l/min. */
    private static final double[] LARGE = {
        494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427
    };

    private static final double[] MINI = {
        512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451
    };

    @Test
    void peakFlowGivesThePublishedLimits() {
        LimitsOfAgreement found = BlandAltman.of(LARGE, MINI, 2, 0.95).orElseThrow();
        assertThat(found.bias().value()).isCloseTo(-2.117647, within(5e-7));
        assertThat(found.sd()).isCloseTo(38.765130, within(5e-7));
        assertThat(found.lower().value()).isCloseTo(-79.647907, within(5e-7));
        assertThat(found.upper().value()).isCloseTo(75.412613, within(5e-7));
        assertThat(found.multiplier()).isEqualTo(2);
        assertThat(found.bias().n()).isEqualTo(17);
        assertThat(found.bias().warnings()).singleElement().asString().contains("only 17 pairs");
        // page 309: limits of the bias −22.0 to 17.8
        assertThat(found.bias().limits().lower()).isCloseTo(-22.0488376966, within(1e-8));
        assertThat(found.bias().limits().upper()).isCloseTo(17.8135435790, within(1e-8));
    }

    @Test
    void theLimitsHaveLimitsOfTheirOwn() {
        LimitsOfAgreement found = BlandAltman.of(LARGE, MINI, 1.96, 0.95).orElseThrow();
        assertThat(found.lower().value()).isCloseTo(-78.0973016111, within(1e-8));
        assertThat(found.lower().limits().lower()).isCloseTo(-112.8533779092, within(1e-7));
        assertThat(found.lower().limits().upper()).isCloseTo(-43.3412253130, within(1e-7));
        assertThat(found.upper().limits().upper() - found.upper().value())
                .isCloseTo(found.lower().limits().upper() - found.lower().value(), within(1e-9));
        assertThat(found.slope()).isCloseTo(.0286874452, within(1e-9));
        assertThat(found.slopeP()).isCloseTo(.7494985336, within(1e-9));
    }

    @Test
    void aDifferenceThatGrowsWithSizeIsWarnedOf() {
        double[] first = new double[60];
        double[] second = new double[60];
        for (int i = 0; i < 60; i++) {
            first[i] = 10 + i + 0.1 * i;
            second[i] = 10 + i + (i % 3 - 1);
        }
        LimitsOfAgreement found = BlandAltman.of(first, second, 1.96, 0.95).orElseThrow();
        assertThat(found.bias().warnings()).singleElement().asString().contains("changes with the size");
    }

    @Test
    void equalMeansHaveNoSlope() {
        LimitsOfAgreement found = BlandAltman.of(new double[] {1, 2, 3}, new double[] {3, 2, 1}, 1.96, 0.95)
                .orElseThrow();
        assertThat(found.slope()).isNull();
        assertThat(found.slopeP()).isNull();
        assertThat(found.bias().value()).isZero();
        assertThat(found.sd()).isCloseTo(2, within(1e-12));
    }

    /** Bland & Altman 1999, table 4 (2007, table 1): cardiac output by two methods, 12 subjects, 60 pairs. */
    private record Cardiac(double[][] rv, double[][] ic) {

        static Cardiac read() {
            Map<Integer, List<double[]>> rows = new TreeMap<>();
            try (var in = BlandAltmanTest.class.getResourceAsStream("cardiac.csv")) {
                new String(in.readAllBytes(), StandardCharsets.UTF_8)
                        .lines()
                        .skip(1)
                        .forEach(line -> {
                            String[] cells = line.split(",");
                            rows.computeIfAbsent(Integer.valueOf(cells[0]), key -> new ArrayList<>())
                                    .add(new double[] {Double.parseDouble(cells[1]), Double.parseDouble(cells[2])});
                        });
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
            return new Cardiac(column(rows, 0), column(rows, 1));
        }

        private static double[][] column(Map<Integer, List<double[]>> rows, int column) {
            return rows.values().stream()
                    .map(own -> own.stream().mapToDouble(row -> row[column]).toArray())
                    .toArray(double[][]::new);
        }

        double[][] differences() {
            double[][] differences = new double[rv.length][];
            for (int i = 0; i < rv.length; i++) {
                differences[i] = new double[rv[i].length];
                for (int j = 0; j < rv[i].length; j++) {
                    differences[i][j] = rv[i][j] - ic[i][j];
                }
            }
            return differences;
        }
    }

    /** Bland & Altman 2007, section 3: bias 0.60; figures by aov. */
    @Test
    void repeatedPairsWithAVaryingTruth() {
        LimitsOfAgreement found = RepeatedBlandAltman.varyingTruth(
                        Cardiac.read().differences(), 1.96, 0.95)
                .orElseThrow();
        assertThat(found.bias().value()).isCloseTo(.6021666667, within(1e-9));
        assertThat(found.sd()).isCloseTo(.9906241080, within(1e-9));
        assertThat(found.lower().value()).isCloseTo(-1.3394565851, within(1e-9));
        assertThat(found.upper().value()).isCloseTo(2.5437899184, within(1e-9));
        assertThat(found.bias().n()).isEqualTo(12);
        assertThat(found.bias().warnings()).singleElement().asString().contains("only 12 subjects");
        // var of the bias by hand: .8106221303 · (Σm² = 312)/60² + .1707139931/60, m 5 4 6 5 6 4 4 6 3 5 6 6
        assertThat(found.bias().se()).isCloseTo(Math.sqrt(.8106221303 * 312 / 3600 + .1707139931 / 60), within(1e-9));
        // delta method by hand from the mean squares 4.2090860606 (11 df), .1707139931 (48 df), divisor 4.9818181818
        double ofVariance = 2 * Math.pow(4.2090860606 / 4.9818181818, 2) / 11
                + 2 * Math.pow(.1707139931 * (1 - 1 / 4.9818181818), 2) / 48;
        double se =
                Math.sqrt(Math.pow(found.bias().se(), 2) + 1.96 * 1.96 * ofVariance / (4 * .9906241080 * .9906241080));
        assertThat(found.upper().se()).isCloseTo(se, within(1e-9));
        assertThat(found.upper().limits().upper()).isCloseTo(2.5437899184 + 1.959963985 * se, within(1e-8));
    }

    /** Bland & Altman 1999, section 5.2: bias 0.71, within variances .1072 and .1379. */
    @Test
    void repeatedMeasurementsOfAConstantTruth() {
        Cardiac data = Cardiac.read();
        LimitsOfAgreement found = RepeatedBlandAltman.constantTruth(data.rv(), data.ic(), 1.96, 0.95)
                .orElseThrow();
        assertThat(found.bias().value()).isCloseTo(.7092361111, within(1e-9));
        assertThat(found.sd()).isCloseTo(1.0518506032, within(1e-9));
        assertThat(found.lower().value()).isCloseTo(-1.3523910712, within(1e-9));
        assertThat(found.upper().value()).isCloseTo(2.7708632934, within(1e-9));
        assertThat(found.bias().se()).isCloseTo(Math.sqrt(.9126911538 / 12), within(1e-9));
        // mean of 1/m over 5 4 6 5 6 4 4 6 3 5 6 6
        double share = 1 - (3 / 5.0 + 3 / 4.0 + 5 / 6.0 + 1 / 3.0) / 12;
        double ofVariance = 2 * Math.pow(.9126911538, 2) / 11
                + 2 * Math.pow(share * .1072277778, 2) / 48
                + 2 * Math.pow(share * .1378740625, 2) / 48;
        assertThat(found.lower().se())
                .isCloseTo(
                        Math.sqrt(.9126911538 / 12 + 1.96 * 1.96 * ofVariance / (4 * 1.0518506032 * 1.0518506032)),
                        within(1e-9));
    }

    private static Refusal refusal(Outcome<?> outcome) {
        return ((Outcome.Refused<?>) outcome).refusal();
    }

    @Test
    void whatCannotBeComputedIsRefused() {
        assertThat(refusal(BlandAltman.of(new double[] {1, 2}, new double[] {1, 3}, 1.96, 0.95))
                        .why())
                .isEqualTo("there are 2 pairs");
        assertThat(refusal(BlandAltman.of(new double[] {1}, new double[] {1}, 1.96, 0.95))
                        .why())
                .isEqualTo("there is 1 pair");
        assertThat(refusal(RepeatedBlandAltman.varyingTruth(new double[][] {{1, 2}, {1}}, 1.96, 0.95))
                        .why())
                .isEqualTo("there are 2 subjects");
        assertThat(refusal(RepeatedBlandAltman.varyingTruth(new double[][] {{1}, {1}, {2}}, 1.96, 0.95))
                        .reason())
                .isEqualTo(Refusal.Reason.UNSUITABLE_DATA);
        double[][] single = {{1}, {2}, {4}};
        assertThat(refusal(RepeatedBlandAltman.constantTruth(single, single, 1.96, 0.95))
                        .why())
                .contains("measured twice");
        double[][] two = {{1}, {2}};
        assertThat(refusal(RepeatedBlandAltman.constantTruth(two, two, 1.96, 0.95))
                        .why())
                .isEqualTo("there are 2 subjects");
        assertThatThrownBy(() -> RepeatedBlandAltman.constantTruth(single, two, 1.96, 0.95))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> BlandAltman.of(new double[3], new double[4], 1.96, 0.95))
                .isInstanceOf(IllegalArgumentException.class);
    }

    /** By hand: no scatter between subjects beyond chance counts as none: differences 1 −1 | −1 1 | 0 0, within 4/3. */
    @Test
    void aBetweenVarianceBelowZeroIsNone() {
        LimitsOfAgreement found = RepeatedBlandAltman.varyingTruth(
                        new double[][] {{1, -1}, {-1, 1}, {0, 0}}, 1.96, 0.95)
                .orElseThrow();
        assertThat(found.sd()).isCloseTo(Math.sqrt(4.0 / 3), within(1e-12));
        LimitsOfAgreement equal = RepeatedBlandAltman.varyingTruth(new double[][] {{1, 1}, {1}, {1}}, 1.96, 0.95)
                .orElseThrow();
        assertThat(equal.sd()).isZero();
        assertThat(equal.upper().se()).isZero();
    }

    /** One method measured twice, the other once; by hand. */
    @Test
    void onlyOneMethodNeedsRepeats() {
        LimitsOfAgreement found = RepeatedBlandAltman.constantTruth(
                        new double[][] {{1, 3}, {4, 4}, {5, 9}}, new double[][] {{1}, {3}, {8}}, 1.96, 0.95)
                .orElseThrow();
        // mean differences 1 1 −1: variance 4/3; within of the first (2 + 0 + 8)/3, half of it
        assertThat(found.sd()).isCloseTo(Math.sqrt(4.0 / 3 + 5.0 / 3), within(1e-12));
        assertThat(found.bias().value()).isCloseTo(1.0 / 3, within(1e-12));
    }
}
