package org.sideport.stats.mixed;

import org.hipparchus.linear.EigenDecompositionSymmetric;

/**
 * Finds the relative covariance factor (lower triangular) that minimises the profiled deviance. The minimum is checked on
 * the cone of covariance matrices: where the derivative by {@code D = F F'} still has a negative eigenvalue, variance
 * along its eigenvector lowers the deviance, so the search goes on from there. Thus a variance of zero, or a correlation
 * of ±1, is reported only where it is the optimum and not because the search came to rest at a saddle.
 */
final class FactorSearch {

    /** @param converged whether the search came to rest at a minimum */
    @SuppressWarnings("ArrayRecordComponent")
    record Found(double[][] factor, double deviance, boolean converged) {}

    private static final int RESTARTS = 8;

    private FactorSearch() {}

    static Found search(Deviance deviance) {
        return search(deviance, Small.identity(deviance.data().q()));
    }

    /** @param start lower triangular */
    static Found search(Deviance deviance, double[][] start) {
        int q = deviance.data().q();
        DampedNewton.Function function = function(deviance);
        DampedNewton.Minimum best = DampedNewton.minimise(function, theta(start));
        for (int restart = 0; restart < RESTARTS; restart++) {
            double[][] better = offTheSaddle(deviance, factor(best.at(), q), best.value());
            if (better.length == 0) {
                break;
            }
            best = DampedNewton.minimise(function, theta(better));
        }
        return new Found(positiveDiagonal(factor(best.at(), q)), best.value(), best.converged());
    }

    /** The profiled deviance by the lower triangle of the factor, column by column. */
    static DampedNewton.Function function(Deviance deviance) {
        int q = deviance.data().q();
        return new DampedNewton.Function() {
            @Override
            public double value(double[] at) {
                return deviance.profiled(factor(at, q));
            }

            @Override
            public double[] gradient(double[] at) {
                double[][] factor = factor(at, q);
                Solution solution = deviance.solve(factor);
                return byTheta(solution.derivative(solution.sigma()), factor);
            }
        };
    }

    /** Derivative by the lower triangle of F from the one by {@code F F'}. */
    static double[] byTheta(double[][] byCovariance, double[][] factor) {
        double[] theta = theta(Small.multiply(byCovariance, factor));
        for (int i = 0; i < theta.length; i++) {
            theta[i] *= 2;
        }
        return theta;
    }

    /** Lower triangle, column by column. */
    static double[] theta(double[][] factor) {
        int q = factor.length;
        double[] theta = new double[q * (q + 1) / 2];
        int at = 0;
        for (int j = 0; j < q; j++) {
            for (int i = j; i < q; i++) {
                theta[at++] = factor[i][j];
            }
        }
        return theta;
    }

    static double[][] factor(double[] theta, int q) {
        double[][] factor = new double[q][q];
        int at = 0;
        for (int j = 0; j < q; j++) {
            for (int i = j; i < q; i++) {
                factor[i][j] = theta[at++];
            }
        }
        return factor;
    }

    /** A factor with more variance where that lowers the deviance; empty if nothing does. */
    private static double[][] offTheSaddle(Deviance deviance, double[][] factor, double value) {
        Solution solution = deviance.solve(factor);
        EigenDecompositionSymmetric eigen = Small.eigen(solution.derivative(solution.sigma()));
        int last = factor.length - 1;
        if (eigen.getEigenvalue(last) >= 0) {
            return new double[0][];
        }
        double[] direction = eigen.getEigenvector(last).toArray();
        for (double variance = 1; variance > 1e-9; variance /= 10) {
            double[][] covariance = solution.relativeCovariance();
            for (int i = 0; i <= last; i++) {
                for (int j = 0; j <= last; j++) {
                    covariance[i][j] += variance * direction[i] * direction[j];
                }
            }
            double[][] more = semidefiniteCholesky(covariance);
            if (deviance.profiled(more) < value - 1e-9 * (1 + Math.abs(value))) {
                return more;
            }
        }
        return new double[0][];
    }

    /** Cholesky factor that takes a pivot of zero for what it is. */
    static double[][] semidefiniteCholesky(double[][] a) {
        int q = a.length;
        double[][] l = new double[q][q];
        for (int j = 0; j < q; j++) {
            for (int i = j; i < q; i++) {
                double sum = a[i][j];
                for (int k = 0; k < j; k++) {
                    sum -= l[i][k] * l[j][k];
                }
                if (i == j) {
                    l[j][j] = sum > 1e-14 * Math.abs(a[j][j]) ? Math.sqrt(sum) : 0;
                } else {
                    l[i][j] = l[j][j] > 0 ? sum / l[j][j] : 0;
                }
            }
        }
        return l;
    }

    /** The same {@code F F'} with no negative number on the diagonal. */
    private static double[][] positiveDiagonal(double[][] factor) {
        for (int j = 0; j < factor.length; j++) {
            if (factor[j][j] < 0) {
                for (int i = j; i < factor.length; i++) {
                    factor[i][j] = -factor[i][j];
                }
            }
        }
        return factor;
    }
}
