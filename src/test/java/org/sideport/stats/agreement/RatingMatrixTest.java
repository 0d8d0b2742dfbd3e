package org.sideport.stats.agreement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.sideport.stats.Outcome;
import org.sideport.stats.data.Factor;
import org.sideport.stats.data.LongData;

class RatingMatrixTest {

    private static LongData data(List<String> subjects, List<String> raters, double... values) {
        return new LongData(List.of(Factor.of("subject", subjects), Factor.of("rater", raters)), values);
    }

    @Test
    void rowsOfALongTableFindTheirCells() {
        RatingMatrix table = RatingMatrix.of(
                        data(List.of("T1", "T2", "T2"), List.of("A1", "A2", "A1"), 3, 4, 5), "subject", "rater")
                .orElseThrow();
        assertThat(table.subjects()).containsExactly("T1", "T2");
        assertThat(table.raters()).containsExactly("A1", "A2");
        assertThat(table.scores()[0]).containsExactly(3, Double.NaN);
        assertThat(table.scores()[1]).containsExactly(5, 4);
        assertThat(table.missingCells()).isEqualTo(1);
        assertThat(table.completeSubjects().subjects()).containsExactly("T2");
        assertThat(table.completeSubjects().scores()).isDeepEqualTo(new double[][] {{5, 4}});
        // one and two scores: 2 / (1 + 1/2)
        assertThat(table.harmonicMeanRaters()).isCloseTo(4.0 / 3, within(1e-15));
    }

    @Test
    void twoScoresInOneCellAreRefused() {
        Outcome<RatingMatrix> outcome =
                RatingMatrix.of(data(List.of("T1", "T1"), List.of("A1", "A1"), 3, 3), "subject", "rater");
        assertThat(((Outcome.Refused<RatingMatrix>) outcome).refusal().why())
                .isEqualTo("subject T1 has two scores of rater A1");
    }

    @Test
    void withoutScoresThereIsNoMeanNumberOfRaters() {
        assertThat(RatingMatrix.of(new double[][] {{Double.NaN, Double.NaN}}).harmonicMeanRaters())
                .isZero();
        assertThat(RatingMatrix.of(new double[][] {}).raters()).isEmpty();
    }

    @Test
    void aRaggedOrEndlessTableIsAFaultOfTheCaller() {
        assertThatThrownBy(() -> RatingMatrix.of(new double[][] {{1, 2}, {1}}))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> RatingMatrix.of(new double[][] {{1, Double.POSITIVE_INFINITY}}))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new RatingMatrix(List.of("T1"), List.of("A1"), new double[][] {}))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new TwoWayComponents(1, 1, 1, 0)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new TwoWayComponents(Double.NaN, 1, 1, 2))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
