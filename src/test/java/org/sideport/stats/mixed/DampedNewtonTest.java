package org.sideport.stats.mixed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class DampedNewtonTest {

    /** Rosenbrock 1960, Computer Journal 3:175: minimum 0 at (1, 1), customary start (−1.2, 1). */
    private static final DampedNewton.Function ROSENBROCK = new DampedNewton.Function() {
        @Override
        public double value(double[] x) {
            return 100 * Math.pow(x[1] - x[0] * x[0], 2) + Math.pow(1 - x[0], 2);
        }

        @Override
        public double[] gradient(double[] x) {
            double inner = x[1] - x[0] * x[0];
            return new double[] {-400 * x[0] * inner - 2 * (1 - x[0]), 200 * inner};
        }
    };

    @Test
    void rosenbrocksValleyIsFollowedToItsEnd() {
        DampedNewton.Minimum minimum = DampedNewton.minimise(ROSENBROCK, new double[] {-1.2, 1});
        assertThat(minimum.converged()).isTrue();
        assertThat(minimum.at()).containsExactly(new double[] {1, 1}, within(1e-9));
        assertThat(minimum.value()).isCloseTo(0, within(1e-18));
    }

    @Test
    void theHessianIsThatOfTheFormula() {
        // by hand: 1200 x² − 400 y + 2, −400 x, 200 at (−1.2, 1)
        double[][] hessian = DampedNewton.hessian(ROSENBROCK::gradient, new double[] {-1.2, 1});
        assertThat(hessian[0][0]).isCloseTo(1200 * 1.44 - 400 + 2, within(1e-5));
        assertThat(hessian[0][1]).isCloseTo(480, within(1e-5));
        assertThat(hessian[1][0]).isCloseTo(480, within(1e-5));
        assertThat(hessian[1][1]).isCloseTo(200, within(1e-5));
    }

    @Test
    void negativeCurvatureLeadsDownhill() {
        // cos has its maximum at 0: a plain Newton step from 0.1 would go there
        DampedNewton.Minimum minimum = DampedNewton.minimise(
                new DampedNewton.Function() {
                    @Override
                    public double value(double[] x) {
                        return Math.cos(x[0]);
                    }

                    @Override
                    public double[] gradient(double[] x) {
                        return new double[] {-Math.sin(x[0])};
                    }
                },
                new double[] {0.1});
        assertThat(minimum.value()).isCloseTo(-1, within(1e-15));
        assertThat(Math.cos(minimum.at()[0])).isCloseTo(-1, within(1e-15));
        assertThat(minimum.converged()).isTrue();
    }

    @Test
    void aFunctionWithoutMinimumDoesNotConverge() {
        DampedNewton.Minimum minimum = DampedNewton.minimise(
                new DampedNewton.Function() {
                    @Override
                    public double value(double[] x) {
                        return -x[0];
                    }

                    @Override
                    public double[] gradient(double[] x) {
                        return new double[] {-1};
                    }
                },
                new double[] {0});
        assertThat(minimum.converged()).isFalse();
    }
}
