package org.sideport.stats.variance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.api.Assertions.withinPercentage;

import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.data.Factor;
import org.sideport.stats.data.LongData;

class RemlTest {

    /** Shrout & Fleiss 1979, Psychological Bulletin 86:420, table 2. */
    private static final double[] SHROUT = {
        9, 2, 5, 8, 6, 1, 3, 2, 8, 4, 6, 8, 7, 1, 2, 6, 10, 5, 6, 9, 6, 2, 4, 7,
    };

    private static final List<Factor> SHROUT_FACTORS = List.of(
            Factor.of(
                    "target", IntStream.range(0, 24).mapToObj(i -> "T" + i / 4).toList()),
            Factor.of("judge", IntStream.range(0, 24).mapToObj(i -> "J" + i % 4).toList()));

    record Expected(String data, String model, List<String[]> rows) {
        @Override
        public String toString() {
            return data;
        }

        String[] row(String name) {
            return rows.stream().filter(r -> r[2].equals(name)).findFirst().orElseThrow();
        }
    }

    /** lme4 1.1.31, see src/test/oracle/gtheory/reml.R. */
    static Stream<Expected> lme4() {
        return Table.rows("reml-expected").stream()
                .skip(1)
                .collect(Collectors.groupingBy(r -> r[0], java.util.LinkedHashMap::new, Collectors.toList()))
                .entrySet()
                .stream()
                .map(e -> new Expected(e.getKey(), e.getValue().get(0)[1], e.getValue()));
    }

    @ParameterizedTest
    @MethodSource("lme4")
    void agreesWithLme4(Expected expected) {
        LongData data = Table.data(expected.data());
        VarianceComponents fit =
                Reml.fit(data.values(), Table.model(data, expected.model())).orElseThrow();

        double criterion = Double.parseDouble(expected.row("criterion")[3]);
        assertThat(fit.criterion()).isNotNull().isCloseTo(criterion, within(1e-6));
        assertThat(fit.n()).isEqualTo(data.size());
        assertThat(fit.method()).isEqualTo("REML");
        double mean = Double.parseDouble(expected.row("mean")[3]);
        assertThat(fit.mean()).isCloseTo(mean, within(1e-6));
        assertThat(fit.meanSe()).isNotNull().isCloseTo(Double.parseDouble(expected.row("mean")[4]), within(1e-6));
        for (VarianceComponent component : Stream.concat(fit.components().stream(), Stream.of(fit.residual()))
                .toList()) {
            String[] row = expected.row(component.name());
            double variance = Double.parseDouble(row[3]);
            if (row[4].equals("NA")) {
                assertThat(component.variance()).as(component.name()).isZero();
                assertThat(component.se()).as(component.name()).isNull();
                assertThat(fit.warnings())
                        .anyMatch(w -> w.contains("variance of " + component.name() + " is estimated as 0"));
            } else {
                assertThat(component.variance()).as(component.name()).isCloseTo(variance, withinPercentage(1e-3));
                assertThat(component.se())
                        .as(component.name())
                        .isNotNull()
                        .isCloseTo(Double.parseDouble(row[4]), withinPercentage(0.02));
            }
        }
    }

    /** From the mean squares of the published table. */
    @Test
    void reproducesTheComponentsOfShroutAndFleiss() {
        VarianceComponents fit = Reml.fit(SHROUT, SHROUT_FACTORS).orElseThrow();

        assertThat(fit.component("target").variance()).isCloseTo(2.555556, within(5e-7));
        assertThat(fit.component("judge").variance()).isCloseTo(5.244444, within(5e-7));
        assertThat(fit.component("residual").variance()).isCloseTo(1.019444, within(5e-7));
        assertThat(fit.component("target").levels()).isEqualTo(6);
        assertThat(fit.component("residual").levels()).isEqualTo(24);
        // var(mean) = (MST + MSJ - MSE) / 24 in balanced data, Searle, Casella & McCulloch 1992, section 4.7 (memory).
        assertThat(fit.meanSe()).isNotNull().isCloseTo(Math.sqrt((11.24167 + 32.48611 - 1.01944) / 24), within(1e-6));
    }

    /**
     * Large-sample variance of an analysis-of-variance estimate, 2 MS² / df summed (Searle, Casella & McCulloch 1992,
     * Variance Components, section 4.5, memory): for balanced data the REML information gives the same.
     */
    @Test
    void standardErrorsOfBalancedDataAreThoseOfTheMeanSquares() {
        VarianceComponents fit = Reml.fit(SHROUT, SHROUT_FACTORS).orElseThrow();

        double bms = 11.2416666667;
        double jms = 32.4861111111;
        double ems = 1.0194444444;
        assertThat(fit.component("target").se())
                .isCloseTo(Math.sqrt(2 * (bms * bms / 5 + ems * ems / 15)) / 4, withinPercentage(0.001));
        assertThat(fit.component("judge").se())
                .isCloseTo(Math.sqrt(2 * (jms * jms / 3 + ems * ems / 15)) / 6, withinPercentage(0.001));
        assertThat(fit.component("residual").se()).isCloseTo(ems * Math.sqrt(2.0 / 15), withinPercentage(0.001));
    }

