package org.sideport.stats.mixed;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.hipparchus.distribution.continuous.NormalDistribution;

/**
 * Residuals from each subject's own curve, divided by their own SD (Nobre & Singer 2007, Biometrical Journal 49:863,
 * section 3): {@code (y − Xβ̂ − Zb̂) / (σ̂ √(1 − h))}, h the leverage of the observation on its conditional fit.
 *
 * @param standardised one for each observation, in the order of the data; 0 where an observation determines its own fit
 */
@SuppressWarnings("ArrayRecordComponent")
public record ConditionalResiduals(double[] standardised) {

    static ConditionalResiduals of(MixedFit fit) {
        CrossProducts data = fit.deviance().data();
        Solution solution = fit.solution();
        double[][] variance = solution.relativeCovariance();
        double[][] blup = new double[data.subjects][];
        double[][][] open = new double[data.subjects][][];
        double[][][] slope = new double[data.subjects][][];
        for (int s = 0; s < data.subjects; s++) {
            blup[s] = solution.blup(s);
            open[s] = solution.conditionalVariance(s);
            // z'F(F'AF + I)⁻¹F'Z'X = z' D Z'V⁻¹X: what the random part takes from a row of X
            slope[s] = Small.multiply(variance, solution.zvx(s));
        }
        double[] standardised = new double[data.n()];
        for (int i = 0; i < standardised.length; i++) {
            int s = data.subject[i];
            double[] x = data.rowOfX(i);
            double[] z = data.rowOfZ(i);
            double residual =
                    data.y[i] - OrthonormalColumns.dot(x, solution.gamma) - OrthonormalColumns.dot(z, blup[s]);
            for (int j = 0; j < x.length; j++) {
                for (int k = 0; k < z.length; k++) {
                    x[j] -= z[k] * slope[s][k][j];
                }
            }
            double left = 1 - Small.form(z, open[s], z) - solution.variance(x);
            standardised[i] = left > 1e-10 ? residual / (solution.sigma() * Math.sqrt(left)) : 0;
        }
        return new ConditionalResiduals(standardised);
    }

    /**
     * The bound beyond which an observation is listed: 3, or the two-sided normal quantile that one of all observations
     * passes by chance with probability 0.05 (Bonferroni), whichever is larger.
     */
    public double bound() {
        double chance = 0.05 / (2 * standardised.length);
        return Math.max(3, -new NormalDistribution().inverseCumulativeProbability(chance));
    }

    /** Indices of the observations beyond {@link #bound}, the farthest first. */
    public List<Integer> outliers() {
        double bound = bound();
        List<Integer> found = new ArrayList<>();
        for (int i = 0; i < standardised.length; i++) {
            if (Math.abs(standardised[i]) > bound) {
                found.add(i);
            }
        }
        found.sort(Comparator.comparingDouble(i -> -Math.abs(standardised[i])));
        return found;
    }
}
