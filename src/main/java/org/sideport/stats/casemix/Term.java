package org.sideport.stats.casemix;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.data.Factor;

/**
 * A column of a logistic model: a number, or the indicator of one level of a factor.
 *
 * @param factor what it belongs to, as in the data
 * @param level {@code null} for a number
 * @param values one finite number for each case; not to be changed
 */
@SuppressWarnings("ArrayRecordComponent")
public record Term(String factor, @Nullable String level, double[] values) {

    /** The name of the first coefficient. */
    public static final String INTERCEPT = "intercept";

    public Term {
        for (double value : values) {
            if (!Double.isFinite(value)) {
                throw new IllegalArgumentException(factor + ": not a finite value: " + value);
            }
        }
    }

    /** A number for each case. */
    public static Term number(String name, double... values) {
        return new Term(name, null, values);
    }

    /** {@code factor}, or {@code factor=level}. */
    public String name() {
        return level == null ? factor : factor + "=" + level;
    }

    /**
     * The terms of a column: itself if all its levels are numbers, else the indicators of {@link #indicators} with the
     * alphabetically first level as reference.
     */
    public static List<Term> of(Factor factor) {
        double[] numbers = new double[factor.size()];
        for (int i = 0; i < numbers.length; i++) {
            String text = factor.levels().get(i).replace('−', '-');
            if (!text.matches("[-+]?(\\d+\\.?\\d*|\\.\\d+)")) {
                return indicators(
                        factor, factor.levels().stream().sorted().toList().get(0));
            }
            numbers[i] = Double.parseDouble(text);
        }
        return List.of(number(
                factor.name(),
                Arrays.stream(factor.codes()).mapToDouble(code -> numbers[code]).toArray()));
    }

    /**
     * An indicator for each level but the reference, in alphabetical order (treatment contrasts).
     *
     * @param reference a level of the factor
     */
    public static List<Term> indicators(Factor factor, String reference) {
        if (!factor.levels().contains(reference)) {
            throw new IllegalArgumentException(factor.name() + " has no level " + reference);
        }
        List<Term> terms = new ArrayList<>();
        for (String level : factor.levels().stream().sorted().toList()) {
            int code = factor.levels().indexOf(level);
            if (!level.equals(reference)) {
                terms.add(new Term(
                        factor.name(),
                        level,
                        Arrays.stream(factor.codes())
                                .mapToDouble(c -> c == code ? 1 : 0)
                                .toArray()));
            }
        }
        return terms;
    }
}
