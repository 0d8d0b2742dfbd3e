package org.sideport.stats.casemix;

import java.util.Arrays;
import org.hipparchus.exception.MathIllegalArgumentException;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.jspecify.annotations.Nullable;

/**
 * The (penalised) log-likelihood of a logistic model and its maximum by Newton's steps with the expected information,
 * which is iteratively reweighted least squares. Columns are scaled by their largest absolute value; coefficients in and
 * out of here are in that scale.
 */
final class LogisticLikelihood {

    private static final int MOST_STEPS = 500;
    private static final int MOST_HALVINGS = 20;
    private static final double LARGEST_STEP = 5;
    private static final double AT_REST = 1e-11;

    /** A maximum; {@code information} of all coefficients, also of one that was held. */
    record Maximum(double[] beta, double value, double logLikelihood, RealMatrix covariance, int steps) {}

    private record Place(double value, double logLikelihood, double[] score, CholeskyDecomposition information) {}

    private final double[][] columns;
    private final double[] scale;
    private final double[] outcome;
    private final double[] offset;
    private final boolean penalised;

    /**
     * @param columns of the design, the intercept included; linearly independent
     * @param offset added to the linear predictor
     */
    LogisticLikelihood(double[][] columns, double[] outcome, double[] offset, boolean penalised) {
        this.columns = new double[columns.length][];
        this.scale = new double[columns.length];
        for (int j = 0; j < columns.length; j++) {
            double largest = Arrays.stream(columns[j]).map(Math::abs).max().orElse(0);
            scale[j] = largest > 0 ? largest : 1;
            double s = scale[j];
            this.columns[j] = Arrays.stream(columns[j]).map(v -> v / s).toArray();
        }
        this.outcome = outcome;
        this.offset = offset;
        this.penalised = penalised;
    }

    /** What a coefficient here is divided by for the unit of the data. */
    double scale(int j) {
        return scale[j];
    }

    /**
     * @param start for instance zeros
     * @param held index of a coefficient that stays where it starts; −1 for none
     * @return {@code null} if the steps come to no rest or the information vanishes
     */
    @Nullable
    Maximum maximise(double[] start, int held) {
        double[] beta = start.clone();
        Place here = at(beta);
        if (here == null) {
            return null;
        }
        for (int step = 1; step <= MOST_STEPS; step++) {
            double[] move = move(here, held);
            double length = 0;
            double relative = 0;
            for (int j = 0; j < move.length; j++) {
                length = Math.max(length, Math.abs(move[j]));
                relative = Math.max(relative, Math.abs(move[j]) / (1 + Math.abs(beta[j])));
            }
            if (relative < AT_REST) {
                return done(beta, here, step);
            }
            double share = Math.min(1, LARGEST_STEP / length);
            double[] next = along(beta, move, share);
            Place there = at(next);
            // rounding makes the value noisy near the top, where full steps are right
            double noise = 1e-12 * (1 + Math.abs(here.value()));
            for (int h = 0; worse(there, here.value() - noise); h++) {
                if (h == MOST_HALVINGS) {
                    return null;
                }
                share /= 2;
                next = along(beta, move, share);
                there = at(next);
            }
            if (there == null) {
                return null;
            }
            beta = next;
            here = there;
        }
        return null;
    }

    private static boolean worse(@Nullable Place there, double than) {
        return there == null || there.value() < than;
    }

    private static Maximum done(double[] beta, Place place, int steps) {
        return new Maximum(
                beta,
                place.value(),
                place.logLikelihood(),
                place.information().getSolver().getInverse(),
                steps);
    }

    private static double[] along(double[] beta, double[] move, double share) {
        double[] next = beta.clone();
        for (int j = 0; j < next.length; j++) {
            next[j] += share * move[j];
        }
        return next;
    }

