package org.sideport.stats.agreement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

class IccTest {

    private static final double NA = Double.NaN;

    private static IccTable shroutFleiss(double level) {
        return Icc.ofComplete(RatingMatrix.of(OpenData.shroutFleiss()), level).orElseThrow();
    }

    /** Shrout & Fleiss 1979, tables 3 and 4. */
    @ParameterizedTest
    @CsvSource({"ICC_1_1, .17", "ICC_2_1, .29", "ICC_3_1, .71", "ICC_1_K, .44", "ICC_2_K, .62", "ICC_3_K, .91"})
    void thePublishedCoefficientsAreReproduced(IccForm form, double published) {
        assertThat(shroutFleiss(0.95).get(form).estimate().value()).isCloseTo(published, within(0.005));
    }

    /** Shrout & Fleiss 1979, table 3: 11.24, 6.26, 32.49, 1.02; further digits from the same table by R, oracle icc.R. */
    @Test
    void theMeanSquaresAndComponentsAreThoseOfThePaper() {
        IccTable icc = shroutFleiss(0.95);
        TwoWayMeanSquares ms = icc.meanSquares();
        assertThat(ms.betweenSubjects()).isCloseTo(11.24167, within(5e-6));
        assertThat(ms.withinSubjects()).isCloseTo(6.26389, within(5e-6));
        assertThat(ms.betweenRaters()).isCloseTo(32.48611, within(5e-6));
        assertThat(ms.error()).isCloseTo(1.01944, within(5e-6));
        assertThat(ms.subjects()).isEqualTo(6);
        assertThat(ms.raters()).isEqualTo(4);
        // (11.241667 - 1.019444) / 4, (32.486111 - 1.019444) / 6, (11.241667 - 6.263889) / 4
        assertThat(icc.components().subject()).isCloseTo(2.555556, within(5e-7));
        assertThat(icc.components().rater()).isCloseTo(5.244444, within(5e-7));
        assertThat(icc.components().residual()).isCloseTo(1.019444, within(5e-7));
        assertThat(icc.components().ratersPerSubject()).isEqualTo(4);
        assertThat(ms.oneWaySubject()).isCloseTo(1.244444, within(5e-7));
        // 2.555556 of 8.819444
        assertThat(icc.components().share(icc.components().subject())).isCloseTo(0.2897638, within(1e-6));
    }

    /** R 4.2.2, psych 2.2.9, src/test/oracle/agreement/icc.R. */
    @ParameterizedTest
    @CsvSource({
        "ICC_1_1, .95, .1657417684, 1.794678492, 5, 18, .1647688083446, -.13293232487, .7225600623",
        "ICC_2_1, .95, .2897637795, 11.027247956, 5, 15, .0001345665165, .01878651337, .7610843696",
        "ICC_3_1, .95, .7148407148, 11.027247956, 5, 15, .0001345665165, .34246476503, .9458582600",
        "ICC_1_K, .95, .4427971337, 1.794678492, 5, 18, .1647688083446, -.88444215524, .9124154203",
        "ICC_2_K, .95, .6200505476, 11.027247956, 5, 15, .0001345665165, .07113681530, .9272320402",
        "ICC_3_K, .95, .9093155424, 11.027247956, 5, 15, .0001345665165, .67567471382, .9858916782",
        "ICC_1_1, .90, .1657417684, 1.794678492, 5, 18, .1647688083446, -.09672220366, .6433983107",
        "ICC_2_1, .90, .2897637795, 11.027247956, 5, 15, .0001345665165, .04290119154, .6910706066",
        "ICC_3_1, .90, .7148407148, 11.027247956, 5, 15, .0001345665165, .41183413092, .9258328077",
        "ICC_2_K, .90, .6200505476, 11.027247956, 5, 15, .0001345665165, .15203705386, .8994767001",
    })
    void estimatesTestsAndLimitsAreThoseOfR(
            IccForm form,
            double level,
            double value,
            double f,
            double df1,
            double df2,
            double p,
            double lo,
            double up) {
        check(shroutFleiss(level).get(form), level, value, f, df1, df2, p, lo, up);
    }

    /** Data set attitude; R as above. */
    @ParameterizedTest
    @CsvSource({
        "ICC_1_1, .1885617371, 2.626657529, 29, 180, 5.522958610e-05, .07695085466, .3570300961",
        "ICC_2_1, .2403398883, 6.375224127, 29, 174, 1.286216337e-15, .09674869564, .4306833346",
        "ICC_3_1, .4343536789, 6.375224127, 29, 174, 1.286216337e-15, .28839663464, .6083409409",
        "ICC_1_K, .6192880157, 2.626657529, 29, 180, 5.522958610e-05, .36851207012, .7953746170",
        "ICC_2_K, .6889238832, 6.375224127, 29, 174, 1.286216337e-15, .42849998290, .8411549164",
        "ICC_3_K, .8431427696, 6.375224127, 29, 174, 1.286216337e-15, .73937568564, .9157730722",
    })
    void aLargerTableGivesTheFiguresOfR(
            IccForm form, double value, double f, double df1, double df2, double p, double lower, double upper) {
        IccTable icc =
                Icc.ofComplete(RatingMatrix.of(OpenData.attitude()), 0.95).orElseThrow();
        check(icc.get(form), 0.95, value, f, df1, df2, p, lower, upper);
        assertThat(icc.warnings()).isEmpty();
    }

