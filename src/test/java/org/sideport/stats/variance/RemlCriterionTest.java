package org.sideport.stats.variance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.stats.data.Factor;
import org.sideport.stats.data.LongData;

/** Against the definitions written out with dense matrices: V, P = V⁻¹ − V⁻¹1 (1'V⁻¹1)⁻¹ 1'V⁻¹. */
class RemlCriterionTest {

    @ParameterizedTest
    @CsvSource({
        "pcr-missing, subject+case+rater+subject:case+subject:rater+case:rater",
        "c-in-p-by-r, subject+rater+case+subject:rater"
    })
    void agreesWithTheDefinitions(String name, String terms) {
        LongData data = Table.data(name);
        List<Factor> factors = Table.model(data, terms);
        double[] gamma = {1.3, 0.4, 0.7, 0.2, 0.05, 2.5};
        gamma = Arrays.copyOf(gamma, factors.size());
        int n = data.size();
        List<RealMatrix> parts = new ArrayList<>();
        RealMatrix v = MatrixUtils.createRealIdentityMatrix(n);
        for (int k = 0; k < factors.size(); k++) {
            RealMatrix part = new Array2DRowRealMatrix(n, n);
            for (int i = 0; i < n; i++) {
                for (int j = 0; j < n; j++) {
                    part.setEntry(
                            i, j, factors.get(k).codes()[i] == factors.get(k).codes()[j] ? 1 : 0);
                }
            }
            parts.add(part);
            v = v.add(part.scalarMultiply(gamma[k]));
        }
        LUDecomposition lu = new LUDecomposition(v);
        RealMatrix inverse = lu.getSolver().getInverse();
        RealVector ones = new ArrayRealVector(n, 1);
        RealVector y = new ArrayRealVector(data.values());
        double oneOne = ones.dotProduct(inverse.operate(ones));
        RealVector v1 = inverse.operate(ones);
        RealMatrix p = inverse.subtract(v1.outerProduct(v1).scalarMultiply(1 / oneOne));
        double rss = y.dotProduct(p.operate(y));
        double sigma2 = rss / (n - 1);
        double logDet = 0;
        for (int i = 0; i < n; i++) {
            logDet += Math.log(Math.abs(lu.getU().getEntry(i, i)));
        }
        double deviance = logDet + Math.log(oneOne) + (n - 1) * (1 + Math.log(2 * Math.PI * sigma2));

        RemlCriterion criterion = new RemlCriterion(new CrossProducts(data.values(), factors));
        assertThat(criterion.at(gamma)).isCloseTo(deviance, within(1e-8));
        assertThat(criterion.residualVariance()).isCloseTo(sigma2, within(1e-10));
        assertThat(criterion.mean()).isCloseTo(v1.dotProduct(y) / oneOne, within(1e-10));
        assertThat(criterion.meanVariance()).isCloseTo(sigma2 / oneOne, within(1e-10));

        RemlCriterion.Derivatives d = criterion.derivatives(true);
        RealVector py = p.operate(y);
        double[] quadratic = new double[factors.size()];
        for (int k = 0; k < factors.size(); k++) {
            quadratic[k] = py.dotProduct(parts.get(k).operate(py));
            double trace = p.multiply(parts.get(k)).getTrace();
            assertThat(d.trace()[k]).isCloseTo(trace, within(1e-8));
            assertThat(d.quadratic()[k]).isCloseTo(quadratic[k], within(1e-8));
            assertThat(d.gradient()[k]).isCloseTo(trace - quadratic[k] / sigma2, within(1e-8));
        }
        assertThat(d.rss()).isCloseTo(rss, within(1e-9));
        for (int k = 0; k < factors.size(); k++) {
            for (int m = 0; m < factors.size(); m++) {
                double average = parts.get(k)
                                        .operate(py)
                                        .dotProduct(p.operate(parts.get(m).operate(py)))
                                / sigma2
                        - quadratic[k] * quadratic[m] / (sigma2 * sigma2) / (n - 1);
                assertThat(d.information()[k][m]).isCloseTo(average, within(1e-8));
            }
        }
    }

    /** MINQUE(0): the Gram matrix and the quadratic forms of the centred values, written out. */
    @ParameterizedTest
    @CsvSource({"pr-missing, subject+rater", "c-in-p-by-r, subject+rater+case+subject:rater"})
    void minqueSolvesItsEquations(String name, String terms) {
        LongData data = Table.data(name);
        List<Factor> factors = Table.model(data, terms);
        int n = data.size();
        RealMatrix centre = MatrixUtils.createRealIdentityMatrix(n)
                .subtract(new ArrayRealVector(n, 1)
                        .outerProduct(new ArrayRealVector(n, 1))
                        .scalarMultiply(1.0 / n));
        List<RealMatrix> parts = new ArrayList<>();
        for (Factor factor : factors) {
            RealMatrix part = new Array2DRowRealMatrix(n, n);
            for (int i = 0; i < n; i++) {
                for (int j = 0; j < n; j++) {
                    part.setEntry(i, j, factor.codes()[i] == factor.codes()[j] ? 1 : 0);
                }
            }
            parts.add(centre.multiply(part).multiply(centre));
        }
        parts.add(centre);
        RealVector y = new ArrayRealVector(data.values());
        Identifiability identifiability = new Identifiability(new CrossProducts(data.values(), factors));
        assertThat(identifiability.confounded()).isNull();
        double[] estimate = identifiability.minque();
        for (RealMatrix row : parts) {
            double left = 0;
            for (int m = 0; m < parts.size(); m++) {
                left += row.multiply(parts.get(m)).getTrace() * estimate[m];
            }
            assertThat(left).isCloseTo(y.dotProduct(row.operate(y)), within(1e-7));
        }
    }
}
