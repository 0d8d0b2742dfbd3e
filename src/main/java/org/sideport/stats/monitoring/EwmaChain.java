package org.sideport.stats.monitoring;

import java.util.Arrays;
import org.hipparchus.analysis.integration.gauss.GaussIntegrator;
import org.hipparchus.analysis.integration.gauss.GaussIntegratorFactory;
import org.hipparchus.distribution.continuous.NormalDistribution;

/**
 * An EWMA of normal values between its limits, which widen with the cases (Crowder 1987, Technometrics 29:401, for steady
 * limits): the density of the statistic at Gauss–Legendre nodes.
 */
final class EwmaChain implements RunChain {

    private static final NormalDistribution NORMAL = new NormalDistribution();

    private final EwmaDesign design;
    private final double shift;
    private final double[] points;
    private final double[] weights;
    private double[] mass = {1};
    private double[] nodes = {0};
    private double limit;
    private double[][] steadyKernel = new double[0][];
    private int cases;

    EwmaChain(EwmaDesign design, double shift) {
        this.design = design;
        this.shift = shift;
        double half = design.width() * Math.sqrt(design.lambda() / (2 - design.lambda()));
        int n = (int) Math.max(48, Math.ceil(8 * half / design.lambda()));
        GaussIntegrator rule = new GaussIntegratorFactory().legendre(n);
        points = new double[n];
        weights = new double[n];
        for (int j = 0; j < n; j++) {
            points[j] = rule.getPoint(j);
            weights[j] = rule.getWeight(j);
        }
    }

    @Override
    public double step() {
        cases++;
        double half = design.halfWidth(cases);
        boolean settled = half == limit && nodes.length == points.length;
        double[] to = settled ? nodes : Arrays.stream(points).map(t -> t * half).toArray();
        if (!settled) {
            steadyKernel = new double[0][];
        } else if (steadyKernel.length == 0) {
            steadyKernel = new double[nodes.length][];
            for (int i = 0; i < nodes.length; i++) {
                steadyKernel[i] = row(nodes[i], to, half);
            }
        }
        double[] next = new double[to.length];
        double signal = 0;
        double lambda = design.lambda();
        for (int i = 0; i < nodes.length; i++) {
            double[] row = settled ? steadyKernel[i] : row(nodes[i], to, half);
            for (int j = 0; j < to.length; j++) {
                next[j] += mass[i] * row[j];
            }
            double centre = (1 - lambda) * nodes[i];
            signal += mass[i]
                    * (NORMAL.cumulativeProbability(-((half - centre) / lambda - shift))
                            + NORMAL.cumulativeProbability((-half - centre) / lambda - shift));
        }
        mass = next;
        nodes = to;
        limit = half;
        return signal;
    }

    private double[] row(double from, double[] to, double half) {
        double[] row = new double[to.length];
        double lambda = design.lambda();
        for (int j = 0; j < to.length; j++) {
            row[j] = weights[j] * half / lambda * NORMAL.density((to[j] - (1 - lambda) * from) / lambda - shift);
        }
        return row;
    }

    @Override
    public double alive() {
        return Arrays.stream(mass).sum();
    }

    @Override
    public String method() {
        return "integral equation at " + points.length + " Gauss–Legendre nodes";
    }
}
