package org.sideport.stats.agreement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * Against Fleiss 1971 and the output that Gwet prints for the data of his handbook (package irrCAC, vignette "overview",
 * read in a public copy).
 */
class FleissGwetTest {

    private static final double[][] FIVE = KappaWeights.NONE.of(new double[] {1, 2, 3, 4, 5});

    /** Gwet's "distrib.6raters" is the first half of Fleiss's table. */
    private static final int[][] FIRST_15 = Arrays.copyOf(OpenData.counts(OpenData.fleiss(), 5), 15);

    private static final int[][] WITH_GAPS = OpenData.counts(OpenData.krippendorff(), 5);

    private static final int[][] ABSTRACTORS = abstractors();

    /** The 3 × 3 table {{13, 0, 0}, {0, 20, 7}, {0, 4, 56}} subject by subject. */
    private static int[][] abstractors() {
        int[][] table = {{13, 0, 0}, {0, 20, 7}, {0, 4, 56}};
        int[][] counts = new int[100][3];
        int i = 0;
        for (int a = 0; a < 3; a++) {
            for (int b = 0; b < 3; b++) {
                for (int times = 0; times < table[a][b]; times++, i++) {
                    counts[i][a]++;
                    counts[i][b]++;
                }
            }
        }
        return counts;
    }

    /** Fleiss 1971: kappa .430, observed .5556, expected .2201 (page 380), z 17.7 with the error of 1979. */
    @Test
    void theDiagnosesGiveThePublishedKappa() {
        FleissKappa.Result result = FleissKappa.of(OpenData.counts(OpenData.fleiss(), 5), FIVE, 0.95)
                .orElseThrow();
        assertThat(result.kappa().estimate().value()).isCloseTo(.430, within(5e-4));
        assertThat(result.kappa().observed()).isCloseTo(.5556, within(5e-5));
        // from shares rounded to three digits
        assertThat(result.kappa().expected()).isCloseTo(.2201, within(2e-4));
        assertThat(result.kappa().estimate().n()).isEqualTo(30);
        assertThat(result.kappa().estimate().warnings()).isEmpty();
        assertThat(result.kappa().estimate().value() / result.kappa().nullSe()).isCloseTo(17.7, within(.05));
        // category by category: irr, kappam.fleiss(diagnoses, detail = TRUE)
        double[] published = {.245, .245, .520, .471, .566};
        for (int k = 0; k < 5; k++) {
            assertThat(result.categories().get(k)).isCloseTo(published[k], within(5e-4));
        }
    }

    @Test
    void fleissHasGwetsErrorOverSubjects() {
        Kappa kappa = FleissKappa.of(FIRST_15, FIVE, 0.95).orElseThrow().kappa();
        assertThat(kappa.estimate().value()).isCloseTo(.4139265, within(5e-8));
        assertThat(kappa.estimate().se()).isCloseTo(.08119291, within(5e-9));
        assertThat(kappa.observed()).isCloseTo(.5511111, within(5e-8));
        assertThat(kappa.expected()).isCloseTo(.2340741, within(5e-8));
        assertThat(kappa.estimate().limits().lower()).isCloseTo(.24, within(5e-4));
        assertThat(kappa.estimate().limits().upper()).isCloseTo(.588, within(5e-4));
        assertThat(kappa.estimate().warnings()).containsExactly("There are only 15 subjects: the limits are rough.");
        assertThat(kappa.estimate().method()).startsWith("Fleiss' kappa, 6 raters");
    }

    @Test
    void withGapsFleissFollowsGwet() {
        FleissKappa.Result result = FleissKappa.of(WITH_GAPS, FIVE, 0.95).orElseThrow();
        Kappa kappa = result.kappa();
        assertThat(kappa.estimate().value()).isCloseTo(.76117, within(5e-6));
        assertThat(kappa.estimate().se()).isCloseTo(.15302, within(5e-6));
        assertThat(kappa.observed()).isCloseTo(.8181818, within(5e-8));
        assertThat(kappa.expected()).isCloseTo(.2387153, within(5e-8));
        assertThat(kappa.estimate().limits().lower()).isCloseTo(.424, within(5e-4));
        assertThat(kappa.estimate().limits().upper()).isEqualTo(1);
        assertThat(kappa.nullSe()).isNull();
        assertThat(result.categories()).isEmpty();
        assertThat(kappa.estimate().method()).contains("unequal numbers of raters");
    }

    @Test
    void ac1IsGwets() {
        Kappa six = GwetAgreement.of(FIRST_15, FIVE, "AC1", 0.95).orElseThrow();
        assertThat(six.estimate().value()).isCloseTo(.4448007, within(5e-8));
        assertThat(six.estimate().se()).isCloseTo(.08418757, within(5e-9));
        assertThat(six.expected()).isCloseTo(.1914815, within(5e-8));
        assertThat(six.estimate().limits().lower()).isCloseTo(.264, within(5e-4));
        assertThat(six.estimate().limits().upper()).isCloseTo(.625, within(5e-4));
        Kappa gaps = GwetAgreement.of(WITH_GAPS, FIVE, "AC1", 0.95).orElseThrow();
        assertThat(gaps.estimate().value()).isCloseTo(.77544, within(5e-6));
        assertThat(gaps.estimate().se()).isCloseTo(.14295, within(5e-6));
        assertThat(gaps.expected()).isCloseTo(.1903212, within(5e-8));
        assertThat(gaps.estimate().limits().lower()).isCloseTo(.461, within(5e-4));
        assertThat(gaps.estimate().limits().upper()).isEqualTo(1);
        assertThat(gaps.estimate().n()).isEqualTo(12);
        Kappa two = GwetAgreement.of(ABSTRACTORS, KappaWeights.NONE.of(new double[] {1, 2, 3}), "AC1", 0.95)
                .orElseThrow();
        assertThat(two.estimate().value()).isCloseTo(.8493305, within(5e-8));
        // for tables of two raters Gwet divides by n = 100, else by n − 1
        assertThat(two.estimate().se() * Math.sqrt(.99)).isCloseTo(.04321747, within(5e-9));
    }

