package org.sideport.stats.rasch;

import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.describe.Moments;

/**
 * How far the measures of a facet can be told apart (Wright & Masters 1982, pages 105 and 106).
 *
 * @param n measures, without extreme ones
 * @param sd observed, logits
 * @param error root of the mean squared standard error, logits
 * @param reliability share of the observed variance that is not error, 0 to 1: to be high for trainees, low for assessors
 * @param separation true spread in standard errors, {@code √(R / (1 − R))}
 * @param strata {@code (4 separation + 1) / 3}: levels of skill that can be told apart
 */
public record Separation(int n, double sd, double error, double reliability, double separation, double strata) {

    /**
     * @param measures and their standard errors, as many
     * @return refused below two measures or without spread
     */
    public static Outcome<Separation> of(double[] measures, double[] errors) {
        if (measures.length != errors.length) {
            throw new IllegalArgumentException(measures.length + " measures, " + errors.length + " errors");
        }
        if (measures.length < 2) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "there are only " + measures.length + " measures to compare",
                    "collect marks of more");
        }
        double[] squares = new double[errors.length];
        for (int i = 0; i < errors.length; i++) {
            squares[i] = errors[i] * errors[i];
        }
        Double sd = Moments.of(measures).sd();
        double variance = sd == null ? 0 : sd * sd;
        double error = Moments.of(squares).mean();
        if (!(variance > 0)) {
            return Outcome.refused(
                    Refusal.Reason.NO_VARIATION, "all measures are the same", "there is nothing to tell apart");
        }
        double reliability = Math.max(0, 1 - error / variance);
        double separation = Math.sqrt(reliability / (1 - reliability));
        return Outcome.of(new Separation(
                measures.length,
                Math.sqrt(variance),
                Math.sqrt(error),
                reliability,
                separation,
                (4 * separation + 1) / 3));
    }
}