    private static void check(
            IccEstimate found,
            double level,
            double value,
            double f,
            double df1,
            double df2,
            double p,
            double lo,
            double up) {
        assertThat(found.estimate().value()).isCloseTo(value, within(6e-11));
        assertThat(found.test().f()).isCloseTo(f, within(6e-9));
        assertThat(found.test().df1()).isEqualTo(df1);
        assertThat(found.test().df2()).isEqualTo(df2);
        // R's one minus the lower tail holds the small p to about 1e-16 absolutely
        assertThat(found.test().p()).isCloseTo(p, within(Math.max(1e-9 * p, 2e-16)));
        Interval limits = found.estimate().limits();
        assertThat(limits.lower()).isCloseTo(lo, within(6e-10));
        assertThat(limits.upper()).isCloseTo(up, within(6e-10));
        assertThat(limits.level()).isEqualTo(level);
    }

    @Test
    void aGapIsRefusedWithTheNumberOfMissingCells() {
        double[][] scores = OpenData.shroutFleiss();
        scores[1][2] = NA;
        scores[4][0] = NA;
        scores[4][1] = NA;
        Outcome<IccTable> outcome = Icc.ofComplete(RatingMatrix.of(scores), 0.95);
        Refusal refusal = ((Outcome.Refused<IccTable>) outcome).refusal();
        assertThat(refusal.reason()).isEqualTo(Refusal.Reason.UNSUITABLE_DATA);
        assertThat(refusal.why()).contains("3 of 24 scores are missing");
        assertThat(refusal.remedy()).contains("4 complete subjects");
    }

