package org.sideport.stats.variance;

import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.DecompositionSolver;
import org.hipparchus.linear.QRDecomposition;
import org.hipparchus.linear.RealMatrix;

/**
 * The minimum of a small convex quadratic {@code g'd + d'H d / 2} with {@code d >= lower <= 0}, by an active set (Nocedal
 * & Wright 2006, Numerical Optimization, section 16.5).
 */
final class BoundedStep {

    private BoundedStep() {}

    /**
     * @param hessian symmetric, no negative eigenvalue
     * @param ridge added to the diagonal, as a share of it
     */
    static double[] minimise(double[][] hessian, double[] gradient, double[] lower, double ridge) {
        int n = gradient.length;
        double[] unit = new double[n];
        for (int k = 0; k < n; k++) {
            unit[k] = Math.sqrt(Math.max(hessian[k][k], Double.MIN_NORMAL));
        }
        double[][] h = new double[n][n];
        double[] g = new double[n];
        double[] bound = new double[n];
        for (int k = 0; k < n; k++) {
            g[k] = gradient[k] / unit[k];
            bound[k] = lower[k] * unit[k];
            for (int m = 0; m < n; m++) {
                h[k][m] = hessian[k][m] / unit[k] / unit[m];
            }
            h[k][k] += 1e-10 + ridge;
        }
        double[] d = solve(h, g, bound);
        for (int k = 0; k < n; k++) {
            d[k] /= unit[k];
        }
        return d;
    }

    private static double[] solve(double[][] h, double[] g, double[] bound) {
        int n = g.length;
        boolean[] held = new boolean[n];
        double[] d = new double[n];
        for (int k = 0; k < n; k++) {
            held[k] = bound[k] == 0 && g[k] > 0;
        }
        for (int round = 0; round < 10 * n + 10; round++) {
            double[] wish = unbounded(h, g, bound, held);
            // Go towards the free minimum as far as the bounds allow; the first one met holds.
            double length = 1;
            int first = -1;
            for (int k = 0; k < n; k++) {
                if (!held[k] && wish[k] < bound[k]) {
                    double reach = (bound[k] - d[k]) / (wish[k] - d[k]);
                    if (reach < length) {
                        length = reach;
                        first = k;
                    }
                }
            }
            for (int k = 0; k < n; k++) {
                d[k] += length * (wish[k] - d[k]);
            }
            if (first >= 0) {
                held[first] = true;
                d[first] = bound[first];
                continue;
            }
            int release = worst(h, g, d, held);
            if (release < 0) {
                break;
            }
            held[release] = false;
        }
        return d;
    }

    /** The held one whose bound pulls the wrong way most, or −1. */
    private static int worst(double[][] h, double[] g, double[] d, boolean[] held) {
        int worst = -1;
        double least = -1e-12;
        for (int k = 0; k < g.length; k++) {
            double slope = g[k];
            for (int m = 0; m < g.length; m++) {
                slope += h[k][m] * d[m];
            }
            if (held[k] && slope < least) {
                least = slope;
                worst = k;
            }
        }
        return worst;
    }

    private static double[] unbounded(double[][] h, double[] g, double[] bound, boolean[] held) {
        int n = g.length;
        RealMatrix a = new Array2DRowRealMatrix(n, n);
        double[] b = new double[n];
        for (int k = 0; k < n; k++) {
            if (held[k]) {
                a.setEntry(k, k, 1);
                b[k] = bound[k];
            } else {
                a.setRow(k, h[k]);
                b[k] = -g[k];
            }
        }
        DecompositionSolver solver = new QRDecomposition(a).getSolver();
        return solver.solve(new ArrayRealVector(b)).toArray();
    }
}
