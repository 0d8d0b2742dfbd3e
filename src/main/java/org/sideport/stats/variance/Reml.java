package org.sideport.stats.variance;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.data.Factor;

/**
 * Restricted maximum likelihood for random-effects models: {@code y = mu + sum of random factors + residual}, all effects
 * independent and normal with mean 0, data unbalanced and incomplete as they are (Patterson & Thompson 1971, Biometrika
 * 58:545; the criterion of Bates, Mächler, Bolker & Walker 2015, Journal of Statistical Software 67(1), section 3). Sparse
 * throughout: time and memory grow about linearly with the data of persons × cases × raters. Components are not negative;
 * one that wants to be is exactly 0.
 *
 * <p>Standard errors come from the observed REML information (negative second derivatives of the restricted
 * log-likelihood by the components that are not 0). They are rough where a factor has few levels: a component's sampling
 * distribution is skewed.
 */
public final class Reml {

    public static final String METHOD = "REML";

    /** Component below this share of the residual: zero. */
    private static final double ZERO = 2 * RemlSearch.FLOOR;

    private static final double DIFFERENCE = 1e-4;

    private Reml() {}

    /**
     * Fits the model.
     *
     * @param values finite, any unit
     * @param random at least one factor of the same length as {@code values}; interactions and nested factors as
     *     {@link Crossing}. Each needs at least 2 levels and fewer levels than there are observations
     * @return refused: too few levels, no variation, components that the design cannot tell apart (for instance an
     *     interaction with one observation a cell, which is the residual), a residual of nought, or no convergence
     * @throws IllegalArgumentException if there is no factor, lengths differ or a value is not finite
     */
    public static Outcome<VarianceComponents> fit(double[] values, List<Factor> random) {
        check(values, random);
        for (Factor factor : random) {
            long used = Arrays.stream(factor.codes()).distinct().count();
            if (used < 2) {
                return Outcome.refused(
                        Refusal.Reason.TOO_FEW,
                        "there is only one " + factor.name() + ", so its variance cannot be seen",
                        "collect data of at least two, or leave " + factor.name() + " out");
            }
            if (used == values.length) {
                return Outcome.refused(
                        Refusal.Reason.NOT_IDENTIFIED,
                        "each of the " + values.length + " values has its own " + factor.name()
                                + ", so it cannot be told from the residual",
                        "leave " + factor.name() + " out: the residual stands for it");
            }
        }
        CrossProducts data = new CrossProducts(values, random);
        if (data.yy <= 1e-24 * values.length * data.mean * data.mean || data.yy == 0) {
            return Outcome.refused(
                    Refusal.Reason.NO_VARIATION, "all " + values.length + " values are the same", "check the data");
        }
        Identifiability identifiability = new Identifiability(data);
        int[] confounded = identifiability.confounded();
        if (confounded != null) {
            String names = Arrays.stream(confounded)
                    .mapToObj(k -> k < random.size() ? random.get(k).name() : "residual")
                    .collect(Collectors.joining(", "));
            return Outcome.refused(
                    Refusal.Reason.NOT_IDENTIFIED,
                    "this design cannot tell these sources of variance apart: " + names,
                    "leave one of them out, or collect data in which they differ");
        }
        RemlCriterion criterion;
        try {
            criterion = new RemlCriterion(data);
        } catch (SparseCholesky.TooLargeException e) {
            return Outcome.refused(
                    Refusal.Reason.UNSUITABLE_DATA,
                    "the factors cross so widely that the computation does not fit into memory (" + e.getMessage()
                            + ")",
                    "take a part of the data");
        }
        double[] gamma = best(criterion, identifiability.minque());
        if (gamma == null) {
            return Outcome.refused(
                    Refusal.Reason.NOT_CONVERGED,
                    "the search for the variance components of " + values.length
                            + " values did not come to rest; the residual may be nought",
                    "check for copied or constant values, or use a simpler model");
        }
        return Outcome.of(result(criterion, gamma, random));
    }

    private static void check(double[] values, List<Factor> random) {
        if (random.isEmpty()) {
            throw new IllegalArgumentException("no random factor");
        }
        for (Factor factor : random) {
            if (factor.codes().length != values.length) {
                throw new IllegalArgumentException(
                        factor.name() + " has " + factor.codes().length + " codes for " + values.length + " values");
            }
        }
        for (double value : values) {
            if (!Double.isFinite(value)) {
                throw new IllegalArgumentException("not a finite value: " + value);
            }
        }
    }

