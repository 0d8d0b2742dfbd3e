package org.sideport.stats.regression;

import org.jspecify.annotations.Nullable;

/**
 * Least squares by modified Gram–Schmidt with the observations as last column, in 32-digit arithmetic. Björck 1967 (BIT
 * 7:1) shows that the solution found so is as good as Householder's; both are backward stable.
 */
final class OrthogonalFactor {

    /** A column of which less than this share is not explained by those before it counts as their combination. */
    private static final double DEPENDENT = 1e-13;

    private final DoubleDouble[][] q;
    private final DoubleDouble[][] inverse;
    private final DoubleDouble[] coefficients;
    private final DoubleDouble[] residuals;

    private OrthogonalFactor(
            DoubleDouble[][] q, DoubleDouble[][] inverse, DoubleDouble[] coefficients, DoubleDouble[] residuals) {
        this.q = q;
        this.inverse = inverse;
        this.coefficients = coefficients;
        this.residuals = residuals;
    }

    /**
     * @param columns terms by observations; overwritten
     * @param y observations; overwritten
     * @return {@code null} if the columns are linearly dependent to double precision
     */
    static @Nullable OrthogonalFactor of(DoubleDouble[][] columns, DoubleDouble[] y) {
        int p = columns.length;
        DoubleDouble[][] r = new DoubleDouble[p][p];
        DoubleDouble[] projections = new DoubleDouble[p];
        double[] norms = new double[p];
        for (int j = 0; j < p; j++) {
            norms[j] = dot(columns[j], columns[j]).sqrt().value();
        }
        for (int j = 0; j < p; j++) {
            DoubleDouble norm = dot(columns[j], columns[j]).sqrt();
            if (!(norm.hi() > DEPENDENT * norms[j])) {
                return null;
            }
            r[j][j] = norm;
            for (int i = 0; i < columns[j].length; i++) {
                columns[j][i] = columns[j][i].dividedBy(norm);
            }
            for (int k = j + 1; k < p; k++) {
                r[j][k] = removeFrom(columns[k], columns[j]);
            }
            projections[j] = removeFrom(y, columns[j]);
        }
        DoubleDouble[][] inverse = invert(r);
        DoubleDouble[] coefficients = new DoubleDouble[p];
        for (int j = 0; j < p; j++) {
            DoubleDouble sum = DoubleDouble.ZERO;
            for (int k = j; k < p; k++) {
                sum = sum.plus(inverse[j][k].times(projections[k]));
            }
            coefficients[j] = sum;
        }
        return new OrthogonalFactor(columns, inverse, coefficients, y);
    }

    /** Takes the part along a unit vector away; says how long it was. */
    private static DoubleDouble removeFrom(DoubleDouble[] vector, DoubleDouble[] unit) {
        DoubleDouble along = dot(vector, unit);
        for (int i = 0; i < vector.length; i++) {
            vector[i] = vector[i].minus(along.times(unit[i]));
        }
        return along;
    }

    private static DoubleDouble dot(DoubleDouble[] a, DoubleDouble[] b) {
        DoubleDouble sum = DoubleDouble.ZERO;
        for (int i = 0; i < a.length; i++) {
            sum = sum.plus(a[i].times(b[i]));
        }
        return sum;
    }

    private static DoubleDouble[][] invert(DoubleDouble[][] r) {
        int p = r.length;
        DoubleDouble[][] inverse = new DoubleDouble[p][p];
        for (int k = 0; k < p; k++) {
            inverse[k][k] = DoubleDouble.ONE.dividedBy(r[k][k]);
            for (int j = k - 1; j >= 0; j--) {
                DoubleDouble sum = DoubleDouble.ZERO;
                for (int m = j + 1; m <= k; m++) {
                    sum = sum.plus(r[j][m].times(inverse[m][k]));
                }
                inverse[j][k] = sum.negated().dividedBy(r[j][j]);
            }
        }
        return inverse;
    }

    double coefficient(int term) {
        return coefficients[term].value();
    }

    double[] coefficients() {
        double[] values = new double[coefficients.length];
        for (int j = 0; j < values.length; j++) {
            values[j] = coefficient(j);
        }
        return values;
    }

    double residual(int observation) {
        return residuals[observation].value();
    }

    double sumOfSquares() {
        return dot(residuals, residuals).value();
    }

    /** Entry of {@code (XᵀX)⁻¹}. */
    double inverseProduct(int row, int column) {
        DoubleDouble sum = DoubleDouble.ZERO;
        for (int k = Math.max(row, column); k < inverse.length; k++) {
            sum = sum.plus(inverse[row][k].times(inverse[column][k]));
        }
        return sum.value();
    }

    /** Diagonal of the hat matrix: how much the observation pulls its own fitted value, 0 to 1. */
    double leverage(int observation) {
        double sum = 0;
        for (DoubleDouble[] column : q) {
            sum += column[observation].hi() * column[observation].hi();
        }
        return sum;
    }
}
