package org.sideport.stats.rasch;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.exception.MathRuntimeException;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.DecompositionSolver;
import org.hipparchus.linear.RealMatrix;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * Severities, difficulties and step sums at the maximum of the conditional likelihood, by Newton's method; severities and
 * difficulties add up to 0 each.
 *
 * @param values by {@link Parameters}, logits
 * @param covariance inverse of the observed information within the sums of 0
 * @param logLikelihood at its maximum, without correction
 */
@SuppressWarnings("ArrayRecordComponent")
record ConditionalFit(double[] values, RealMatrix covariance, double logLikelihood, int iterations) {

    private static final int STEPS = 100;
    /** Logits; odds of e^15, one to three million, are none that marks can show. */
    private static final double BEYOND = 15;

    static Outcome<ConditionalFit> of(UsableMarks usable, Parameters parameters, Estimation estimation) {
        ConditionalLikelihood likelihood = new ConditionalLikelihood(usable, parameters);
        double[] at = new double[parameters.size()];
        ConditionalLikelihood.Value value = likelihood.at(at);
        for (int iteration = 1; iteration <= STEPS; iteration++) {
            @Nullable DecompositionSolver solver = solver(value.information(), parameters);
            if (solver == null) {
                return iteration == 1 ? undetermined() : separated(usable, parameters, at);
            }
            double[] step =
                    solver.solve(new Array2DRowRealMatrix(value.gradient())).getColumn(0);
            double gain = 0;
            for (int i = 0; i < step.length; i++) {
                gain += step[i] * value.gradient()[i];
            }
            double share = 1;
            double[] next = along(at, step, share);
            ConditionalLikelihood.Value there = likelihood.at(next);
            // Below this gain rounding hides whether the likelihood rose; the step is a good one there.
            while (gain > 1e-9 && !(there.logLikelihood() >= value.logLikelihood()) && share > 1e-6) {
                share /= 2;
                next = along(at, step, share);
                there = likelihood.at(next);
            }
            at = next;
            value = there;
            if (beyond(at)) {
                return separated(usable, parameters, at);
            }
            if (gain < 1e-18) {
                @Nullable DecompositionSolver last = solver(value.information(), parameters);
                if (last == null) {
                    return separated(usable, parameters, at);
                }
                ConditionalFit fit =
                        new ConditionalFit(at, covariance(last, parameters), value.logLikelihood(), iteration);
                return Outcome.of(estimation == Estimation.BIAS_REDUCED ? fit.corrected(likelihood, parameters) : fit);
            }
        }
        return Outcome.refused(
                Refusal.Reason.NOT_CONVERGED,
                "the estimation did not come to rest in " + STEPS + " steps",
                "collect more marks, or take the rating scale model, which has fewer unknowns");
    }

    /** One step to the mode under Jeffreys' prior: half the gradient of log det information, times the covariance. */
    private ConditionalFit corrected(ConditionalLikelihood likelihood, Parameters parameters) {
        double[] slope = likelihood.traceGradient(values, covariance);
        double[] at = along(values, covariance.operate(slope), 0.5);
        @Nullable DecompositionSolver solver = solver(likelihood.at(at).information(), parameters);
        return solver == null
                ? this
                : new ConditionalFit(at, covariance(solver, parameters), logLikelihood, iterations);
    }

    private static double[] along(double[] at, double[] step, double share) {
        double[] next = at.clone();
        for (int i = 0; i < next.length; i++) {
            next[i] += share * step[i];
        }
        return next;
    }

    private static boolean beyond(double[] at) {
        for (double value : at) {
            if (!(Math.abs(value) < BEYOND)) {
                return true;
            }
        }
        return false;
    }

    /**
     * The information is blind to a shift of all severities or all difficulties; a one in each cell of their blocks fixes
     * the shift and leaves the rest as it is.
     */
    private static @Nullable DecompositionSolver solver(double[][] information, Parameters parameters) {
        double[][] matrix = new double[information.length][];
        for (int i = 0; i < matrix.length; i++) {
            matrix[i] = information[i].clone();
            for (int j = 0; j < matrix.length; j++) {
                matrix[i][j] = (information[i][j] + information[j][i]) / 2 + sameFacet(parameters, i, j);
            }
        }
        try {
            return new CholeskyDecomposition(new Array2DRowRealMatrix(matrix, false), 1e-8, 1e-10).getSolver();
        } catch (MathRuntimeException e) {
            return null;
        }
    }

    private static int facet(Parameters parameters, int place) {
        int assessors = parameters.assessorCount();
        return place < assessors ? 0 : place < assessors + parameters.itemCount() ? 1 : 2;
    }

    private static int sameFacet(Parameters parameters, int i, int j) {
        int facet = facet(parameters, i);
        return facet < 2 && facet == facet(parameters, j) ? 1 : 0;
    }

    private static RealMatrix covariance(DecompositionSolver solver, Parameters parameters) {
        RealMatrix inverse = solver.getInverse();
        int[] counts = {parameters.assessorCount(), parameters.itemCount()};
        for (int i = 0; i < inverse.getRowDimension(); i++) {
            for (int j = 0; j < inverse.getColumnDimension(); j++) {
                if (sameFacet(parameters, i, j) == 1) {
                    double count = counts[facet(parameters, i)];
                    inverse.addToEntry(i, j, -1 / (count * count));
                }
            }
        }
        return inverse;
    }

    private static Outcome<ConditionalFit> undetermined() {
        return Outcome.refused(
                Refusal.Reason.NOT_IDENTIFIED,
                "given the trainees' sums, the marks tell nothing of some severities, difficulties or steps",
                "collect more marks of each trainee, join levels that were hardly used, or take the rating scale model");
    }

    private static Outcome<ConditionalFit> separated(UsableMarks usable, Parameters parameters, double[] at) {
        double farthest = 0;
        for (double value : at) {
            farthest = Math.max(farthest, Math.abs(value));
        }
        List<String> names = new ArrayList<>();
        for (int i = 0; i < at.length; i++) {
            if (Math.abs(at[i]) > farthest / 2) {
                names.add(parameters.name(
                        i, usable.marks().assessors(), usable.marks().items()));
            }
        }
        return Outcome.refused(
                Refusal.Reason.SEPARATED,
                "the marks order some assessors, items or levels without exception, so that no finite distance between"
                        + " them can be told (" + String.join(", ", names) + ")",
                "collect more marks of these, leave them out, or join levels that were hardly used");
    }
}
