package org.sideport.stats.monitoring;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * The order in which a series is charted: every case in turn. A chart of chosen cases says nothing, because whoever
 * chose them chose the result; so a gap or a number that occurs twice is refused. The case number is the order: rows that
 * stand in another order are sorted by it, with a warning.
 *
 * @param first the lowest case number
 * @param rows the rows of the input in the order of their case numbers
 * @param warnings sentences, empty if there is nothing to warn of
 */
public record CaseOrder(long first, List<Integer> rows, List<String> warnings) {

    private static final int SHOWN = 5;
    private static final String REMEDY =
            "take the log of all consecutive cases, numbered 1, 2, 3 … without gaps; chosen recordings cannot be charted";

    public CaseOrder {
        rows = List.copyOf(rows);
        warnings = List.copyOf(warnings);
    }

    /**
     * @param caseNumbers in the order of the rows
     * @param known whether the row's outcome is known, of the same length
     */
    public static Outcome<CaseOrder> of(long[] caseNumbers, boolean[] known) {
        if (caseNumbers.length != known.length) {
            throw new IllegalArgumentException(caseNumbers.length + " case numbers, " + known.length + " outcomes");
        }
        if (caseNumbers.length == 0) {
            return Outcome.refused(Refusal.Reason.TOO_FEW, "there is no case", "record at least one");
        }
        List<Integer> rows = IntStream.range(0, caseNumbers.length)
                .boxed()
                .sorted(Comparator.comparingLong(row -> caseNumbers[row]))
                .toList();
        List<String> missing = new ArrayList<>();
        List<String> twice = new ArrayList<>();
        List<String> unknown = new ArrayList<>();
        boolean sorted = true;
        for (int i = 0; i < rows.size(); i++) {
            long number = caseNumbers[rows.get(i)];
            sorted &= rows.get(i) == i;
            if (!known[rows.get(i)]) {
                unknown.add(Long.toString(number));
            }
            if (i == 0) {
                continue;
            }
            long before = caseNumbers[rows.get(i - 1)];
            if (number == before) {
                twice.add(Long.toString(number));
            } else if (number > before + 1) {
                missing.add(number == before + 2 ? Long.toString(before + 1) : (before + 1) + " to " + (number - 1));
            }
        }
        if (!missing.isEmpty() || !twice.isEmpty() || !unknown.isEmpty()) {
            return Outcome.refused(Refusal.Reason.SELECTED_SERIES, why(missing, twice, unknown), REMEDY);
        }
        return Outcome.of(new CaseOrder(caseNumbers[rows.get(0)], rows, warnings(caseNumbers[rows.get(0)], sorted)));
    }

    private static String why(List<String> missing, List<String> twice, List<String> unknown) {
        List<String> parts = new ArrayList<>();
        if (!missing.isEmpty()) {
            parts.add("case " + some(missing) + " missing");
        }
        if (!twice.isEmpty()) {
            parts.add("case " + some(twice) + " there more than once");
        }
        if (!unknown.isEmpty()) {
            parts.add("the outcome of case " + some(unknown) + " unknown, which is a gap and no success");
        }
        return "the series is not every case in turn (" + String.join("; ", parts)
                + "), and a chart of chosen cases shows the choice, not the skill";
    }

    private static String some(List<String> numbers) {
        int shown = Math.min(SHOWN, numbers.size());
        String text = String.join(", ", numbers.subList(0, shown));
        return shown == numbers.size() ? text : text + " and " + (numbers.size() - shown) + " more";
    }

    private static List<String> warnings(long first, boolean sorted) {
        List<String> warnings = new ArrayList<>();
        if (!sorted) {
            warnings.add("the rows do not stand in the order of their case numbers; they were sorted by case number");
        }
        if (first != 1) {
            warnings.add(
                    "the series begins with case " + first + ", so the chart knows nothing of the cases before it");
        }
        return warnings;
    }
}
