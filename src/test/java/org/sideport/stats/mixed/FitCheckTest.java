package org.sideport.stats.mixed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.data.Factor;

/** Data that allow no answer get a refusal that says what is missing. */
class FitCheckTest {

    private static Refusal refusal(MixedData data) {
        Outcome<MixedFit> outcome = MixedModel.fit(data, MixedOptions.standard());
        assertThat(outcome).isInstanceOf(Outcome.Refused.class);
        return ((Outcome.Refused<MixedFit>) outcome).refusal();
    }

    private static MixedData data(double[] y, Factor subject, boolean slope, Column... more) {
        double[] time = IntStream.range(0, y.length).mapToDouble(i -> i % 7).toArray();
        Column one = Column.intercept(y.length);
        Column over = new Column("case_number", time);
        List<Column> fixed = new java.util.ArrayList<>(List.of(one, over));
        fixed.addAll(List.of(more));
        return new MixedData(y, fixed, slope ? List.of(one, over) : List.of(one), subject);
    }

    private static Factor subjects(int count, int each) {
        return Factor.of(
                "subject",
                IntStream.range(0, count * each).mapToObj(i -> "T" + i / each).toList());
    }

    private static double[] values(int n) {
        return IntStream.range(0, n).mapToDouble(i -> (i * 37) % 11).toArray();
    }

    @Test
    void fewerThanThreeSubjectsAreTooFew() {
        Refusal two = refusal(data(values(14), subjects(2, 7), false));
        assertThat(two.reason()).isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(two.why()).contains("there are 2 subjects");
        assertThat(refusal(data(values(7), subjects(1, 7), false)).why()).contains("there is 1 subject;");
        assertThat(MixedModel.fit(data(values(21), subjects(3, 7), false), MixedOptions.standard()))
                .isInstanceOf(Outcome.Found.class);
        // a level without observations is no subject
        int[] codes = subjects(2, 7).codes();
        Refusal empty = refusal(data(values(14), new Factor("subject", List.of("A", "B", "C"), codes), false));
        assertThat(empty.why()).contains("there are 2 subjects");
    }

    @Test
    void oneObservationPerSubjectIsNotIdentified() {
        Refusal refusal = refusal(data(values(9), subjects(9, 1), false));
        assertThat(refusal.reason()).isEqualTo(Refusal.Reason.NOT_IDENTIFIED);
        assertThat(refusal.why()).contains("each of the 9 subjects has one observation only");
    }

    @Test
    void asManyRandomEffectsAsObservationsAreNotIdentified() {
        Refusal refusal = refusal(data(values(10), subjects(5, 2), true));
        assertThat(refusal.reason()).isEqualTo(Refusal.Reason.NOT_IDENTIFIED);
        assertThat(refusal.why()).contains("10 observations for 10 random effects (2 for each of 5 subjects)");
        assertThat(refusal.remedy()).contains("leave the random slope out");
        assertThat(MixedModel.fit(data(values(10), subjects(5, 2), false), MixedOptions.standard()))
                .isInstanceOf(Outcome.Found.class);
        Refusal nearly = refusal(
                data(values(4), Factor.of("subject", List.of("A", "B", "C", "C")), false, column("grade", 1, 0, 0, 2)));
        assertThat(nearly.reason()).isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(nearly.why()).contains("4 observations for 3 fixed effects");
    }

    @Test
    void valuesThatDoNotVaryAreRefused() {
        double[] constant = new double[21];
        java.util.Arrays.fill(constant, 3.5);
        Refusal refusal = refusal(data(constant, subjects(3, 7), true));
        assertThat(refusal.reason()).isEqualTo(Refusal.Reason.NO_VARIATION);
        assertThat(refusal.why()).isEqualTo("all 21 values are 3.5");
        double[] line =
                IntStream.range(0, 21).mapToDouble(i -> 100 + 3 * (i % 7)).toArray();
        Refusal exact = refusal(data(line, subjects(3, 7), true));
        assertThat(exact.reason()).isEqualTo(Refusal.Reason.NO_VARIATION);
        assertThat(exact.why()).contains("the fixed effects give all 21 values exactly");
        double[] lines = IntStream.range(0, 28)
                .mapToDouble(i -> new double[] {1, 5, 2, 9}[i / 7] + new double[] {1, 2, 4, 3}[i / 7] * (i % 7))
                .toArray();
        Refusal own = refusal(data(lines, subjects(4, 7), true));
        assertThat(own.reason()).isEqualTo(Refusal.Reason.NO_VARIATION);
        assertThat(own.why()).contains("on a line of their own");
    }

