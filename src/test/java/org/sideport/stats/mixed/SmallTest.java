package org.sideport.stats.mixed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

/** By hand, and against Hipparchus where it has the same. */
class SmallTest {

    @Test
    void theCholeskyFactorOfAnIntegerMatrixIsKnown() {
        // L = (2 0 0; 6 1 0; -8 5 3), a customary textbook example; det = (2·1·3)² = 36
        double[][] a = {{4, 12, -16}, {12, 37, -43}, {-16, -43, 98}};
        assertThat(Small.cholesky(a)).isCloseTo(Math.log(36), within(1e-12));
        assertThat(a[0][0]).isEqualTo(2);
        assertThat(a[1][0]).isEqualTo(6);
        assertThat(a[1][1]).isEqualTo(1);
        assertThat(a[2]).containsExactly(-8, 5, 3);
        double[] b = {2, 7, 0};
        Small.forward(a, b);
        assertThat(b).containsExactly(1, 1, 1);
        // inverse of a, times 36
        double[][] inverse = Small.inverseFromCholesky(a);
        assertThat(inverse[0][0] * 36).isCloseTo(37 * 98 - 43 * 43, within(1e-9));
        assertThat(inverse[1][0] * 36).isCloseTo(-(12 * 98 - 43 * 16), within(1e-9));
        assertThat(inverse[2][2] * 36).isCloseTo(4 * 37 - 144, within(1e-9));
        assertThat(Small.cholesky(new double[][] {{1, 2}, {2, 1}})).isNaN();
        assertThat(Small.cholesky(new double[][] {{0}})).isNaN();
    }

    @Test
    void aSemidefiniteMatrixHasAFactorWithZeros() {
        double[][] l = FactorSearch.semidefiniteCholesky(new double[][] {{4, 2}, {2, 1}});
        assertThat(l[0]).containsExactly(2, 0);
        assertThat(l[1]).containsExactly(1, 0);
        double[][] m = FactorSearch.semidefiniteCholesky(new double[][] {{0, 0}, {0, 9}});
        assertThat(m[0]).containsExactly(0, 0);
        assertThat(m[1]).containsExactly(0, 3);
        double[][] full =
                FactorSearch.semidefiniteCholesky(new double[][] {{4, 12, -16}, {12, 37, -43}, {-16, -43, 98}});
        assertThat(full[2]).containsExactly(-8, 5, 3);
    }

    @Test
    void orthonormalColumnsGiveTheColumnsBack() {
        List<Column> columns =
                List.of(Column.intercept(4), new Column("a", new double[] {1, 2, 3, 4}), new Column("b", new double[] {
                    1, 0, 5, 2
                }));
        OrthonormalColumns qr = OrthonormalColumns.of(columns);
        for (int j = 0; j < 3; j++) {
            for (int k = 0; k < 3; k++) {
                assertThat(OrthonormalColumns.dot(qr.q()[j], qr.q()[k])).isCloseTo(j == k ? 1 : 0, within(1e-14));
            }
            for (int i = 0; i < 4; i++) {
                double sum = 0;
                for (int k = 0; k <= j; k++) {
                    sum += qr.q()[k][i] * qr.r()[k][j];
                }
                assertThat(sum).isCloseTo(columns.get(j).values()[i], within(1e-13));
            }
        }
        assertThat(qr.r()[0][0]).isEqualTo(2);
        assertThat(qr.r()[0][1]).isEqualTo(5);
        assertThat(qr.r()[1][0]).isZero();
        assertThat(OrthonormalColumns.dependence(columns)).isNull();
        double[][] inverse = Small.inverseUpper(qr.r());
        double[][] one = Small.multiply(qr.r(), inverse);
        for (int i = 0; i < 3; i++) {
            for (int j = 0; j < 3; j++) {
                assertThat(one[i][j]).isCloseTo(i == j ? 1 : 0, within(1e-14));
            }
        }
    }
}