    /** The best of the searches from several starts, tiny components set to 0; {@code null} if none came to rest. */
    private static double @Nullable [] best(RemlCriterion criterion, double[] minque) {
        int factors = criterion.data().factors;
        double[] moments = new double[factors];
        double residual =
                Math.max(minque[factors], 1e-3 * Arrays.stream(minque).max().orElse(1));
        for (int k = 0; k < factors; k++) {
            moments[k] = Math.min(Math.max(minque[k] / residual, 0.01), 100);
        }
        double[] ones = new double[factors];
        Arrays.fill(ones, 1);
        double[] small = new double[factors];
        Arrays.fill(small, 0.02);
        double least = Double.POSITIVE_INFINITY;
        double[] best = null;
        RemlSearch search = new RemlSearch(criterion);
        for (double[] start : List.of(moments, ones, small)) {
            double[] found = search.from(start);
            if (found == null) {
                continue;
            }
            for (int k = 0; k < factors; k++) {
                found[k] = found[k] < ZERO ? 0 : found[k];
            }
            double value = criterion.at(found);
            // Rounding must not choose between starts that meet.
            if (value < least - 1e-9) {
                least = value;
                best = found;
            }
        }
        return best;
    }

    private static VarianceComponents result(RemlCriterion criterion, double[] gamma, List<Factor> random) {
        double deviance = criterion.at(gamma);
        double residual = criterion.residualVariance();
        double mean = criterion.mean();
        double meanSe = Math.sqrt(criterion.meanVariance());
        List<String> warnings = new ArrayList<>();
        @Nullable Double[] errors = standardErrors(criterion, gamma, residual);
        List<VarianceComponent> components = new ArrayList<>();
        for (int k = 0; k < gamma.length; k++) {
            Factor factor = random.get(k);
            components.add(new VarianceComponent(factor.name(), factor.size(), gamma[k] * residual, errors[k]));
            if (gamma[k] == 0) {
                warnings.add("the variance of " + factor.name()
                        + " is estimated as 0: these data show none, which does not prove that there is none");
            }
            if (factor.size() < 5) {
                warnings.add("the variance of " + factor.name() + " rests on " + factor.size()
                        + " levels only and is uncertain");
            }
        }
        int n = criterion.data().n;
        return new VarianceComponents(
                components,
                new VarianceComponent("residual", n, residual, errors[gamma.length]),
                mean,
                meanSe,
                n,
                deviance,
                METHOD,
                warnings);
    }

    /** Of the components and, last, the residual; from central differences of the analytic score. */
    private static @Nullable Double[] standardErrors(RemlCriterion criterion, double[] gamma, double residual) {
        int factors = gamma.length;
        int[] active = java.util.stream.IntStream.rangeClosed(0, factors)
                .filter(k -> k == factors || gamma[k] > 0)
                .toArray();
        double[] variance = Arrays.copyOf(gamma, factors + 1);
        for (int k = 0; k < factors; k++) {
            variance[k] = Math.max(gamma[k] * residual, RemlSearch.FLOOR * residual);
        }
        variance[factors] = residual;
        RealMatrix information = new Array2DRowRealMatrix(active.length, active.length);
        for (int a = 0; a < active.length; a++) {
            double step = DIFFERENCE * variance[active[a]];
            double[] up = score(criterion, variance, active[a], step);
            double[] down = score(criterion, variance, active[a], -step);
            for (int b = 0; b < active.length; b++) {
                // Half: the score is that of minus twice the log-likelihood.
                information.addToEntry(a, b, (up[active[b]] - down[active[b]]) / step / 8);
                information.addToEntry(b, a, (up[active[b]] - down[active[b]]) / step / 8);
            }
        }
        criterion.at(gamma);
        @Nullable Double[] errors = new @Nullable Double[factors + 1];
        LUDecomposition lu = new LUDecomposition(information);
        if (!lu.getSolver().isNonSingular()) {
            return errors;
        }
        RealMatrix covariance = lu.getSolver().getInverse();
        for (int a = 0; a < active.length; a++) {
            double square = covariance.getEntry(a, a);
            errors[active[a]] = square > 0 && Double.isFinite(square) ? (Double) Math.sqrt(square) : null;
        }
        return errors;
    }

    /** Derivatives of minus twice the restricted log-likelihood by the components and, last, the residual variance. */
    private static double[] score(RemlCriterion criterion, double[] variance, int changed, double step) {
        int factors = variance.length - 1;
        double[] v = variance.clone();
        v[changed] += step;
        double residual = v[factors];
        double[] gamma = new double[factors];
        for (int k = 0; k < factors; k++) {
            gamma[k] = v[k] / residual;
        }
        criterion.at(gamma);
        RemlCriterion.Derivatives d = criterion.derivatives(false);
        double[] score = new double[factors + 1];
        double trace = criterion.data().n - 1;
        double quadratic = d.rss();
        for (int k = 0; k < factors; k++) {
            score[k] = d.trace()[k] / residual - d.quadratic()[k] / (residual * residual);
            trace -= gamma[k] * d.trace()[k];
            quadratic -= gamma[k] * d.quadratic()[k];
        }
        score[factors] = trace / residual - quadratic / (residual * residual);
        return score;
    }
}
