package org.sideport.stats.mixed;

import org.hipparchus.util.FastMath;

/**
 * Deviance of a linear mixed model as a function of the relative covariance factor F (Bates, Mächler, Bolker & Walker
 * 2015, Journal of Statistical Software 67(1), equations 34 to 42), subject by subject: with one grouping factor their
 * sparse system falls into blocks of the size of Σ. {@code Σ = σ² F F'} in the coordinates of {@link CrossProducts}; F
 * need not be triangular.
 */
final class Deviance {

    private final CrossProducts data;
    private final Criterion criterion;

    Deviance(CrossProducts data, Criterion criterion) {
        this.data = data;
        this.criterion = criterion;
    }

    CrossProducts data() {
        return data;
    }

    Criterion criterion() {
        return criterion;
    }

    /** n − p for REML, n for ML. */
    int denominator() {
        return criterion == Criterion.REML ? data.n() - data.p() : data.n();
    }

    /** Everything that is needed beyond the value: made on request. */
    Solution solve(double[][] factor) {
        return new Solution(this, factor);
    }

    /** Profiled over β and σ (equations 34 and 41); +∞ where rounding leaves no number. */
    double profiled(double[][] factor) {
        return solve(factor).profiled();
    }

    /** Profiled over β only. */
    double at(double[][] factor, double sigma) {
        return solve(factor).at(sigma);
    }

    double profiled(double logDet, double squares) {
        int m = denominator();
        double value = logDet + m * (1 + FastMath.log(2 * Math.PI * squares / m));
        return Double.isNaN(value) ? Double.POSITIVE_INFINITY : value;
    }

    double at(double logDet, double squares, double sigma) {
        double value = logDet + denominator() * FastMath.log(2 * Math.PI * sigma * sigma) + squares / (sigma * sigma);
        return Double.isNaN(value) ? Double.POSITIVE_INFINITY : value;
    }
}
