package org.sideport.stats.casemix;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.casemix.Separation.Drift;
import org.sideport.stats.casemix.Separation.Kind;

class SeparationTest {

    /**
     * Heinze & Schemper 2002, Statistics in Medicine 21:2409, endometrial cancer: NV separates quasi-completely, its
     * coefficient is +∞ and the others are finite (also the documentation of R's detectseparation).
     */
    @Test
    void endometrialDataAreQuasiCompletelySeparated() {
        CaseOutcomes data = TestData.read("endometrial.csv");
        Separation separation = Separation.of(data);
        assertThat(separation.kind()).isEqualTo(Kind.QUASI_COMPLETE);
        assertThat(separation.terms()).containsExactly(new Drift("nv", 1));
        Outcome<LogisticFit> refused = new LogisticRegression(LogisticMethod.MAXIMUM_LIKELIHOOD, 0.95, true).fit(data);
        assertThat(((Outcome.Refused<LogisticFit>) refused).refusal().reason()).isEqualTo(Refusal.Reason.SEPARATED);
    }

    /**
     * Heinze & Schemper 2002, table II (memory; printed to 3 decimals): estimates 3.775, 2.929, −.035, −2.604; penalised
     * profile limits of NV .610 to 7.855, PI −.124 to .040, EH −4.365 to −1.233; further digits by direct maximisation in
     * R (logistic.R).
     */
    @ParameterizedTest
    @CsvSource({
        "intercept, 3.7745597253605, 1.4886916654047, 1.08253710845, 7.20928049826, 8.19801357584, 0.00419362788559",
        "nv, 2.9292733580678, 1.5507637342872, 0.609724436375, 7.85463171388, 6.79845724867, 0.00912366754709",
        "pi, -0.0347517599648, 0.0395781473932, -0.124458720852, 0.0404554731806, 0.746828513432, 0.387482203566",
        "eh, -2.6041639313543, 0.7760176435246, -4.36518324726, -1.23272105722, 17.7593174794, 2.50686721486e-05"
    })
    void firthGivesThePublishedEstimates(
            String name, double estimate, double se, double lower, double upper, double ratio, double p) {
        LogisticFit fit = new LogisticRegression(LogisticMethod.FIRTH, 0.95, true)
                .fit(TestData.read("endometrial.csv"))
                .orElseThrow();
        Coefficient c = fit.coefficient(name);
        assertThat(c.estimate()).isCloseTo(estimate, within(1e-5 * se));
        assertThat(c.se()).isCloseTo(se, within(1e-5 * se));
        assertThat(c.profile()).isNotNull();
        assertThat(c.profile().lower()).isCloseTo(lower, within(1e-4 * se));
        assertThat(c.profile().upper()).isCloseTo(upper, within(1e-4 * se));
        assertThat(c.likelihoodRatio()).isCloseTo(ratio, within(2e-6 * ratio));
        assertThat(c.pLikelihoodRatio()).isCloseTo(p, within(2e-5 * p));
        assertThat(fit.nullDeviance()).isCloseTo(104.903, within(5e-4)); // printed in the documentation named above
        assertThat(fit.separation().kind()).isEqualTo(Kind.QUASI_COMPLETE);
    }

    @Test
    void oneNumberThatSortsTheCasesSeparatesCompletely() {
        Separation up = Separation.of(TestData.of("0 0 0 1 1", new double[] {1, 2, 3, 4, 5}));
        assertThat(up).isEqualTo(new Separation(Kind.COMPLETE, List.of(new Drift("x1", 1))));
        Separation down = Separation.of(TestData.of("0 0 0 1 1", new double[] {5, 4, 3, 2, 1}));
        assertThat(down.terms()).containsExactly(new Drift("x1", -1));
        Separation tie = Separation.of(TestData.of("0 0 0 1 1", new double[] {1, 2, 3, 3, 5}));
        assertThat(tie.kind()).isEqualTo(Kind.QUASI_COMPLETE);
        Separation overlap = Separation.of(TestData.of("0 0 1 0 1", new double[] {1, 2, 3, 3.5, 5}));
        assertThat(overlap).isEqualTo(new Separation(Kind.NONE, List.of()));
    }

    /** x1 + x2 ≥ 4 tells the outcomes, neither alone does. */
    @Test
    void onlyTheSumOfTwoNumbersSeparates() {
        double[] x1 = {0, 1, 3, 2, 1, 4, 4, 1};
        double[] x2 = {1, 2, 0, 1, 4, 1, 2, 5};
        CaseOutcomes data = TestData.of("0 0 0 0 1 1 1 1", x1, x2);
        Separation separation = Separation.of(data);
        assertThat(separation.kind()).isEqualTo(Kind.COMPLETE);
        assertThat(separation.terms()).containsExactly(new Drift("x1", 1), new Drift("x2", 1));
        assertThat(separation.words()).contains("x1, x2 together tell every case");
        assertThat(Separation.of(TestData.of("0 0 0 0 1 1 1 1", x1)).kind()).isEqualTo(Kind.NONE);
        assertThat(Separation.of(TestData.of("0 0 0 0 1 1 1 1", x2)).kind()).isEqualTo(Kind.NONE);
    }

