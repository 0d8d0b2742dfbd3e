package org.sideport.stats.mixed;

import java.util.function.UnaryOperator;
import org.hipparchus.linear.EigenDecompositionSymmetric;

/**
 * Newton's method for a smooth function of a few variables with a known gradient: the Hessian by central differences of
 * the gradient, negative curvature turned round (Nocedal & Wright 2006, Numerical Optimization, section 3.4), steps
 * halved until the function falls.
 */
final class DampedNewton {

    interface Function {

        /** +∞ outside the domain. */
        double value(double[] at);

        double[] gradient(double[] at);
    }

    /** @param converged whether the expected further fall is below rounding */
    @SuppressWarnings("ArrayRecordComponent")
    record Minimum(double[] at, double value, boolean converged) {}

    private static final int STEPS = 100;
    private static final double FLAT = 1e-9;
    private static final double LONGEST = 3;

    private DampedNewton() {}

    static Minimum minimise(Function function, double[] start) {
        double[] at = start.clone();
        double value = function.value(at);
        Minimum last = new Minimum(at, value, false);
        double lastFall = Double.POSITIVE_INFINITY;
        for (int iteration = 0; iteration < STEPS; iteration++) {
            double[] gradient = function.gradient(at);
            double[] step = step(hessian(function::gradient, at), gradient);
            double fall = -OrthonormalColumns.dot(step, gradient);
            double size = 1 + Math.abs(value);
            if (fall < 1e-22 * size) {
                return new Minimum(at, value, true);
            }
            // Below this fall the value says no more than its rounding: the gradient alone leads, while it shrinks.
            boolean fine = fall < 1e-10 * size;
            if (fine && fall >= lastFall) {
                return last;
            }
            double length = OrthonormalColumns.length(step) / (1 + OrthonormalColumns.length(at));
            double share = Math.min(1, LONGEST / length);
            double[] next = along(at, step, share);
            double there = function.value(next);
            while (!fine && !(there < value - 1e-4 * share * fall) && share > 1e-10) {
                share /= 2;
                next = along(at, step, share);
                there = function.value(next);
            }
            if (!(there < value + 1e-11 * size)) {
                return new Minimum(at, value, fall < 1e-8 * size);
            }
            last = new Minimum(at, value, fine);
            lastFall = fine ? fall : Double.POSITIVE_INFINITY;
            at = next;
            value = there;
        }
        return last;
    }

    static double[][] hessian(UnaryOperator<double[]> gradient, double[] at) {
        int k = at.length;
        double[][] hessian = new double[k][k];
        for (int i = 0; i < k; i++) {
            double h = 1e-5 * Math.max(1, Math.abs(at[i]));
            double[] up = at.clone();
            up[i] += h;
            double[] down = at.clone();
            down[i] -= h;
            double[] above = gradient.apply(up);
            double[] below = gradient.apply(down);
            for (int j = 0; j < k; j++) {
                double second = (above[j] - below[j]) / (up[i] - down[i]);
                hessian[i][j] += second / 2;
                hessian[j][i] += second / 2;
            }
        }
        return hessian;
    }

    private static double[] step(double[][] hessian, double[] gradient) {
        int k = gradient.length;
        EigenDecompositionSymmetric eigen = Small.eigen(hessian);
        double largest = 0;
        for (double curvature : eigen.getEigenvalues()) {
            largest = Math.max(largest, Math.abs(curvature));
        }
        double[] step = new double[k];
        for (int m = 0; m < k; m++) {
            double[] direction = eigen.getEigenvector(m).toArray();
            double curvature = Math.abs(eigen.getEigenvalue(m));
            double slope = OrthonormalColumns.dot(direction, gradient);
            double size = -slope / Math.max(curvature, FLAT * largest + Double.MIN_NORMAL);
            for (int i = 0; i < k; i++) {
                step[i] += size * direction[i];
            }
        }
        return step;
    }

    private static double[] along(double[] at, double[] step, double share) {
        double[] next = at.clone();
        for (int i = 0; i < next.length; i++) {
            next[i] += share * step[i];
        }
        return next;
    }
}
