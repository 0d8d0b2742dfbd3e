package org.sideport.stats.monitoring;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * Consecutive cases that failed or succeeded, in order, none missing.
 *
 * @param first number of the first case; the others follow one by one
 * @param failures one a case, in order
 * @param risks the expected probability of failure of each case, 0 to 1 exclusive; empty where none is given
 * @param warnings what a reader has to know of the series
 */
public record BinarySeries(long first, List<Boolean> failures, List<Double> risks, List<String> warnings) {

    public BinarySeries {
        failures = List.copyOf(failures);
        risks = List.copyOf(risks);
        warnings = List.copyOf(warnings);
        if (!risks.isEmpty() && risks.size() != failures.size()) {
            throw new IllegalArgumentException(failures.size() + " outcomes, " + risks.size() + " risks");
        }
        for (double risk : risks) {
            if (!(risk > 0 && risk < 1)) {
                throw new IllegalArgumentException("risk " + risk + " is not between 0 and 1");
            }
        }
    }

    /** Cases 1, 2, 3 … without risks. */
    public static BinarySeries of(boolean... failures) {
        List<Boolean> list = new ArrayList<>();
        for (boolean failure : failures) {
            list.add(failure);
        }
        return new BinarySeries(1, list, List.of(), List.of());
    }

    /**
     * Checks and orders the rows of a log; refuses a series that is not every case in turn, see {@link CaseOrder}.
     *
     * @param caseNumbers in the order of the rows
     * @param failures {@code null} where the outcome is unknown
     * @param risks {@code null} if the log has none; an element is {@code null} where the risk is unknown
     */
    public static Outcome<BinarySeries> of(
            long[] caseNumbers, List<@Nullable Boolean> failures, @Nullable List<@Nullable Double> risks) {
        boolean[] known = new boolean[failures.size()];
        for (int i = 0; i < known.length; i++) {
            known[i] = failures.get(i) != null;
        }
        return CaseOrder.of(caseNumbers, known).flatMap(order -> ordered(order, failures, risks));
    }

    private static Outcome<BinarySeries> ordered(
            CaseOrder order, List<@Nullable Boolean> failures, @Nullable List<@Nullable Double> risks) {
        List<Boolean> outcomes = new ArrayList<>();
        List<Double> chances = new ArrayList<>();
        for (int row : order.rows()) {
            outcomes.add(Boolean.TRUE.equals(failures.get(row)));
            if (risks == null) {
                continue;
            }
            long number = order.first() + chances.size();
            Double risk = risks.get(row);
            if (risk == null) {
                return Outcome.refused(
                        Refusal.Reason.UNSUITABLE_DATA,
                        "the risk of case " + number + " is unknown",
                        "give every case its expected risk, or chart without risks");
            }
            if (!(risk > 0 && risk < 1)) {
                return Outcome.refused(
                        Refusal.Reason.UNSUITABLE_DATA,
                        "the risk of case " + number + " is " + risk + ", but a risk lies between 0 and 1",
                        "write 2.5 % as 0.025");
            }
            chances.add(risk);
        }
        return Outcome.of(new BinarySeries(order.first(), outcomes, chances, order.warnings()));
    }

    public int size() {
        return failures.size();
    }

    public int failureCount() {
        return (int) failures.stream().filter(failure -> failure).count();
    }

    public boolean isRiskAdjusted() {
        return !risks.isEmpty();
    }
}