    /** By Gwet 2014, equations 3.5 and 3.6, by hand: levels 1, 2, 3; pairs 1-1, 1-2, 3-3; linear weights 1, ½, 1. */
    @Test
    void ac2WithWeightsByHand() {
        int[][] counts = {{2, 0, 0}, {1, 1, 0}, {0, 0, 2}};
        Kappa ac2 = GwetAgreement.of(counts, KappaWeights.LINEAR.of(new double[] {1, 2, 3}), "AC2", 0.95)
                .orElseThrow();
        // shares ½, ⅙, ⅓; sum of weights 3 + 4·½ = 5; chance 5/6 · (¼ + 5/36 + 2/9) = 5/6 · 11/18
        assertThat(ac2.observed()).isCloseTo(2.5 / 3, within(1e-12));
        assertThat(ac2.expected()).isCloseTo(5.0 / 6 * 11 / 18, within(1e-12));
        double chance = 55.0 / 108;
        assertThat(ac2.estimate().value()).isCloseTo((2.5 / 3 - chance) / (1 - chance), within(1e-12));
    }

    /** Nearly all scores alike: kappa collapses, AC1 stays (Gwet 2008, section 1). */
    @Test
    void ac1StandsUpWhereKappaCollapses() {
        int[][] counts = new int[20][2];
        for (int[] row : counts) {
            row[0] = 2;
        }
        counts[0] = new int[] {1, 1};
        counts[1] = new int[] {1, 1};
        double[][] two = KappaWeights.NONE.of(new double[] {1, 2});
        // observed .9; shares .95 and .05: Fleiss chance .905, AC1 chance .095
        assertThat(FleissKappa.of(counts, two, 0.95)
                        .orElseThrow()
                        .kappa()
                        .estimate()
                        .value())
                .isCloseTo((.9 - .905) / .095, within(1e-12));
        assertThat(GwetAgreement.of(counts, two, "AC1", 0.95)
                        .orElseThrow()
                        .estimate()
                        .value())
                .isCloseTo((.9 - .095) / .905, within(1e-12));
    }

    private static Refusal refusal(Outcome<?> outcome) {
        return ((Outcome.Refused<?>) outcome).refusal();
    }

    @Test
    void whatCannotBeComputedIsRefused() {
        double[][] two = KappaWeights.NONE.of(new double[] {1, 2});
        int[][] once = {{1, 0}, {0, 1}, {0, 0}};
        assertThat(refusal(FleissKappa.of(once, two, 0.95)).why()).isEqualTo("no subject has two scores");
        assertThat(refusal(GwetAgreement.of(new int[][] {{1, 0}, {1, 1}}, two, "a", 0.95))
                        .why())
                .isEqualTo("only 1 subject has two scores");
        int[][] same = {{2, 0}, {2, 0}};
        assertThat(refusal(FleissKappa.of(same, two, 0.95)).reason()).isEqualTo(Refusal.Reason.NO_VARIATION);
        assertThat(refusal(GwetAgreement.of(new int[][] {{2}, {2}}, new double[][] {{1}}, "a", 0.95))
                        .reason())
                .isEqualTo(Refusal.Reason.NO_VARIATION);
        // with the unused level named, AC1 can be given: observed 1, chance 0
        Kappa named = GwetAgreement.of(same, two, "AC1", 0.95).orElseThrow();
        assertThat(named.estimate().value()).isEqualTo(1);
        assertThat(named.estimate().limits()).isNull();
    }

    @Test
    void anUnusedCategoryHasNoKappaOfItsOwnAndWeightsLeaveOutTheTest() {
        int[][] counts = {{2, 0, 0}, {1, 1, 0}, {0, 2, 0}};
        FleissKappa.Result plain = FleissKappa.of(counts, KappaWeights.NONE.of(new double[] {1, 2, 3}), 0.95)
                .orElseThrow();
        assertThat(plain.categories()).hasSize(3);
        assertThat(plain.categories().get(2)).isNull();
        // apart 1 of chance 3·2·1·¼ = 1.5
        assertThat(plain.categories().subList(0, 2)).isEqualTo(List.of(1 - 1 / 1.5, 1 - 1 / 1.5));
        assertThat(plain.kappa().nullSe()).isNotNull();
        FleissKappa.Result weighted = FleissKappa.of(counts, KappaWeights.LINEAR.of(new double[] {1, 2, 3}), 0.95)
                .orElseThrow();
        assertThat(weighted.kappa().nullSe()).isNull();
        // observed (1 + ½ + 1)/3, chance ¼ + ¼ + 2·¼·½
        assertThat(weighted.kappa().estimate().value()).isCloseTo((2.5 / 3 - .75) / .25, within(1e-12));
    }
}
