package org.sideport.stats.gtheory;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.Set;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.stats.Refusal;

class DStudyTest {

    private static final Design PCR = Design.crossed("person", "case", "rater");

    /** BMJ Open Respiratory Research, G-study of procedures, full table of components, per cent. */
    private static final GStudy PUBLISHED = crossed(77.0, 0.5, 3.2, 2.8, 2.3, 0.0, 14.2);

    private static GStudy crossed(double p, double c, double r, double pc, double pr, double cr, double rest) {
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

    private static DStudy.Coefficients coefficients(
            GStudy study, Design design, int cases, int raters, String... fixed) {
        return new DStudy(design, Map.of("case", cases, "rater", raters), Set.of(fixed))
                .coefficients(study)
                .orElseThrow();
    }

    /** By the formulae written out, from the components above, outside this program. */
    @ParameterizedTest
    @CsvSource({
        "1, 1, .7996, .7700", "1, 2, .8745, .8541", "1, 3, .9027, .8864",
        "2, 1, .8770, .8438", "2, 2, .9266, .9064", "2, 3, .9444, .9294",
        "3, 1, .9062, .8717", "3, 2, .9454, .9253", "3, 3, .9592, .9447"
    })
    void reproducesTheTableOfThePublishedComponents(int cases, int raters, double g, double phi) {
        DStudy.Coefficients c = coefficients(PUBLISHED, PCR, cases, raters);
        assertThat(c.g()).isCloseTo(g, within(5e-5));
        assertThat(c.phi()).isCloseTo(phi, within(5e-5));
    }

    /** Andersen 2021, Academic Medicine: person variance 44.2 %, all other variance taken as averaged down by cases. */
    @ParameterizedTest
    @CsvSource({"1, .442", "2, .613", "3, .704", "4, .760", "5, .798", "6, .826", "8, .864"})
    void reproducesTheRowOfTheMetaAnalysis(int n, double coefficient) {
        Design nested = Design.crossed("person", "case").nest("case", Set.of("person"));
        GStudy study = GStudy.published(nested, Map.of(Set.of("person"), 44.2, Set.of("person", "case"), 55.8), null);
        DStudy.Coefficients c = new DStudy(nested, Map.of("case", n), Set.of())
                .coefficients(study)
                .orElseThrow();
        assertThat(c.g()).isCloseTo(coefficient, within(5e-4));
        assertThat(c.phi()).isEqualTo(c.g());
    }

    /**
     * BMC Medical Education 14:54, table 5, published .75 and .76: stations 12 and 9, items 28 and 19.5 in all; and BMC
     * Medical Education 19, s12909-019-1594-y, published .80. The second has 19.5 items on average: twice 39 halves it.
     */
    @Test
    void reproducesPublishedExaminations() {
        Design nested = Design.crossed("person", "station", "item")
                .nest("station", Set.of("person"))
                .nest("item", Set.of("person"));
        assertThat(osce(nested, .13, .30, .52, 12, 28)).isCloseTo(.7490, within(5e-5));
        assertThat(osce(nested, .21, .38, .48 * 2, 9, 39)).isCloseTo(.7586, within(5e-5));
        assertThat(osce(nested, .12, 0, .24, 4, 8)).isCloseTo(.80, within(1e-12));
    }

    private static double osce(Design design, double person, double station, double item, int stations, int items) {
        GStudy study = GStudy.published(
                design,
                Map.of(Set.of("person"), person, Set.of("person", "station"), station, Set.of("person", "item"), item),
                null);
        return new DStudy(design, Map.of("station", stations, "item", items), Set.of())
                .coefficients(study)
                .orElseThrow()
                .g();
    }

    /** Brennan 2001, chapter 4: an effect is divided by all levels that enter the mean; here by hand. */
    @Test
    void otherRatersForEachCaseAverageMore() {
        GStudy study = crossed(10, 2, 3, 4, 5, 6, 7);
        DStudy.Coefficients crossed = coefficients(study, PCR, 3, 2);
        assertThat(crossed.relativeError()).isCloseTo(4 / 3.0 + 5 / 2.0 + 7 / 6.0, within(1e-12));
        assertThat(crossed.absoluteError() - crossed.relativeError())
                .isCloseTo(2 / 3.0 + 3 / 2.0 + 6 / 6.0, within(1e-12));
        assertThat(crossed.semRelative()).isCloseTo(Math.sqrt(5), within(1e-12));
        assertThat(crossed.semAbsolute()).isCloseTo(Math.sqrt(5 + 19.0 / 6), within(1e-12));
        assertThat(crossed.universe()).isEqualTo(10);

        // r:c — rater and person × rater are spread over 6 different raters.
        DStudy.Coefficients within = coefficients(study, PCR.nest("rater", Set.of("case")), 3, 2);
        assertThat(within.relativeError()).isCloseTo(4 / 3.0 + 5 / 6.0 + 7 / 6.0, within(1e-12));
        assertThat(within.absoluteError())
                .isCloseTo(within.relativeError() + 2 / 3.0 + 3 / 6.0 + 6 / 6.0, within(1e-12));

        // c:p — other cases for each person: case difficulty becomes relative error.
        DStudy.Coefficients own = coefficients(study, PCR.nest("case", Set.of("person")), 3, 2);
        assertThat(own.relativeError()).isCloseTo((2 + 4) / 3.0 + 5 / 2.0 + (6 + 7) / 6.0, within(1e-12));
        assertThat(own.absoluteError()).isCloseTo(own.relativeError() + 3 / 2.0, within(1e-12));
    }

    /** Brennan 2001, chapter 5 (mixed models): with the cases fixed, person × case is universe score. */
    @Test
    void fixedFacetsGoIntoTheUniverseScore() {
        GStudy study = crossed(10, 2, 3, 4, 5, 6, 7);
        DStudy.Coefficients c = coefficients(study, PCR, 3, 2, "case");
        assertThat(c.universe()).isCloseTo(10 + 4 / 3.0, within(1e-12));
        assertThat(c.relativeError()).isCloseTo(5 / 2.0 + 7 / 6.0, within(1e-12));
        assertThat(c.absoluteError()).isCloseTo(5 / 2.0 + 7 / 6.0 + 3 / 2.0 + 6 / 6.0, within(1e-12));

        DStudy.Coefficients all = coefficients(study, PCR, 3, 2, "case", "rater");
        assertThat(all.absoluteError()).isCloseTo(7 / 6.0, within(1e-12));
        assertThat(all.universe()).isCloseTo(10 + 4 / 3.0 + 5 / 2.0, within(1e-12));
    }

    /** Variance of the grand mean: person effects over persons too (Brennan 2001, section 4.1, memory; by hand). */
    @Test
    void varianceOfTheMeanCountsPersons() {
        GStudy study = crossed(10, 2, 3, 4, 5, 6, 7);
        DStudy design = new DStudy(PCR, Map.of("case", 3, "rater", 2), Set.of());
        assertThat(design.meanVariance(study, 5))
                .isCloseTo(10 / 5.0 + (4 / 3.0 + 5 / 2.0 + 7 / 6.0) / 5 + 2 / 3.0 + 3 / 2.0 + 6 / 6.0, within(1e-12));
        DStudy fixed = new DStudy(PCR, Map.of("case", 3, "rater", 2), Set.of("case"));
        assertThat(fixed.meanVariance(study, 5))
                .isCloseTo(10 / 5.0 + (4 / 3.0 + 5 / 2.0 + 7 / 6.0) / 5 + 3 / 2.0 + 6 / 6.0, within(1e-12));
    }

    @Test
    void negativeComponentsCountAsZero() {
        assertThat(coefficients(crossed(10, -2, 3, -4, 5, 6, 7), PCR, 2, 2))
                .isEqualTo(coefficients(crossed(10, 0, 3, 0, 5, 6, 7), PCR, 2, 2));
    }

    @Test
    void refusesPersonsWhoDoNotDiffer() {
        GStudyTest.assertRefused(
                new DStudy(PCR, Map.of("case", 1, "rater", 1), Set.of()).coefficients(crossed(-1, 1, 1, 1, 1, 1, 1)),
                Refusal.Reason.NO_VARIATION,
                "no difference between the persons");
    }

    @Test
    void impossibleAssessmentsAreProgrammingErrors() {
        assertThatIllegalArgumentException().isThrownBy(() -> new DStudy(PCR, Map.of("case", 1), Set.of()));
        assertThatIllegalArgumentException().isThrownBy(() -> new DStudy(PCR, Map.of("case", 1, "rater", 0), Set.of()));
        Map<String, Integer> one = Map.of("case", 1, "rater", 1);
        assertThatIllegalArgumentException().isThrownBy(() -> new DStudy(PCR, one, Set.of("person")));
        assertThatIllegalArgumentException().isThrownBy(() -> new DStudy(PCR, one, Set.of("ward")));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new DStudy(PCR.nest("rater", Set.of("case")), one, Set.of("rater")));
        Design nested = PCR.nest("rater", Set.of("person"));
        GStudy study = GStudy.published(nested, Map.of(Set.of("person"), 1.0), null);
        assertThatIllegalArgumentException().isThrownBy(() -> new DStudy(PCR, one, Set.of()).coefficients(study));
        Design four = Design.crossed("person", "case", "rater", "item");
        assertThatIllegalArgumentException()
                .isThrownBy(() ->
                        new DStudy(four, Map.of("case", 1, "rater", 1, "item", 1), Set.of()).coefficients(PUBLISHED));
        Design other = Design.crossed("case", "person", "rater");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new DStudy(other, Map.of("person", 1, "rater", 1), Set.of()).coefficients(PUBLISHED));
    }

    @Property(tries = 200)
    void moreCasesOrRatersNeverHarmAndPhiNeverExceedsG(
            @ForAll @Size(7) List<@DoubleRange(min = 0.01, max = 10) Double> v,
            @ForAll @IntRange(min = 1, max = 9) int cases,
            @ForAll @IntRange(min = 1, max = 9) int raters,
            @ForAll @IntRange(min = 0, max = 2) int kind) {
        GStudy study = crossed(v.get(0), v.get(1), v.get(2), v.get(3), v.get(4), v.get(5), v.get(6));
        Design design =
                kind == 0 ? PCR : kind == 1 ? PCR.nest("rater", Set.of("case")) : PCR.nest("case", Set.of("person"));
        DStudy.Coefficients c = coefficients(study, design, cases, raters);
        assertThat(c.phi()).isBetween(0.0, c.g());
        assertThat(c.g()).isLessThan(1);
        for (DStudy.Coefficients more : List.of(
                coefficients(study, design, cases + 1, raters), coefficients(study, design, cases, raters + 1))) {
            assertThat(more.g()).isGreaterThan(c.g());
            assertThat(more.phi()).isGreaterThan(c.phi());
        }
    }

    // --- the cheapest size

    private static List<DesignSearch.Option> options(double perMarking, double perCase) {
        return new DesignSearch(
                        new DStudy(PCR, Map.of("case", 1, "rater", 1), Set.of()),
                        Map.of("case", 3, "rater", 3),
                        new DesignSearch.Cost(perMarking, perCase, "case"))
                .all(PUBLISHED)
                .orElseThrow();
    }

    /** From the table above: Φ .90 is reached by 2 × 2, 2 × 3, 3 × 2, 3 × 3; G .90 also by 1 × 3 and 3 × 1. */
    @Test
    void findsTheSmallestSizesThatReachAWish() {
        List<DesignSearch.Option> options = options(15, 10);
        assertThat(options).hasSize(9);
        assertThat(options.get(1).counts()).isEqualTo(Map.of("case", 1, "rater", 2));
        assertThat(options.get(5).minutes()).isEqualTo(2 * 3 * 15 + 2 * 10);

        assertThat(DesignSearch.reaching(options, DesignSearch.Wish.PHI, 0.90))
                .singleElement()
                .satisfies(o -> assertThat(o.counts()).isEqualTo(Map.of("case", 2, "rater", 2)));
        assertThat(DesignSearch.reaching(options, DesignSearch.Wish.G, 0.90))
                .extracting(DesignSearch.Option::counts)
                .containsExactly(
                        Map.of("case", 1, "rater", 3), Map.of("case", 3, "rater", 1), Map.of("case", 2, "rater", 2));
        // Without minutes for the case both cost 45, and three cases are better (.9062 against .9027).
        assertThat(DesignSearch.reaching(options(15, 0), DesignSearch.Wish.G, 0.90))
                .extracting(DesignSearch.Option::counts)
                .startsWith(Map.of("case", 3, "rater", 1), Map.of("case", 1, "rater", 3));
        assertThat(DesignSearch.reaching(options, DesignSearch.Wish.PHI, 0.95)).isEmpty();
    }

    /** .12 / (.12 + .24 / 8) is .80 but for rounding. */
    @Test
    void roundingDoesNotHideAWishThatIsJustReached() {
        Design design = Design.crossed("person", "item");
        GStudy study = GStudy.published(design, Map.of(Set.of("person"), .12, Set.of("person", "item"), .24), null);
        List<DesignSearch.Option> options = new DesignSearch(
                        new DStudy(design, Map.of("item", 1), Set.of()),
                        Map.of("item", 8),
                        new DesignSearch.Cost(1, 0, "case"))
                .all(study)
                .orElseThrow();
        assertThat(DesignSearch.reaching(options, DesignSearch.Wish.PHI, 0.80))
                .singleElement()
                .satisfies(o -> assertThat(o.counts()).isEqualTo(Map.of("item", 8)))
                .satisfies(o -> assertThat(o.minutes()).isEqualTo(8));
    }

    @Test
    void impossibleSearchesAreErrorsOrRefused() {
        DStudy one = new DStudy(PCR, Map.of("case", 1, "rater", 1), Set.of());
        DesignSearch.Cost cost = new DesignSearch.Cost(1, 0, "case");
        assertThatIllegalArgumentException().isThrownBy(() -> new DesignSearch(one, Map.of(), cost));
        assertThatIllegalArgumentException().isThrownBy(() -> new DesignSearch(one, Map.of("case", 0), cost));
        assertThatIllegalArgumentException().isThrownBy(() -> new DesignSearch.Cost(-1, 0, "case"));
        assertThatIllegalArgumentException().isThrownBy(() -> new DesignSearch.Cost(0, -1, "case"));
        assertThat(new DesignSearch.Cost(0, 0, "case").perCase()).isZero();
        GStudyTest.assertRefused(
                new DesignSearch(one, Map.of("case", 2), cost).all(crossed(0, 1, 1, 1, 1, 1, 1)),
                Refusal.Reason.NO_VARIATION,
                "no difference");
    }
}