    private static double[] move(Place here, int held) {
        int k = here.score().length;
        if (held < 0) {
            return here.information()
                    .getSolver()
                    .solve(new ArrayRealVector(here.score(), false))
                    .toArray();
        }
        double[] move = new double[k];
        if (k == 1) {
            return move;
        }
        int[] free =
                java.util.stream.IntStream.range(0, k).filter(j -> j != held).toArray();
        RealMatrix l = here.information().getL();
        RealMatrix part = l.multiplyTransposed(l).getSubMatrix(free, free);
        double[] score = Arrays.stream(free).mapToDouble(j -> here.score()[j]).toArray();
        double[] solved = new CholeskyDecomposition(part, 1e-9, 0)
                .getSolver()
                .solve(new ArrayRealVector(score, false))
                .toArray();
        for (int i = 0; i < free.length; i++) {
            move[free[i]] = solved[i];
        }
        return move;
    }

    double[] linearPredictor(double[] beta) {
        double[] eta = offset.clone();
        for (int j = 0; j < beta.length; j++) {
            for (int i = 0; i < eta.length; i++) {
                eta[i] += columns[j][i] * beta[j];
            }
        }
        return eta;
    }

    static double probability(double eta) {
        return eta >= 0 ? 1 / (1 + Math.exp(-eta)) : Math.exp(eta) / (1 + Math.exp(eta));
    }

    /** Value and derivatives; {@code null} where the information cannot be inverted. */
    private @Nullable Place at(double[] beta) {
        int k = columns.length;
        int n = outcome.length;
        double[] eta = linearPredictor(beta);
        double[] risk = new double[n];
        double[] weight = new double[n];
        double logLikelihood = 0;
        for (int i = 0; i < n; i++) {
            risk[i] = probability(eta[i]);
            weight[i] = risk[i] * probability(-eta[i]);
            logLikelihood -= softplus(outcome[i] == 1 ? -eta[i] : eta[i]);
        }
        CholeskyDecomposition information = information(weight);
        if (information == null) {
            return null;
        }
        double[] residual = new double[n];
        RealMatrix l = information.getL();
        double[] z = new double[k];
        for (int i = 0; i < n; i++) {
            residual[i] = outcome[i] - risk[i];
            if (penalised) {
                residual[i] += leverage(l, i, weight[i], z) * (0.5 - risk[i]);
            }
        }
        double[] score = new double[k];
        for (int j = 0; j < k; j++) {
            for (int i = 0; i < n; i++) {
                score[j] += columns[j][i] * residual[i];
            }
        }
        double value = logLikelihood;
        for (int j = 0; penalised && j < k; j++) {
            value += Math.log(l.getEntry(j, j));
        }
        return new Place(value, logLikelihood, score, information);
    }

    private static double softplus(double x) {
        return x > 0 ? x + Math.log1p(Math.exp(-x)) : Math.log1p(Math.exp(x));
    }

    private @Nullable CholeskyDecomposition information(double[] weight) {
        int k = columns.length;
        double[][] information = new double[k][k];
        for (int a = 0; a < k; a++) {
            for (int b = 0; b <= a; b++) {
                double sum = 0;
                for (int i = 0; i < weight.length; i++) {
                    sum += weight[i] * columns[a][i] * columns[b][i];
                }
                information[a][b] = sum;
                information[b][a] = sum;
            }
        }
        try {
            return new CholeskyDecomposition(new Array2DRowRealMatrix(information, false), 1e-9, 0);
        } catch (MathIllegalArgumentException e) {
            return null;
        }
    }

    /** Diagonal of the hat matrix. */
    private double leverage(RealMatrix l, int i, double weight, double[] z) {
        double sum = 0;
        for (int a = 0; a < z.length; a++) {
            double rest = columns[a][i];
            for (int b = 0; b < a; b++) {
                rest -= l.getEntry(a, b) * z[b];
            }
            z[a] = rest / l.getEntry(a, a);
            sum += z[a] * z[a];
        }
        return weight * sum;
    }
}
