package org.sideport.stats.mixed;

import java.util.Arrays;
import org.hipparchus.analysis.UnivariateFunction;
import org.hipparchus.analysis.solvers.BrentSolver;
import org.hipparchus.distribution.continuous.ChiSquaredDistribution;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Interval;

/**
 * Profile-likelihood limits of the SDs and the correlation: the values at which the deviance, minimised over everything
 * else, lies less than the chi-square quantile of one degree of freedom above its minimum (Bates et al. 2015, section
 * 5.1). It profiles the likelihood, not the restricted one. For one or two random columns.
 *
 * <p>Parameters: the SDs in units of their estimates, the arcsine of the correlation, the log of σ in units of its
 * estimate; all free to take any value, since the deviance is even in each SD.
 */
final class VarianceProfile {

    private final Deviance deviance;
    private final double[] scale;
    private final double sigma;
    private final double level;
    private final double rise;
    private final double[] best;
    private final double minimum;

    VarianceProfile(CrossProducts data, double level) {
        if (data.q() > 2) {
            throw new IllegalArgumentException("a profile of " + data.q() + " random columns");
        }
        deviance = new Deviance(data, Criterion.ML);
        this.level = level;
        rise = new ChiSquaredDistribution(1).inverseCumulativeProbability(level);
        FactorSearch.Found found = FactorSearch.search(deviance);
        sigma = deviance.solve(found.factor()).sigma();
        double[][] l = FactorSearch.semidefiniteCholesky(Small.multiply(
                Small.multiply(data.tInverse, Small.multiply(found.factor(), Small.transpose(found.factor()))),
                Small.transpose(data.tInverse)));
        int q = data.q();
        scale = new double[q];
        best = new double[q == 2 ? 4 : 2];
        for (int k = 0; k < q; k++) {
            double sd = OrthonormalColumns.length(l[k]) * sigma;
            double typical = OrthonormalColumns.length(data.tInverse[k]) * sigma;
            scale[k] = Math.max(sd, 1e-2 * typical);
            best[k] = sd / scale[k];
        }
        if (q == 2 && best[1] > 0) {
            best[2] = Math.atan2(l[1][0], l[1][1]);
        }
        minimum = value(best);
    }

    /** Limits of the SD of a random column, in its own unit. */
    Interval sd(int column) {
        double at = best[column];
        double lower = above(column, 0) < 0 ? 0 : root(column, 0, at);
        double upper = Math.max(2 * at, 1);
        while (above(column, upper) < 0 && upper < 1e6) {
            upper *= 2;
        }
        return new Interval(lower * scale[column], root(column, at, upper) * scale[column], level);
    }

    /** Limits of the correlation; {@code null} where an SD is zero. */
    @Nullable
    Interval correlation() {
        if (best.length < 4 || best[0] < 1e-4 || best[1] < 1e-4) {
            return null;
        }
        double end = Math.PI / 2;
        double lower = above(2, -end) < 0 ? -end : root(2, -end, best[2]);
        double upper = above(2, end) < 0 ? end : root(2, best[2], end);
        return new Interval(Math.sin(lower), Math.sin(upper), level);
    }

    Interval residual() {
        int last = best.length - 1;
        double step = 0.1;
        while (above(last, step) < 0 || above(last, -step) < 0) {
            step *= 1.5;
        }
        return new Interval(sigma * Math.exp(root(last, -step, 0)), sigma * Math.exp(root(last, 0, step)), level);
    }

    private double root(int parameter, double lower, double upper) {
        UnivariateFunction function = at -> above(parameter, at);
        return new BrentSolver(1e-9, 1e-9).solve(200, function, lower, upper);
    }

    /** How far the deviance, minimised over the other parameters, lies above the limit's height. */
    private double above(int parameter, double fixed) {
        DampedNewton.Function free = new DampedNewton.Function() {
            @Override
            public double value(double[] at) {
                return VarianceProfile.this.value(insert(at, parameter, fixed));
            }

            @Override
            public double[] gradient(double[] at) {
                return remove(VarianceProfile.this.gradient(insert(at, parameter, fixed)), parameter);
            }
        };
        double lowest = DampedNewton.minimise(free, remove(best, parameter)).value();
        return lowest - minimum - rise;
    }

    private double sigma(double[] at) {
        return sigma * Math.exp(at[at.length - 1]);
    }

    private double[][] factor(double[] at) {
        double[][] l = new double[scale.length][scale.length];
        l[0][0] = at[0] * scale[0];
        if (scale.length == 2) {
            l[1][0] = at[1] * scale[1] * Math.sin(at[2]);
            l[1][1] = at[1] * scale[1] * Math.cos(at[2]);
        }
        double[][] factor = Small.multiply(deviance.data().t, l);
        for (double[] row : factor) {
            for (int j = 0; j < row.length; j++) {
                row[j] /= sigma(at);
            }
        }
        return factor;
    }

    private double value(double[] at) {
        return deviance.at(factor(at), sigma(at));
    }

    private double[] gradient(double[] at) {
        double[][] factor = factor(at);
        Solution solution = deviance.solve(factor);
        double[][] mf = Small.multiply(solution.derivative(sigma(at)), factor);
        double[] gradient = new double[at.length];
        for (int k = 0; k < at.length; k++) {
            double h = 1e-6 * Math.max(1, Math.abs(at[k]));
            double[][] above = factor(moved(at, k, h));
            double[][] below = factor(moved(at, k, -h));
            for (int i = 0; i < factor.length; i++) {
                for (int j = 0; j < factor.length; j++) {
                    gradient[k] += 2 * mf[i][j] * (above[i][j] - below[i][j]) / (2 * h);
                }
            }
        }
        gradient[at.length - 1] += solution.derivativeBySigma(sigma(at)) * sigma(at);
        return gradient;
    }

    private static double[] moved(double[] at, int k, double by) {
        double[] moved = at.clone();
        moved[k] += by;
        return moved;
    }

    private static double[] insert(double[] at, int k, double value) {
        double[] all = new double[at.length + 1];
        System.arraycopy(at, 0, all, 0, k);
        all[k] = value;
        System.arraycopy(at, k, all, k + 1, at.length - k);
        return all;
    }

    private static double[] remove(double[] all, int k) {
        double[] left = Arrays.copyOf(all, all.length - 1);
        System.arraycopy(all, k + 1, left, k, left.length - k);
        return left;
    }
}
