package org.sideport.stats.mixed;

import java.util.List;
import org.sideport.stats.data.Factor;

/**
 * What a linear mixed model with one grouping factor is fitted to: {@code y = X β + Z b + ε}, with a vector {@code b} for
 * each subject, {@code b ~ N(0, Σ)}, and {@code ε ~ N(0, σ²)}.
 *
 * @param response y, finite; not to be changed
 * @param fixed the columns of X, at least one, distinct names; put {@link Column#intercept} first
 * @param random the columns of Z, at least one, distinct names; Σ is a full matrix over them
 * @param subject whom each observation belongs to
 */
@SuppressWarnings("ArrayRecordComponent")
public record MixedData(double[] response, List<Column> fixed, List<Column> random, Factor subject) {

    public MixedData {
        fixed = List.copyOf(fixed);
        random = List.copyOf(random);
        if (fixed.isEmpty() || random.isEmpty()) {
            throw new IllegalArgumentException("a mixed model needs a fixed and a random column");
        }
        check(fixed, response.length);
        check(random, response.length);
        if (subject.codes().length != response.length) {
            throw new IllegalArgumentException(
                    subject.codes().length + " subject codes for " + response.length + " responses");
        }
        for (double value : response) {
            if (!Double.isFinite(value)) {
                throw new IllegalArgumentException("not a finite response: " + value);
            }
        }
    }

    private static void check(List<Column> columns, int n) {
        if (columns.stream().map(Column::name).distinct().count() < columns.size()) {
            throw new IllegalArgumentException("two columns have the same name");
        }
        for (Column column : columns) {
            if (column.values().length != n) {
                throw new IllegalArgumentException(
                        column.name() + " has " + column.values().length + " values for " + n + " responses");
            }
        }
    }

    /** Number of observations. */
    public int size() {
        return response.length;
    }

    /** The same observations and fixed columns with the first {@code count} random columns only. */
    public MixedData withFirstRandom(int count) {
        return new MixedData(response, fixed, random.subList(0, count), subject);
    }

    int[] countBySubject() {
        int[] counts = new int[subject.size()];
        for (int code : subject.codes()) {
            counts[code]++;
        }
        return counts;
    }
}
