package org.sideport.stats.monitoring;

import org.hipparchus.analysis.integration.gauss.GaussIntegrator;
import org.hipparchus.analysis.integration.gauss.GaussIntegratorFactory;
import org.hipparchus.distribution.continuous.NormalDistribution;

/**
 * One side of a CUSUM of normal values: the probability of being at 0 and the density above it, the latter at
 * Gauss–Legendre nodes, so that the integral equation of Page 1954 is solved with an error far below the printed digits.
 */
final class CusumChain implements RunChain {

    private static final NormalDistribution NORMAL = new NormalDistribution();

    private final double drift;
    private final double limit;
    private final double[] nodes;
    private final double[] mass;
    private final double[][] toNode;
    private final double[] fromZero;
    private double start;
    private double atStart = 1;
    private double atZero;

    /**
     * @param drift mean of a value less k, in SD
     * @param start 0 or the head start
     */
    CusumChain(double drift, double limit, double start) {
        this.drift = drift;
        this.limit = limit;
        this.start = start;
        int n = (int) Math.max(48, Math.ceil(10 * limit));
        GaussIntegrator rule = new GaussIntegratorFactory().legendre(n, 0, limit);
        nodes = new double[n];
        mass = new double[n];
        toNode = new double[n][n];
        fromZero = new double[n];
        for (int j = 0; j < n; j++) {
            nodes[j] = rule.getPoint(j);
        }
        for (int j = 0; j < n; j++) {
            fromZero[j] = rule.getWeight(j) * NORMAL.density(nodes[j] - drift);
            for (int i = 0; i < n; i++) {
                toNode[i][j] = rule.getWeight(j) * NORMAL.density(nodes[j] - nodes[i] - drift);
            }
        }
    }

    @Override
    public double step() {
        int n = nodes.length;
        double[] next = new double[n];
        double zero = 0;
        double signal = 0;
        if (atStart > 0) {
            // The first case starts from a point; weights follow from those of 0 by the shift of the density.
            for (int j = 0; j < n; j++) {
                next[j] = fromZero[j] * NORMAL.density(nodes[j] - start - drift) / NORMAL.density(nodes[j] - drift);
            }
            zero = NORMAL.cumulativeProbability(-start - drift);
            signal = NORMAL.cumulativeProbability(start + drift - limit);
            atStart = 0;
        } else {
            for (int i = 0; i < n; i++) {
                for (int j = 0; j < n; j++) {
                    next[j] += mass[i] * toNode[i][j];
                }
                zero += mass[i] * NORMAL.cumulativeProbability(-nodes[i] - drift);
                signal += mass[i] * NORMAL.cumulativeProbability(nodes[i] + drift - limit);
            }
            for (int j = 0; j < n; j++) {
                next[j] += atZero * fromZero[j];
            }
            zero += atZero * NORMAL.cumulativeProbability(-drift);
            signal += atZero * NORMAL.cumulativeProbability(drift - limit);
        }
        System.arraycopy(next, 0, mass, 0, n);
        atZero = zero;
        return signal;
    }

    @Override
    public double alive() {
        return atStart + atZero + java.util.Arrays.stream(mass).sum();
    }

    @Override
    public String method() {
        return "integral equation at " + nodes.length + " Gauss–Legendre nodes";
    }
}
