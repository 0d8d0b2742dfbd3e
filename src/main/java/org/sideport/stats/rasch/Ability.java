package org.sideport.stats.rasch;

import java.util.List;
import org.hipparchus.analysis.UnivariateFunction;
import org.hipparchus.analysis.solvers.BracketingNthOrderBrentSolver;

/** The ability at which given marks are to be expected. */
final class Ability {

    /** Logits; far beyond what marks of a few hundred items can tell. */
    private static final double FARTHEST = 60;

    private Ability() {}

    /**
     * Maximum likelihood: the expected sum of scores is the one that was given.
     *
     * @param total above the least and below the greatest possible sum
     */
    static double maximumLikelihood(List<MarkCurve> curves, int total) {
        return solve(ability -> {
            double expected = 0;
            for (MarkCurve curve : curves) {
                expected += curve.mean(ability);
            }
            return total - expected;
        });
    }

    /**
     * Warm's weighted likelihood estimate (Warm 1989, Psychometrika 54:427, for models in the exponential family the
     * mode under Jeffreys' prior): the bias of order 1/n is taken away, and sums at the bottom or top have a finite one.
     */
    static double warm(List<MarkCurve> curves, int total) {
        return solve(ability -> {
            double expected = 0;
            double information = 0;
            double third = 0;
            for (MarkCurve curve : curves) {
                MarkCurve.Moments m = curve.moments(ability);
                expected += m.mean();
                information += m.variance();
                third += m.third();
            }
            return total - expected + third / (2 * information);
        });
    }

    /** Fisher's information of the marks on the ability. */
    static double information(List<MarkCurve> curves, double ability) {
        return curves.stream().mapToDouble(c -> c.moments(ability).variance()).sum();
    }

    private static double solve(UnivariateFunction function) {
        return new BracketingNthOrderBrentSolver(1e-14, 1e-13, 1e-15, 5).solve(500, function, -FARTHEST, FARTHEST, 0);
    }
}
