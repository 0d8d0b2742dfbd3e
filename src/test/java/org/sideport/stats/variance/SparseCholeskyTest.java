package org.sideport.stats.variance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.RealMatrix;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sideport.stats.data.Factor;

/** Against dense linear algebra (Hipparchus) on the same matrices. */
class SparseCholeskyTest {

    private static Factor factor(String name, int n, int levels, Random random) {
        return new Factor(
                name,
                IntStream.range(0, levels).mapToObj(i -> name + i).toList(),
                IntStream.range(0, n)
                        .map(i -> i < levels ? i : random.nextInt(levels))
                        .toArray());
    }

    private static RealMatrix dense(int n, List<Factor> factors) {
        int q = factors.stream().mapToInt(Factor::size).sum();
        RealMatrix z = new Array2DRowRealMatrix(n, q);
        for (int i = 0; i < n; i++) {
            int at = 0;
            for (Factor factor : factors) {
                z.setEntry(i, at + factor.codes()[i], 1);
                at += factor.size();
            }
        }
        return z;
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 4, 5})
    void factorsSolvesAndInvertsLikeDenseAlgebra(int seed) {
        Random random = new Random(seed);
        int n = 60;
        Factor a = factor("a", n, 11, random);
        Factor b = factor("b", n, 4, random);
        List<Factor> factors = List.of(a, b, Crossing.of(List.of(a, b)));
        double[] y = random.doubles(n).toArray();
        CrossProducts data = new CrossProducts(y, factors);
        int q = data.columns();
        double[] scale = random.doubles(q, 0, 2).toArray();
        SparseCholesky cholesky = new SparseCholesky(q, data.columnStart, data.rows, data.counts);
        cholesky.factor(scale);

        RealMatrix z = dense(n, factors);
        RealMatrix s = MatrixUtils.createRealDiagonalMatrix(scale);
        RealMatrix zz = z.transposeMultiply(z);
        RealMatrix full = s.multiply(zz).multiply(s).add(MatrixUtils.createRealIdentityMatrix(q));
        LUDecomposition lu = new LUDecomposition(full);
        assertThat(cholesky.logDeterminant()).isCloseTo(Math.log(lu.getDeterminant()), within(1e-9));
        double[] rhs = random.doubles(q, -1, 1).toArray();
        assertThat(cholesky.solve(rhs))
                .containsExactly(lu.getSolver().solve(new ArrayRealVector(rhs)).toArray(), within(1e-10));
        RealMatrix inverse = lu.getSolver().getInverse();
        assertThat(cholesky.inverseDiagonal())
                .containsExactly(
                        IntStream.range(0, q)
                                .mapToDouble(i -> inverse.getEntry(i, i))
                                .toArray(),
                        within(1e-10));
        double[] half = cholesky.forward(rhs);
        double squared = new ArrayRealVector(half).dotProduct(new ArrayRealVector(half));
        assertThat(squared)
                .isCloseTo(
                        new ArrayRealVector(rhs).dotProduct(inverse.operate(new ArrayRealVector(rhs))), within(1e-10));
        assertThat(cholesky.entries()).isBetween(data.counts.length, q * (q + 1) / 2);

        for (int k = 0; k < 3; k++) {
            double[] v = new double[q];
            for (int i = data.start[k]; i < data.start[k + 1]; i++) {
                v[i] = random.nextDouble();
            }
            assertThat(data.timesBlock(k, v)).containsExactly(zz.operate(v), within(1e-10));
            assertThat(data.levels(k)).isEqualTo(factors.get(k).size());
        }
        double mean = java.util.Arrays.stream(y).average().orElseThrow();
        double[] centred = java.util.Arrays.stream(y).map(v -> v - mean).toArray();
        assertThat(data.zy).containsExactly(z.preMultiply(centred), within(1e-10));
        assertThat(data.yy)
                .isCloseTo(java.util.Arrays.stream(centred).map(v -> v * v).sum(), within(1e-10));
    }

    @Test
    void boundedStepsMeetTheOptimalityConditions() {
        Random random = new Random(7);
        for (int round = 0; round < 300; round++) {
            int n = 1 + random.nextInt(5);
            RealMatrix root = new Array2DRowRealMatrix(n, n);
            double[] g = new double[n];
            double[] lower = new double[n];
            for (int i = 0; i < n; i++) {
                g[i] = random.nextGaussian();
                lower[i] = random.nextInt(3) == 0 ? 0 : -random.nextDouble();
                for (int j = 0; j < n; j++) {
                    root.setEntry(i, j, random.nextGaussian());
                }
            }
            RealMatrix h = root.transposeMultiply(root).add(MatrixUtils.createRealIdentityMatrix(n));
            double[] d = BoundedStep.minimise(h.getData(), g, lower, 0);
            double[] slope = h.operate(new ArrayRealVector(d))
                    .add(new ArrayRealVector(g))
                    .toArray();
            for (int i = 0; i < n; i++) {
                assertThat(d[i]).isGreaterThanOrEqualTo(lower[i] - 1e-12);
                // Karush-Kuhn-Tucker: no slope inside, none downwards at the bound.
                if (d[i] > lower[i] + 1e-9) {
                    assertThat(slope[i]).isCloseTo(0, within(1e-7));
                } else {
                    assertThat(slope[i]).isGreaterThan(-1e-7);
                }
            }
        }
    }

    @Test
    void aRidgeShortensTheStep() {
        double[][] h = {{4}};
        assertThat(BoundedStep.minimise(h, new double[] {-8}, new double[] {-1}, 0))
                .containsExactly(new double[] {2}, within(1e-8));
        assertThat(BoundedStep.minimise(h, new double[] {-8}, new double[] {-1}, 1))
                .containsExactly(new double[] {1}, within(1e-8));
        assertThat(BoundedStep.minimise(h, new double[] {8}, new double[] {-0.5}, 0))
                .containsExactly(new double[] {-0.5}, within(1e-12));
    }
}
