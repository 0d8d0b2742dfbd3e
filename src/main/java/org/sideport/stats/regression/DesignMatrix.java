package org.sideport.stats.regression;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** The columns of a linear model: one number per observation and term. Immutable. */
public final class DesignMatrix {

    private final List<String> names;
    private final DoubleDouble[][] columns;
    private final boolean intercept;

    private DesignMatrix(List<String> names, DoubleDouble[][] columns, boolean intercept) {
        this.names = List.copyOf(names);
        this.columns = columns;
        this.intercept = intercept;
    }

    /**
     * @param names of the terms, without the intercept
     * @param columns one per name, each as long as there are observations; copied
     * @param intercept whether a column of ones named {@code intercept} comes first
     * @throws IllegalArgumentException if there is no column, lengths differ or a number is not finite
     */
    public static DesignMatrix of(List<String> names, double[][] columns, boolean intercept) {
        if (names.size() != columns.length || columns.length == 0) {
            throw new IllegalArgumentException(names.size() + " names for " + columns.length + " columns");
        }
        int n = columns[0].length;
        List<String> all = new ArrayList<>();
        List<DoubleDouble[]> kept = new ArrayList<>();
        if (intercept) {
            all.add("intercept");
            kept.add(ones(n));
        }
        for (int j = 0; j < columns.length; j++) {
            if (columns[j].length != n) {
                throw new IllegalArgumentException("columns of " + n + " and " + columns[j].length + " numbers");
            }
            DoubleDouble[] column = new DoubleDouble[n];
            for (int i = 0; i < n; i++) {
                if (!Double.isFinite(columns[j][i])) {
                    throw new IllegalArgumentException(names.get(j) + " has " + columns[j][i]);
                }
                column[i] = DoubleDouble.of(columns[j][i]);
            }
            all.add(names.get(j));
            kept.add(column);
        }
        return new DesignMatrix(all, kept.toArray(DoubleDouble[][]::new), intercept);
    }

    /**
     * Intercept, x, x², … with powers to 32 digits.
     *
     * @param x finite
     * @param degree at least 1
     */
    public static DesignMatrix polynomial(double[] x, int degree) {
        if (degree < 1) {
            throw new IllegalArgumentException("degree " + degree);
        }
        DoubleDouble[][] columns = new DoubleDouble[degree + 1][];
        List<String> names = new ArrayList<>();
        columns[0] = ones(x.length);
        names.add("intercept");
        for (int d = 1; d <= degree; d++) {
            columns[d] = new DoubleDouble[x.length];
            for (int i = 0; i < x.length; i++) {
                if (!Double.isFinite(x[i])) {
                    throw new IllegalArgumentException("x has " + x[i]);
                }
                columns[d][i] = columns[d - 1][i].times(DoubleDouble.of(x[i]));
            }
            names.add(d == 1 ? "x" : "x^" + d);
        }
        return new DesignMatrix(names, columns, true);
    }

    private static DoubleDouble[] ones(int n) {
        DoubleDouble[] column = new DoubleDouble[n];
        Arrays.fill(column, DoubleDouble.ONE);
        return column;
    }

    public List<String> names() {
        return names;
    }

    public int observations() {
        return columns[0].length;
    }

    public int terms() {
        return columns.length;
    }

    boolean hasIntercept() {
        return intercept;
    }

    DoubleDouble entry(int observation, int term) {
        return columns[term][observation];
    }
}
