package org.sideport.stats.mixed;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.ToDoubleBiFunction;
import java.util.function.UnaryOperator;
import org.hipparchus.linear.EigenDecompositionSymmetric;

/**
 * Degrees of freedom of an estimated variance after Satterthwaite, {@code 2 f² / (g' A g)}: f the variance as a function
 * of the covariance parameters (the factor's lower triangle and σ), g its gradient there by central differences, and A
 * twice the inverse of the deviance's Hessian (Kuznetsova, Brockhoff & Christensen 2017, Journal of Statistical Software
 * 82(13), section 2; Giesbrecht & Burns 1985, Biometrics 41:477). Directions in which the deviance does not rise, as they
 * occur on the boundary, are left out of the inverse.
 */
final class Satterthwaite {

    private record State(Solution solution, double sigma) {}

    private final State here;
    private final List<State> above = new ArrayList<>();
    private final List<State> below = new ArrayList<>();
    private final double[] steps;
    private final double[][] covariance;

    Satterthwaite(Deviance deviance, double[][] factor, double sigma) {
        int q = factor.length;
        double[] theta = FactorSearch.theta(factor);
        double[] at = Arrays.copyOf(theta, theta.length + 1);
        // The residual SD in units of its estimate, so that one step size suits all.
        at[theta.length] = 1;
        here = new State(deviance.solve(factor), sigma);
        steps = new double[at.length];
        for (int i = 0; i < at.length; i++) {
            steps[i] = 1e-4 * Math.max(0.1, Math.abs(at[i]));
            above.add(state(deviance, at, i, steps[i], q, sigma));
            below.add(state(deviance, at, i, -steps[i], q, sigma));
        }
        covariance = covariance(DampedNewton.hessian(gradient(deviance, q, sigma), at));
    }

    private static State state(Deviance deviance, double[] at, int i, double step, int q, double sigma) {
        double[] moved = at.clone();
        moved[i] += step;
        return new State(deviance.solve(FactorSearch.factor(moved, q)), moved[at.length - 1] * sigma);
    }

    /** Derivative of the deviance by the factor's lower triangle and by the residual SD in units of its estimate. */
    private static UnaryOperator<double[]> gradient(Deviance deviance, int q, double sigma) {
        return at -> {
            double[][] factor = FactorSearch.factor(at, q);
            double there = at[at.length - 1] * sigma;
            Solution solution = deviance.solve(factor);
            double[] byTheta = FactorSearch.byTheta(solution.derivative(there), factor);
            double[] gradient = Arrays.copyOf(byTheta, at.length);
            gradient[at.length - 1] = solution.derivativeBySigma(there) * sigma;
            return gradient;
        };
    }

    private static double[][] covariance(double[][] hessian) {
        int k = hessian.length;
        EigenDecompositionSymmetric eigen = Small.eigen(hessian);
        double[][] a = new double[k][k];
        for (int m = 0; m < k; m++) {
            double curvature = eigen.getEigenvalue(m);
            if (curvature <= 1e-7 * eigen.getEigenvalue(0)) {
                continue;
            }
            double[] v = eigen.getEigenvector(m).toArray();
            for (int i = 0; i < k; i++) {
                for (int j = 0; j < k; j++) {
                    a[i][j] += 2 * v[i] * v[j] / curvature;
                }
            }
        }
        return a;
    }

    /**
     * @param variance of a solution and a residual SD
     * @return empty where the variance does not depend on the covariance parameters
     */
    OptionalDouble degreesOfFreedom(ToDoubleBiFunction<Solution, Double> variance) {
        double f = variance.applyAsDouble(here.solution, here.sigma);
        double[] gradient = new double[steps.length];
        for (int i = 0; i < steps.length; i++) {
            gradient[i] = (variance.applyAsDouble(above.get(i).solution, above.get(i).sigma)
                            - variance.applyAsDouble(below.get(i).solution, below.get(i).sigma))
                    / (2 * steps[i]);
        }
        double df = 2 * f * f / Small.form(gradient, covariance, gradient);
        return Double.isFinite(df) && df > 0 ? OptionalDouble.of(df) : OptionalDouble.empty();
    }
}
