package org.sideport.stats.gtheory;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.stats.Outcome;
import org.sideport.stats.data.Factor;
import org.sideport.stats.data.LongData;

class AchievedPrecisionTest {

    private static final Design PCR = Design.crossed("person", "case", "rater");
    private static final Design CASE_IN_PERSON =
            Design.crossed("person", "case", "rater").nest("case", Set.of("person"));

    private static GStudy published(double p, double c, double r, double pc, double pr, double cr, double rest) {
        return GStudy.published(
                PCR,
                Map.of(
                        Set.of("person"), p,
                        Set.of("case"), c,
                        Set.of("rater"), r,
                        Set.of("person", "case"), pc,
                        Set.of("person", "rater"), pr,
                        Set.of("case", "rater"), cr,
                        Set.of("person", "case", "rater"), rest),
                null);
    }

    private static LongData weights(List<String> cases, List<String> raters, double... weights) {
        return new LongData(List.of(Factor.of("case", cases), Factor.of("rater", raters)), weights);
    }

    private static LongData balanced(int cases, int raters) {
        List<String> c = new ArrayList<>();
        List<String> r = new ArrayList<>();
        double[] weights = new double[cases * raters];
        for (int i = 0; i < weights.length; i++) {
            c.add("c" + i / raters);
            r.add("r" + i % raters);
            weights[i] = 1;
        }
        return weights(c, r, weights);
    }

    /** BMJ Open Respiratory Research, published components, per cent; the table worked out outside this program. */
    @ParameterizedTest
    @CsvSource({
        "1, 1, .7996, .7700",
        "1, 2, .8745, .8541",
        "2, 1, .8770, .8438",
        "2, 2, .9266, .9064",
        "2, 3, .9444, .9294",
        "3, 1, .9062, .8717",
        "3, 3, .9592, .9447"
    })
    void balancedMarksReachTheCoefficientsOfThePublishedTable(int cases, int raters, double g, double phi) {
        DStudy.Coefficients c = AchievedPrecision.of(
                        published(77.0, 0.5, 3.2, 2.8, 2.3, 0.0, 14.2), balanced(cases, raters))
                .orElseThrow();
        assertThat(c.g()).isCloseTo(g, within(5e-5));
        assertThat(c.phi()).isCloseTo(phi, within(5e-5));
    }

    /**
     * By hand: three marks, c1 by r1 and r2, c2 by r1, cases of equal weight (¼ ¼ ½). Σ of squared weights by case ½, by
     * rater (¾)² + (¼)² = .625, by mark ¼·¼ + ¼·¼ + ½·½ = .375. Components 10, 1, 2, 3, 4, 5, 6: relative 3·.5 + 4·.625 +
     * 6·.375 = 6.25; absolute that + 1·.5 + 2·.625 + 5·.375 = 9.875.
     */
    @Test
    void unevenMarksByHand() {
        LongData marks = weights(List.of("c1", "c1", "c2"), List.of("r1", "r2", "r1"), 0.5, 0.5, 1);
        DStudy.Coefficients c =
                AchievedPrecision.of(published(10, 1, 2, 3, 4, 5, 6), marks).orElseThrow();
        assertThat(c.relativeError()).isCloseTo(6.25, within(1e-12));
        assertThat(c.absoluteError()).isCloseTo(9.875, within(1e-12));
        assertThat(c.phi()).isCloseTo(10 / 19.875, within(1e-12));
        assertThat(c.semAbsolute()).isCloseTo(Math.sqrt(9.875), within(1e-12));
    }

    /** With balanced marks it is the decision study, with cases nested in persons too. */
    @Property(tries = 60)
    void balancedIsTheDecisionStudy(
            @ForAll @IntRange(min = 1, max = 6) int cases,
            @ForAll @IntRange(min = 1, max = 4) int raters,
            @ForAll @DoubleRange(min = 0.1, max = 9) double person,
            @ForAll @DoubleRange(min = 0, max = 9) double other) {
        GStudy study = GStudy.published(
                CASE_IN_PERSON,
                Map.of(
                        Set.of("person"),
                        person,
                        Set.of("rater"),
                        other,
                        Set.of("person", "case"),
                        2.0,
                        Set.of("person", "rater"),
                        0.5 * other,
                        Set.of("person", "case", "rater"),
                        1.5),
                null);
        DStudy.Coefficients expected = new DStudy(CASE_IN_PERSON, Map.of("case", cases, "rater", raters), Set.of())
                .coefficients(study)
                .orElseThrow();
        DStudy.Coefficients found =
                AchievedPrecision.of(study, balanced(cases, raters)).orElseThrow();
        assertThat(found.phi()).isCloseTo(expected.phi(), within(1e-12));
        assertThat(found.g()).isCloseTo(expected.g(), within(1e-12));
        assertThat(found.semRelative()).isCloseTo(expected.semRelative(), within(1e-12));
    }

    @Test
    void nothingIsRefusedAndAMissingFacetIsAFault() {
        GStudy study = published(10, 1, 2, 3, 4, 5, 6);
        assertThat(AchievedPrecision.of(study, weights(List.of(), List.of()))).isInstanceOf(Outcome.Refused.class);
        assertThat(AchievedPrecision.of(published(0, 1, 2, 3, 4, 5, 6), balanced(2, 2)))
                .isInstanceOf(Outcome.Refused.class);
        LongData noRater = new LongData(List.of(Factor.of("case", List.of("c1"))), new double[] {1});
        assertThatIllegalArgumentException().isThrownBy(() -> AchievedPrecision.of(study, noRater));
    }
}
