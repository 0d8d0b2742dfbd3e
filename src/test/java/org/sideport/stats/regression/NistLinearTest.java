package org.sideport.stats.regression;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * All linear sets of NIST's Statistical Reference Datasets with their certified values (15 digits). The digits asked for
 * are those that are left when the decimal data are rounded to binary numbers; integers lose none.
 */
class NistLinearTest {

    /** Digits that the worst coefficient, standard deviation and the residual standard deviation must reach. */
    @ParameterizedTest(name = "{0}")
    @CsvSource({
        "Norris, 13, 13.5, 13.5",
        "Pontius, 12.5, 13, 13",
        "NoInt1, 14.5, 14.5, 14.5",
        "NoInt2, 14.5, 14.5, 14.5",
        "Filip, 7, 7, 7",
        "Longley, 13, 13, 13",
        "Wampler1, 15, 15, 15",
        "Wampler2, 13, 13, 13",
        "Wampler3, 15, 14, 14",
        "Wampler4, 15, 14, 14",
        "Wampler5, 14, 14, 14"
    })
    void certifiedValuesAreReached(String name, double digits, double digitsSd, double digitsResidual)
            throws IOException {
        NistSet set = NistSet.read(name);
        LinearFit fit = LinearLeastSquares.fit(design(set), set.y(), 0.95).orElseThrow();
        double worst = 15;
        double worstSd = 15;
        for (int j = 0; j < set.certified().length; j++) {
            Coefficient found = fit.coefficients().get(j);
            worst = Math.min(worst, NistSet.lre(found.value(), set.certified()[j], 15));
            worstSd = Math.min(worstSd, NistSet.lre(found.se(), set.deviations()[j], 15));
        }
        double residual = NistSet.lre(fit.residualSd(), set.residualSd(), 15);
        System.out.printf(
                Locale.ROOT,
                "NIST StRD linear %-9s correct digits: coefficients %.1f, standard deviations %.1f, residual SD %.1f%n",
                name,
                worst,
                worstSd,
                residual);
        assertThat(worst).isGreaterThanOrEqualTo(digits);
        assertThat(worstSd).isGreaterThanOrEqualTo(digitsSd);
        assertThat(residual).isGreaterThanOrEqualTo(digitsResidual);
        assertThat(NistSet.lre(fit.sumOfSquares(), set.sumOfSquares(), 15))
                .isGreaterThanOrEqualTo(digitsResidual - 0.5);
    }

    static DesignMatrix design(NistSet set) {
        int p = set.names().size();
        if (set.x().length > 1) {
            return DesignMatrix.of(List.of("x1", "x2", "x3", "x4", "x5", "x6"), set.x(), true);
        }
        return p == 1 ? DesignMatrix.of(List.of("x"), set.x(), false) : DesignMatrix.polynomial(set.x()[0], p - 1);
    }
}
