package org.sideport.stats.agreement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.sideport.stats.Interval;

class IccPropertyTest {

    private static double[][] table(long seed, int subjects, int raters) {
        SplittableRandom random = new SplittableRandom(seed);
        double[][] scores = new double[subjects][raters];
        for (double[] row : scores) {
            double subject = 3 * random.nextDouble();
            for (int j = 0; j < raters; j++) {
                row[j] = subject + random.nextDouble() * (j + 1);
            }
        }
        return scores;
    }

    private static IccTable icc(double[][] scores) {
        return Icc.ofComplete(RatingMatrix.of(scores), 0.95).orElseThrow();
    }

    @Property(tries = 100)
    void addingAConstantAndScalingAllChangesNothing(
            @ForAll long seed,
            @ForAll @IntRange(min = 3, max = 12) int subjects,
            @ForAll @IntRange(min = 2, max = 5) int raters,
            @ForAll @DoubleRange(min = -1e4, max = 1e4) double shift,
            @ForAll @DoubleRange(min = 0.01, max = 100) double factor) {
        double[][] scores = table(seed, subjects, raters);
        double[][] other = new double[subjects][raters];
        for (int i = 0; i < subjects; i++) {
            for (int j = 0; j < raters; j++) {
                other[i][j] = shift + factor * scores[i][j];
            }
        }
        for (IccForm form : IccForm.values()) {
            if (icc(scores).find(form).isEmpty()) {
                continue;
            }
            double value = icc(scores).get(form).estimate().value();
            assertThat(icc(other).get(form).estimate().value()).isCloseTo(value, within(1e-6 * (1 + Math.abs(value))));
        }
    }

    @Property(tries = 100)
    void theOrderOfRatersAndSubjectsDoesNotMatter(
            @ForAll long seed,
            @ForAll @IntRange(min = 3, max = 12) int subjects,
            @ForAll @IntRange(min = 2, max = 5) int raters) {
        double[][] scores = table(seed, subjects, raters);
        double[][] turned = new double[subjects][raters];
        for (int i = 0; i < subjects; i++) {
            for (int j = 0; j < raters; j++) {
                turned[subjects - 1 - i][raters - 1 - j] = scores[i][j];
            }
        }
        for (IccForm form : IccForm.values()) {
            if (icc(scores).find(form).isEmpty()) {
                continue;
            }
            double value = icc(scores).get(form).estimate().value();
            assertThat(icc(turned).get(form).estimate().value()).isCloseTo(value, within(1e-9 * (1 + Math.abs(value))));
        }
    }

    @Property(tries = 100)
    void severityOfOneRaterLowersAgreementButNotConsistency(
            @ForAll long seed, @ForAll @DoubleRange(min = 10, max = 50) double severity) {
        double[][] scores = table(seed, 8, 3);
        IccTable before = icc(scores);
        for (double[] row : scores) {
            row[1] -= severity;
        }
        IccTable after = icc(scores);
        assertThat(after.get(IccForm.ICC_3_1).estimate().value())
                .isCloseTo(before.get(IccForm.ICC_3_1).estimate().value(), within(1e-9));
        assertThat(Math.abs(after.get(IccForm.ICC_2_1).estimate().value()))
                .isLessThan(Math.abs(before.get(IccForm.ICC_2_1).estimate().value()) + 1e-12);
    }

    @Property(tries = 200)
    void estimatesLieInTheirLimitsAndBelowOne(
            @ForAll long seed,
            @ForAll @IntRange(min = 3, max = 12) int subjects,
            @ForAll @IntRange(min = 2, max = 5) int raters) {
        for (IccEstimate each : icc(table(seed, subjects, raters)).estimates()) {
            double value = each.estimate().value();
            Interval limits = each.estimate().limits();
            assertThat(value).isLessThan(1);
            if (limits == null) {
                // the approximation of form 2 may fail, and then says so
                assertThat(each.form()).isIn(IccForm.ICC_2_1, IccForm.ICC_2_K);
                assertThat(each.estimate().warnings()).isNotEmpty();
            } else {
                assertThat(limits.contains(value))
                        .as("%s %s", each.form(), limits)
                        .isTrue();
                assertThat(limits.upper()).isLessThanOrEqualTo(1);
            }
            assertThat(each.test().p()).isBetween(0.0, 1.0);
        }
    }
}
