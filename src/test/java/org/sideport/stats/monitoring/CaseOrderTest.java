package org.sideport.stats.monitoring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/** What may be charted: consecutive, complete, in order, with known outcomes (common practice, no source). */
class CaseOrderTest {

    private static String refused(Outcome<?> outcome, Refusal.Reason reason) {
        Refusal refusal = ((Outcome.Refused<?>) outcome).refusal();
        assertThat(refusal.reason()).isEqualTo(reason);
        assertThat(refusal.remedy()).isNotBlank();
        return refusal.why();
    }

    private static boolean[] known(int n) {
        boolean[] known = new boolean[n];
        Arrays.fill(known, true);
        return known;
    }

    private static String refused(long... numbers) {
        return refused(CaseOrder.of(numbers, known(numbers.length)), Refusal.Reason.SELECTED_SERIES);
    }

    @Test
    void gapsAreRefused() {
        assertThat(refused(1, 2, 4)).contains("case 3 missing").contains("shows the choice, not the skill");
        assertThat(refused(1, 5)).contains("case 2 to 4 missing");
        assertThat(refused(1, 3, 5, 7, 9, 11, 13)).contains("case 2, 4, 6, 8, 10 and 1 more missing");
        assertThat(refused(1, 3, 5, 7, 9, 11)).contains("case 2, 4, 6, 8, 10 missing");
    }

    @Test
    void numbersThatOccurTwiceAreRefused() {
        assertThat(refused(1, 2, 2, 3)).contains("case 2 there more than once").doesNotContain("missing");
        assertThat(refused(1, 2, 2, 4)).contains("case 3 missing; case 2 there more than once");
    }

    @Test
    void unknownOutcomeIsAGap() {
        assertThat(refused(
                        BinarySeries.of(new long[] {1, 2, 3}, Arrays.asList(false, null, true), null),
                        Refusal.Reason.SELECTED_SERIES))
                .contains("outcome of case 2 unknown, which is a gap and no success")
                .doesNotContain("missing")
                .doesNotContain("once");
    }

    @Test
    void otherOrderIsSortedWithAWarning() {
        BinarySeries series = BinarySeries.of(
                        new long[] {3, 1, 2}, Arrays.asList(true, false, false), Arrays.asList(.3, .1, .2))
                .orElseThrow();
        assertThat(series.failures()).containsExactly(false, false, true);
        assertThat(series.risks()).containsExactly(.1, .2, .3);
        assertThat(series.warnings()).singleElement().asString().contains("sorted by case number");
        assertThat(series.isRiskAdjusted()).isTrue();
        CaseOrder plain = CaseOrder.of(new long[] {1, 2}, known(2)).orElseThrow();
        assertThat(plain.warnings()).isEmpty();
        assertThat(plain.rows()).containsExactly(0, 1);
        assertThat(plain.first()).isEqualTo(1);
    }

    @Test
    void laterStartIsSaid() {
        CaseOrder order = CaseOrder.of(new long[] {31, 32}, known(2)).orElseThrow();
        assertThat(order.warnings())
                .containsExactly("the series begins with case 31, so the chart knows nothing of the cases before it");
        assertThat(order.first()).isEqualTo(31);
    }

    @Test
    void nothingIsRefused() {
        assertThat(refused(CaseOrder.of(new long[0], known(0)), Refusal.Reason.TOO_FEW))
                .contains("no case");
        assertThatThrownBy(() -> CaseOrder.of(new long[2], known(1))).hasMessageContaining("2 case numbers");
    }

    @Test
    void risksHaveToBeKnownProbabilities() {
        List<Boolean> failures = List.of(true, false);
        assertThat(refused(
                        BinarySeries.of(new long[] {4, 5}, failures, Arrays.asList(.1, null)),
                        Refusal.Reason.UNSUITABLE_DATA))
                .contains("risk of case 5 is unknown");
        assertThat(refused(
                        BinarySeries.of(new long[] {4, 5}, failures, Arrays.asList(2.5, .1)),
                        Refusal.Reason.UNSUITABLE_DATA))
                .contains("risk of case 4 is 2.5");
        assertThat(refused(
                        BinarySeries.of(new long[] {1, 2}, failures, Arrays.asList(.1, 0.0)),
                        Refusal.Reason.UNSUITABLE_DATA))
                .contains("risk of case 2 is 0.0");
        assertThatThrownBy(() -> new BinarySeries(1, failures, List.of(.1), List.of()))
                .hasMessageContaining("2 outcomes, 1 risks");
        assertThatThrownBy(() -> new BinarySeries(1, failures, List.of(.1, 1.0), List.of()))
                .hasMessageContaining("risk 1.0");
        assertThatThrownBy(() -> new BinarySeries(1, failures, List.of(.1, 0.0), List.of()))
                .hasMessageContaining("risk 0.0");
    }
}