    @Test
    void addingAConstantChangesTheMeanOnlyAndAFactorSquares() {
        LongData data = Table.data("pcr-missing");
        List<Factor> model = Table.model(data, "subject+rater+subject:rater");
        VarianceComponents plain = Reml.fit(data.values(), model).orElseThrow();
        VarianceComponents moved = Reml.fit(
                        Arrays.stream(data.values()).map(v -> 1000 - 3 * v).toArray(), model)
                .orElseThrow();

        assertThat(moved.mean()).isCloseTo(1000 - 3 * plain.mean(), within(1e-6));
        for (String name : List.of("subject", "rater", "subject:rater", "residual")) {
            assertThat(moved.component(name).variance())
                    .isCloseTo(9 * plain.component(name).variance(), withinPercentage(1e-3));
        }
    }

    @Test
    void orderOfRowsAndNamesOfLevelsDoNotMatter() {
        LongData data = Table.data("pcr-boundary");
        List<Integer> order = IntStream.range(0, data.size()).boxed().collect(Collectors.toList());
        Collections.shuffle(order, new Random(3));
        double[] values = order.stream().mapToDouble(i -> data.values()[i]).toArray();
        List<Factor> shuffled = data.factors().stream()
                .map(f -> Factor.of(
                        f.name(),
                        order.stream().map(i -> "x" + (99 - f.codes()[i])).toList()))
                .toList();
        String terms = "subject+case+rater+subject:case+subject:rater";
        VarianceComponents plain =
                Reml.fit(data.values(), Table.model(data, terms)).orElseThrow();
        VarianceComponents other = Reml.fit(values, Table.model(new LongData(shuffled, values), terms))
                .orElseThrow();

        for (VarianceComponent component : plain.components()) {
            assertThat(other.component(component.name()).variance()).isCloseTo(component.variance(), within(1e-7));
        }
        assertThat(other.criterion()).isNotNull().isCloseTo(plain.criterion(), within(1e-9));
    }

    @Test
    void refusesWhatTheDesignCannotTellApart() {
        Factor pair = Crossing.of(SHROUT_FACTORS);
        assertRefused(
                Reml.fit(SHROUT, List.of(pair)), Refusal.Reason.NOT_IDENTIFIED, "24 values has its own target:judge");

        List<Factor> twice = List.of(
                SHROUT_FACTORS.get(0),
                new Factor(
                        "ward",
                        SHROUT_FACTORS.get(0).levels(),
                        SHROUT_FACTORS.get(0).codes()),
                SHROUT_FACTORS.get(1));
        assertRefused(Reml.fit(SHROUT, twice), Refusal.Reason.NOT_IDENTIFIED, "apart: target, ward");
    }

    /** Two persons only, three cases: the person's variance is seen with one degree of freedom. */
    @Test
    void refusesOneLevelNoVariationAndPerfectFit() {
        Factor one = Factor.of("rater", List.of("R1", "R1", "R1", "R1"));
        Factor two = Factor.of("subject", List.of("T1", "T1", "T2", "T2"));
        assertRefused(Reml.fit(new double[] {1, 2, 3, 4}, List.of(two, one)), Refusal.Reason.TOO_FEW, "only one rater");
        assertRefused(Reml.fit(new double[] {3, 3, 3, 3}, List.of(two)), Refusal.Reason.NO_VARIATION, "all 4 values");
        assertRefused(Reml.fit(new double[] {3, 3, 5, 5}, List.of(two)), Refusal.Reason.NOT_CONVERGED, "4 values");
    }

    @Test
    void wrongCallsAreProgrammingErrors() {
        Factor two = Factor.of("subject", List.of("T1", "T1", "T2", "T2"));
        assertThatIllegalArgumentException().isThrownBy(() -> Reml.fit(new double[4], List.of()));
        assertThatIllegalArgumentException().isThrownBy(() -> Reml.fit(new double[3], List.of(two)));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> Reml.fit(new double[] {1, 2, Double.NaN, 4}, List.of(two)));
    }

    private static void assertRefused(Outcome<?> outcome, Refusal.Reason reason, String words) {
        assertThat(outcome).isInstanceOfSatisfying(Outcome.Refused.class, refused -> {
            assertThat(refused.refusal().reason()).isEqualTo(reason);
            assertThat(refused.refusal().why()).contains(words);
        });
    }
}