    @Test
    void completeSubjectsOnlyIsTheTableWithoutTheOthersAndSaysSo() {
        double[][] more = new double[8][];
        System.arraycopy(OpenData.shroutFleiss(), 0, more, 1, 6);
        more[0] = new double[] {1, 1, 9, NA};
        more[7] = new double[] {NA, NA, NA, 4};
        IccTable icc = Icc.ofCompleteSubjectsOnly(RatingMatrix.of(more), 0.95).orElseThrow();
        assertThat(icc.get(IccForm.ICC_2_1).estimate().value()).isCloseTo(.2897637795, within(6e-11));
        assertThat(icc.get(IccForm.ICC_2_1).estimate().n()).isEqualTo(6);
        assertThat(icc.warnings()).anyMatch(w -> w.startsWith("2 of 8 subjects were left out"));
        IccTable full = Icc.ofCompleteSubjectsOnly(RatingMatrix.of(OpenData.attitude()), 0.95)
                .orElseThrow();
        assertThat(full.warnings()).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({"1, 3", "3, 1"})
    void oneSubjectOrOneRaterIsTooFew(int subjects, int raters) {
        double[][] scores = new double[subjects][raters];
        for (int i = 0; i < subjects; i++) {
            for (int j = 0; j < raters; j++) {
                scores[i][j] = i + 2 * j;
            }
        }
        Outcome<IccTable> outcome = Icc.ofComplete(RatingMatrix.of(scores), 0.95);
        assertThat(((Outcome.Refused<IccTable>) outcome).refusal().reason()).isEqualTo(Refusal.Reason.TOO_FEW);
    }

    @Test
    void subjectsThatDoNotDifferAreRefused() {
        Outcome<IccTable> outcome = Icc.ofComplete(RatingMatrix.of(new double[][] {{5, 4}, {4, 5}, {4.5, 4.5}}), 0.95);
        assertThat(((Outcome.Refused<IccTable>) outcome).refusal().reason()).isEqualTo(Refusal.Reason.NO_VARIATION);
    }

    /** Two raters a constant apart: consistency 1; absolute by hand BMS 2, EMS 0, JMS 13.5: 2 / (2 + 2 × 13.5 / 3) = 2 / 11. */
    @Test
    void ratersAConstantApartAreConsistentButDoNotAgree() {
        IccTable icc = Icc.ofComplete(RatingMatrix.of(new double[][] {{1, 4}, {2, 5}, {3, 6}}), 0.95)
                .orElseThrow();
        assertThat(icc.get(IccForm.ICC_3_1).estimate().value()).isEqualTo(1);
        assertThat(icc.get(IccForm.ICC_3_1).estimate().limits()).isNull();
        assertThat(icc.get(IccForm.ICC_3_1).test()).isNull();
        assertThat(icc.get(IccForm.ICC_3_1).estimate().warnings()).hasSize(1);
        assertThat(icc.get(IccForm.ICC_2_1).estimate().value()).isCloseTo(2.0 / 11, within(1e-14));
        assertThat(icc.get(IccForm.ICC_2_1).estimate().limits()).isNull();
        // one-way by hand: WMS = 3 × 4.5 / 3 = 4.5: (2 − 4.5) / (2 + 4.5)
        assertThat(icc.get(IccForm.ICC_1_1).estimate().value()).isCloseTo(-2.5 / 6.5, within(1e-14));
        assertThat(icc.get(IccForm.ICC_1_1).estimate().limits()).isNotNull();
    }

    /** By hand, see below. */
    @Test
    void aNegativeComponentIsReportedAsItIs() {
        // subject means 2.5, 3, 2.5: BMS = 2 × (1/36 + 1/9 + 1/36) / 2 = 1/6
        // rater means 8/3 both: JMS = 0; total squares about 8/3: 25/9+16/9+1/9+1/9+16/9+25/9 = 84/9; EMS = (84/9 −
        // 1/3) / 2 = 4.5
        IccTable icc = Icc.ofComplete(RatingMatrix.of(new double[][] {{1, 4}, {3, 3}, {4, 1}}), 0.95)
                .orElseThrow();
        assertThat(icc.components().subject()).isCloseTo((1.0 / 6 - 4.5) / 2, within(1e-12));
        assertThat(icc.components().rater()).isCloseTo(-1.5, within(1e-12));
        assertThat(icc.components().residual()).isCloseTo(4.5, within(1e-12));
        assertThat(icc.components().share(icc.components().rater())).isZero();
        assertThat(icc.components().share(icc.components().residual())).isEqualTo(1);
        assertThat(icc.warnings()).hasSize(4);
        // BMS + (JMS − EMS) / n = 1/6 − 1.5
        assertThat(icc.find(IccForm.ICC_2_K)).isEmpty();
        assertThat(icc.estimates()).hasSize(5);
        // (1/6 − 4.5) / (1/6 + 4.5 + 2 × (0 − 4.5) / 3)
        assertThat(icc.get(IccForm.ICC_2_1).estimate().value()).isCloseTo(-13.0 / 5, within(1e-12));
        // (1/6 − 4.5) / (1/6 + 4.5)
        assertThat(icc.get(IccForm.ICC_3_1).estimate().value()).isCloseTo(-26.0 / 28, within(1e-12));
        assertThat(icc.get(IccForm.ICC_3_K).estimate().value()).isCloseTo(-26, within(1e-9));
    }

    /** McGraw & Wong 1996, table 4: the same coefficients from the components, by the values above. */
    @Test
    void theComponentsGiveTheSameCoefficients() {
        Map<IccForm, Double> two = IccFromComponents.twoWay(
                        new TwoWayComponents(2.5555555556, 5.2444444444, 1.0194444444, 4))
                .orElseThrow();
        assertThat(two.get(IccForm.ICC_2_1)).isCloseTo(.2897637795, within(1e-9));
        assertThat(two.get(IccForm.ICC_3_1)).isCloseTo(.7148407148, within(1e-9));
        assertThat(two.get(IccForm.ICC_2_K)).isCloseTo(.6200505476, within(1e-9));
        assertThat(two.get(IccForm.ICC_3_K)).isCloseTo(.9093155424, within(1e-9));
        Map<IccForm, Double> one =
                IccFromComponents.oneWay(1.2444444444, 6.2638888889, 4).orElseThrow();
        assertThat(one.get(IccForm.ICC_1_1)).isCloseTo(.1657417684, within(1e-9));
        assertThat(one.get(IccForm.ICC_1_K)).isCloseTo(.4427971337, within(1e-9));
    }

    @Test
    void noVarianceGivesNoCoefficient() {
        assertThat(IccFromComponents.twoWay(new TwoWayComponents(0, 0, 0, 2))).isInstanceOf(Outcome.Refused.class);
        assertThat(IccFromComponents.twoWay(new TwoWayComponents(-2, 0, 1, 2))).isInstanceOf(Outcome.Refused.class);
        assertThat(new TwoWayComponents(0, 0, 0, 2).share(0)).isZero();
    }

    @Test
    void tenThousandSubjectsOfAKnownTruth() {
        SplittableRandom random = new SplittableRandom(3);
        double[][] scores = new double[10_000][5];
        for (double[] row : scores) {
            double subject = random.nextDouble();
            for (int j = 0; j < 5; j++) {
                row[j] = subject + random.nextDouble();
            }
        }
        // equal variances of subject and error, no rater effect: 1/2
        IccTable icc = Icc.ofComplete(RatingMatrix.of(scores), 0.95).orElseThrow();
        assertThat(icc.get(IccForm.ICC_2_1).estimate().value()).isCloseTo(0.5, within(0.02));
        assertThat(icc.get(IccForm.ICC_2_1).estimate().limits().contains(0.5)).isTrue();
    }
}
