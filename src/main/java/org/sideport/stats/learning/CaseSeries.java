package org.sideport.stats.learning;

import java.util.Arrays;
import java.util.Comparator;
import java.util.stream.IntStream;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * Values of one person's cases in order.
 *
 * @param caseNumber ascending, from 1, finite; not to be changed
 * @param value one per case; above 0 for a duration; not to be changed
 */
@SuppressWarnings("ArrayRecordComponent")
public record CaseSeries(double[] caseNumber, double[] value, Scale scale) {

    /** Fewest cases for a curve of three parameters and a spread. */
    public static final int FEWEST_CASES = 10;

    private static final int FEWEST_NUMBERS = 6;

    /** On which scale errors are of equal size. */
    public enum Scale {
        /** Errors are factors: the logarithm of the value is modelled. Durations. */
        LOG,
        /** Errors are differences: the value as it is. Scores. */
        PLAIN
    }

    /**
     * Puts the cases in order.
     *
     * @throws IllegalArgumentException if the arrays differ in length or a number is not finite
     * @return refused below ten cases or six different case numbers, for case numbers below 1, if a value on the log scale
     *     is not above 0, or if all values are the same
     */
    public static Outcome<CaseSeries> of(double[] caseNumber, double[] value, Scale scale) {
        int n = value.length;
        if (caseNumber.length != n) {
            throw new IllegalArgumentException(caseNumber.length + " case numbers for " + n + " values");
        }
        for (int i = 0; i < n; i++) {
            if (!Double.isFinite(caseNumber[i]) || !Double.isFinite(value[i])) {
                throw new IllegalArgumentException("case " + caseNumber[i] + " has the value " + value[i]);
            }
            if (caseNumber[i] < 1) {
                return Outcome.refused(
                        Refusal.Reason.UNSUITABLE_DATA,
                        "there is a case number " + text(caseNumber[i]),
                        "number the cases from 1");
            }
            if (scale == Scale.LOG && value[i] <= 0) {
                return Outcome.refused(
                        Refusal.Reason.UNSUITABLE_DATA,
                        "case " + text(caseNumber[i]) + " has the value " + text(value[i])
                                + ", and a duration must be above 0",
                        "correct or leave out that case");
            }
        }
        long numbers = Arrays.stream(caseNumber).distinct().count();
        if (n < FEWEST_CASES || numbers < FEWEST_NUMBERS) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "there are " + n + " cases with " + numbers + " different case numbers",
                    "collect at least " + FEWEST_CASES + " cases with " + FEWEST_NUMBERS + " different numbers");
        }
        if (Arrays.stream(value).distinct().count() == 1) {
            return Outcome.refused(
                    Refusal.Reason.NO_VARIATION,
                    "all " + n + " values are " + text(value[0]),
                    "check the data; there is no change to describe");
        }
        int[] order = IntStream.range(0, n)
                .boxed()
                .sorted(Comparator.comparingDouble(i -> caseNumber[i]))
                .mapToInt(Integer::intValue)
                .toArray();
        return Outcome.of(new CaseSeries(pick(caseNumber, order), pick(value, order), scale));
    }

    private static double[] pick(double[] values, int[] rows) {
        return Arrays.stream(rows).mapToDouble(i -> values[i]).toArray();
    }

    private static String text(double value) {
        return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
    }

    /** Some of the cases, also repeatedly and in any order: for resampling, without the checks. */
    CaseSeries resampled(int[] rows) {
        return new CaseSeries(pick(caseNumber, rows), pick(value, rows), scale);
    }

    public int size() {
        return value.length;
    }

    public double last() {
        return caseNumber[caseNumber.length - 1];
    }

    /** The values on the scale on which errors are of equal size. */
    public double[] response() {
        return scale == Scale.LOG ? Arrays.stream(value).map(Math::log).toArray() : value.clone();
    }
}
