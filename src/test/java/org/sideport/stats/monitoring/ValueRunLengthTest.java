package org.sideport.stats.monitoring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.EnumSet;
import java.util.Set;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** R numbers: package spc 0.6.7, script src/test/oracle/monitoring/normal-run-lengths.R. */
class ValueRunLengthTest {

    private static final Percentage SIX_DIGITS = Percentage.withPercentage(1e-4);

    @ParameterizedTest
    @CsvSource({
        // Montgomery, Introduction to Statistical Quality Control, and R spc
        "4, 0, 167.68, .005",
        "4, .25, 74.224, .0005",
        "4, .5, 26.630, .0005",
        "4, .75, 13.285, .0005",
        "4, 1, 8.3831, .00005",
        "4, 1.5, 4.7472, .00005",
        "4, 2, 3.3428, .00005",
        "4, 2.5, 2.6195, .00005",
        "4, 3, 2.1945, .00005",
        "4, 4, 1.7085, .00005",
        "5, 0, 465.44, .005",
        "5, .25, 139.494, .0005",
        "5, .5, 37.996, .0005",
        "5, .75, 17.048, .0005",
        "5, 1, 10.376, .0005",
        "5, 1.5, 5.7472, .00005",
        "5, 2, 4.0089, .00005",
        "5, 2.5, 3.1137, .00005",
        "5, 3, 2.5733, .00005",
        "5, 4, 2.0126, .00005"
    })
    void twoSidedCusum(double h, double shift, double arl, double rounding) {
        CusumDesign design = new CusumDesign(.5, h, 0);
        assertThat(ValueRunLength.of(design, shift).arl()).isCloseTo(arl, within(1.001 * rounding));
        assertThat(ValueRunLength.of(design, -shift).arl()).isCloseTo(arl, within(1.001 * rounding));
    }

    @Test
    void oneSideAndHeadStart() {
        CusumDesign plain = new CusumDesign(.5, 4, 0);
        CusumDesign head = new CusumDesign(.5, 4, 2);
        assertThat(ValueRunLength.oneSided(plain, 0, 0).arl()).isCloseTo(335.36758, SIX_DIGITS);
        assertThat(ValueRunLength.oneSided(plain, 1, 0).arl()).isCloseTo(8.3832021, SIX_DIGITS);
        assertThat(ValueRunLength.oneSided(plain, 0, 2).arl()).isCloseTo(316.37944, SIX_DIGITS);
        assertThat(ValueRunLength.oneSided(plain, 1, 2).arl()).isCloseTo(5.2910193, SIX_DIGITS);
        assertThat(ValueRunLength.of(head, 0).arl()).isCloseTo(148.69565, SIX_DIGITS);
        assertThat(ValueRunLength.of(head, 1).arl()).isCloseTo(5.2868862, SIX_DIGITS);
    }

    @Test
    void distributionOfOneSide() {
        RunLength still = ValueRunLength.oneSided(new CusumDesign(.5, 4, 0), 0, 0);
        assertThat(1 - still.signalWithin(10)).isCloseTo(.98249225, within(1e-7));
        assertThat(1 - still.signalWithin(50)).isCloseTo(.87073575, within(1e-7));
        assertThat(1 - still.signalWithin(100)).isCloseTo(.74853519, within(1e-7));
        assertThat(still.median()).isEqualTo(234);
        RunLength shifted = ValueRunLength.oneSided(new CusumDesign(.5, 4, 0), 1, 0);
        assertThat(1 - shifted.signalWithin(5)).isCloseTo(.69794074, within(1e-7));
        assertThat(1 - shifted.signalWithin(10)).isCloseTo(.24848395, within(1e-7));
        assertThat(1 - shifted.signalWithin(20)).isCloseTo(.024853822, within(1e-7));
        assertThat(still.method()).contains("48 Gauss");
    }

    @Test
    void twoSidesTakenAsIndependentComeNear() {
        // the survival of one side squared, from R: .87073575² at 50 cases
        ValueRunLength both = ValueRunLength.of(new CusumDesign(.5, 4, 0), 0);
        assertThat(both.distribution().signalWithin(50)).isCloseTo(1 - .87073575 * .87073575, within(1e-6));
        assertThat(both.distribution().arl()).isCloseTo(both.arl(), Percentage.withPercentage(3));
        assertThat(both.distribution().method()).contains("independent");
        assertThat(both.method()).contains("Kemp");
    }