    private static Column column(String name, double... values) {
        return new Column(name, values);
    }

    @Test
    void columnsThatOthersMakeUpAreNamed() {
        double[] grade = IntStream.range(0, 21).mapToDouble(i -> (i * 5) % 4).toArray();
        double[] sum = IntStream.range(0, 21)
                .mapToDouble(i -> 2 * grade[i] - 3 * (i % 7))
                .toArray();
        Refusal refusal =
                refusal(data(values(21), subjects(3, 7), true, new Column("grade", grade), new Column("sum", sum)));
        assertThat(refusal.reason()).isEqualTo(Refusal.Reason.NOT_IDENTIFIED);
        assertThat(refusal.why()).contains("the column sum is made up exactly of case_number, grade,");
        assertThat(refusal.remedy()).isEqualTo("leave sum out");
        double[] same = new double[21];
        java.util.Arrays.fill(same, 4);
        assertThat(refusal(data(values(21), subjects(3, 7), true, new Column("eye", same)))
                        .why())
                .isEqualTo("the column eye is the same for all 21 observations");
        assertThat(refusal(data(values(21), subjects(3, 7), true, new Column("eye", new double[21])))
                        .why())
                .isEqualTo("the column eye is zero throughout");
        MixedData random = data(values(21), subjects(3, 7), false);
        Column over = random.fixed().get(1);
        Column twice = new Column(
                "twice", java.util.Arrays.stream(over.values()).map(v -> 2 * v).toArray());
        assertThat(refusal(new MixedData(random.response(), random.fixed(), List.of(over, twice), random.subject()))
                        .why())
                .contains("the column twice is made up exactly of case_number,");
        // nearly the same is not the same
        double[] near = grade.clone();
        near[3] += 1e-4;
        assertThat(MixedModel.fit(
                        data(values(21), subjects(3, 7), false, new Column("a", grade), new Column("b", near)),
                        MixedOptions.standard()))
                .isInstanceOf(Outcome.Found.class);
    }

    @Test
    void dataThatDoNotFitTogetherAreErrorsOfTheProgram() {
        Column one = Column.intercept(3);
        Factor three = Factor.of("subject", List.of("A", "B", "C"));
        double[] y = {1, 2, 3};
        assertThatThrownBy(() -> new MixedData(y, List.of(), List.of(one), three))
                .hasMessageContaining("needs");
        assertThatThrownBy(() -> new MixedData(y, List.of(one), List.of(), three))
                .hasMessageContaining("needs");
        assertThatThrownBy(() -> new MixedData(y, List.of(one, one), List.of(one), three))
                .hasMessageContaining("same name");
        assertThatThrownBy(() -> new MixedData(y, List.of(Column.intercept(2)), List.of(one), three))
                .hasMessageContaining("intercept has 2 values for 3");
        assertThatThrownBy(() -> new MixedData(y, List.of(one), List.of(Column.intercept(2)), three))
                .hasMessageContaining("intercept has 2 values for 3");
        assertThatThrownBy(() -> new MixedData(y, List.of(one), List.of(one), subjects(2, 1)))
                .hasMessageContaining("2 subject codes");
        assertThatThrownBy(() -> new MixedData(new double[] {1, Double.NaN, 3}, List.of(one), List.of(one), three))
                .hasMessageContaining("NaN");
        assertThatThrownBy(() -> column("x", Double.POSITIVE_INFINITY)).hasMessageContaining("x: not a finite");
    }
}