    /** Where a second number only helps or hinders, the sign of its drift is open. */
    @Test
    void directionCanBeOpen() {
        Separation separation =
                Separation.of(TestData.of("0 0 1 1", new double[] {0, 0, 1, 1}, new double[] {0, 1, 0, 1}));
        assertThat(separation.kind()).isEqualTo(Kind.COMPLETE);
        assertThat(separation.terms()).containsExactly(new Drift("x1", 1), new Drift("x2", 0));
    }

    @Test
    void balancedTableIsNotSeparated() {
        assertThat(Separation.of(TestData.of("0 1 0 1", new double[] {0, 0, 1, 1}))
                        .kind())
                .isEqualTo(Kind.NONE);
        assertThat(Separation.of(TestData.read("birthwt.csv")).kind()).isEqualTo(Kind.NONE);
        assertThat(Separation.of(TestData.read("infert.csv")).kind()).isEqualTo(Kind.NONE);
    }

    /** One number: separated completely if the ranges do not touch, quasi-completely if they touch in one point. */
    @Property(tries = 200)
    void oneNumberIsJudgedByTheRanges(@ForAll @Size(4) List<Byte> without, @ForAll @Size(3) List<Byte> with) {
        double[] x = new double[7];
        for (int i = 0; i < 7; i++) {
            x[i] = i < 4 ? without.get(i) % 9 : with.get(i - 4) % 9;
        }
        double lowWithout = min(x, 0, 4);
        double highWithout = -min(negative(x), 0, 4);
        double lowWith = min(x, 4, 7);
        double highWith = -min(negative(x), 4, 7);
        Kind kind = Separation.of(TestData.of("0 0 0 0 1 1 1", x)).kind();
        boolean constant = lowWithout == highWithout && lowWith == highWith && lowWithout == lowWith;
        boolean apart = highWithout < lowWith || highWith < lowWithout;
        boolean touch = highWithout == lowWith || highWith == lowWithout;
        assertThat(kind).isEqualTo(apart ? Kind.COMPLETE : touch && !constant ? Kind.QUASI_COMPLETE : Kind.NONE);
    }

    /** Neither the unit nor the zero of a number matters. */
    @Test
    void unitAndZeroDoNotMatter() {
        double[] x1 = {0, 1, 3, 2, 1, 4, 4, 1};
        double[] x2 = {1, 2, 0, 1, 4, 1, 2, 5};
        for (double scale : new double[] {1e-6, 1, 1e6}) {
            for (double zero : new double[] {0, 5000, -300}) {
                double[] moved =
                        java.util.Arrays.stream(x1).map(v -> scale * (v + zero)).toArray();
                assertThat(Separation.of(TestData.of("0 0 0 0 1 1 1 1", moved, x2)))
                        .isEqualTo(Separation.of(TestData.of("0 0 0 0 1 1 1 1", x1, x2)));
                assertThat(Separation.of(TestData.of("0 0 0 0 1 1 1 1", moved)).kind())
                        .isEqualTo(Kind.NONE);
            }
        }
    }

    /** All cases on the dividing line but one, among many. */
    @Test
    void oneCaseAmongManySeparates() {
        double[] outcome = new double[2000];
        double[] rare = new double[2000];
        double[] other = new double[2000];
        for (int i = 0; i < 2000; i++) {
            outcome[i] = i % 3 == 0 ? 1 : 0;
            other[i] = i % 7;
        }
        rare[1] = 1;
        Separation found = Separation.of(
                new CaseOutcomes(outcome, List.of(Term.number("rare", rare), Term.number("other", other))));
        assertThat(found).isEqualTo(new Separation(Kind.QUASI_COMPLETE, List.of(new Drift("rare", -1))));
        rare[3] = 1;
        assertThat(Separation.of(new CaseOutcomes(
                                outcome, List.of(Term.number("rare", rare), Term.number("other", other))))
                        .kind())
                .isEqualTo(Kind.NONE);
    }

    private static double min(double[] values, int from, int to) {
        double min = Double.POSITIVE_INFINITY;
        for (int i = from; i < to; i++) {
            min = Math.min(min, values[i]);
        }
        return min;
    }

    private static double[] negative(double[] values) {
        return java.util.Arrays.stream(values).map(v -> -v).toArray();
    }
}