    @ParameterizedTest
    @CsvSource({
        ".1, 2.7, true, 0, 368.99373", ".1, 2.7, true, .5, 28.190540", ".1, 2.7, true, 1, 9.7300116",
        ".1, 2.7, true, 2, 4.1785876", ".1, 2.7, false, 0, 356.09510", ".1, 2.7, false, .5, 25.327552",
        ".1, 2.7, false, 1, 7.5412764", ".1, 2.7, false, 2, 2.4954300", ".3, 3, true, 0, 465.55343",
        ".3, 3, true, .5, 53.160280", ".3, 3, true, 1, 11.698629", ".3, 3, false, 0, 462.57201",
        ".3, 3, false, .5, 52.195966", ".3, 3, false, 1, 11.089724"
    })
    void ewma(double lambda, double width, boolean steady, double shift, double arl) {
        EwmaDesign design = new EwmaDesign(lambda, width, steady);
        assertThat(ValueRunLength.of(design, shift).arl()).isCloseTo(arl, SIX_DIGITS);
        assertThat(ValueRunLength.of(design, -shift).arl()).isCloseTo(arl, SIX_DIGITS);
    }

    @Test
    void distributionOfTheEwma() {
        RunLength steady = ValueRunLength.of(new EwmaDesign(.3, 3, true), 0).distribution();
        assertThat(1 - steady.signalWithin(20)).isCloseTo(.96277145, within(1e-7));
        assertThat(1 - steady.signalWithin(100)).isCloseTo(.80987739, within(1e-7));
        RunLength exact = ValueRunLength.of(new EwmaDesign(.3, 3, false), 0).distribution();
        assertThat(1 - exact.signalWithin(20)).isCloseTo(.95657750, within(1e-7));
        assertThat(1 - exact.signalWithin(100)).isCloseTo(.80466707, within(1e-7));
        assertThat(exact.method()).contains("48 Gauss");
    }

    @Test
    void ewmaOfTheNewestCaseAloneIsAnIndividualsChart() {
        // 1/(2 Φ(−3)) = 370.3983, the textbook's 370.4
        assertThat(ValueRunLength.of(new EwmaDesign(1, 3, false), 0).arl()).isCloseTo(370.3983, within(5.1e-5));
        assertThat(ValueRunLength.individuals(Set.of(), 0).arl()).isCloseTo(370.3983, within(5.1e-5));
        // Montgomery: a shift of 1 SD is found after 43.89 cases on average, of 3 SD after 2.00
        assertThat(ValueRunLength.individuals(Set.of(), 1).arl()).isCloseTo(43.89, within(5.1e-3));
        assertThat(ValueRunLength.individuals(Set.of(), -1).arl()).isCloseTo(43.89, within(5.1e-3));
        assertThat(ValueRunLength.individuals(Set.of(), 3).arl()).isCloseTo(2.00, within(5.1e-3));
    }

    @Test
    void runRulesCostFalseSignals() {
        // Champ & Woodall 1987, Technometrics 29:393, table 1 (from memory), no shift: rule 1 370.40; 1 and 2 225.44; 1
        // and 3
        // 166.05; 1 and 4 152.73; all 91.75
        Set<RunRule> one = EnumSet.of(RunRule.BEYOND_3_SD);
        assertThat(ValueRunLength.individuals(one, 0).arl()).isCloseTo(370.40, within(5.1e-3));
        assertThat(ValueRunLength.individuals(EnumSet.of(RunRule.BEYOND_3_SD, RunRule.TWO_OF_THREE_BEYOND_2_SD), 0)
                        .arl())
                .isCloseTo(225.44, within(5.1e-3));
        assertThat(ValueRunLength.individuals(EnumSet.of(RunRule.BEYOND_3_SD, RunRule.FOUR_OF_FIVE_BEYOND_1_SD), 0)
                        .arl())
                .isCloseTo(166.05, within(5.1e-3));
        assertThat(ValueRunLength.individuals(EnumSet.of(RunRule.BEYOND_3_SD, RunRule.EIGHT_ON_ONE_SIDE), 0)
                        .arl())
                .isCloseTo(152.73, within(5.1e-3));
        assertThat(ValueRunLength.individuals(EnumSet.allOf(RunRule.class), 0).arl())
                .isCloseTo(91.75, within(5.1e-3));
    }

    @Test
    void limitsForAWishedRunLength() {
        assertThat(ValueRunLength.cusumLimit(.5, 500)).isCloseTo(5.0707039, within(1e-5));
        assertThat(ValueRunLength.ewmaWidth(.1, true, 500)).isCloseTo(2.8143100, within(1e-5));
        assertThatThrownBy(() -> ValueRunLength.cusumLimit(.5, 1.5)).hasMessageContaining("cannot be met");
        assertThatThrownBy(() -> ValueRunLength.cusumLimit(.5, 1e7)).hasMessageContaining("cannot be met");
    }
}
