package org.sideport.stats.mixed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.hipparchus.stat.regression.SimpleRegression;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;

/** What is read from a fit; figures by src/test/oracle/mixed/mixed.R unless said otherwise. */
class MixedFitTest {

    private static MixedFit fit(String model) {
        return MixedModel.fit(Reference.data(model), MixedOptions.standard()).orElseThrow();
    }

    /**
     * Bates, Mächler, Bolker & Walker 2015 (Journal of Statistical Software 67(1), summary of fm1, from memory) and
     * lme4's documentation print 251.4051048, 10.4672860, SE 6.8245967 and 1.5457896, criterion 1743.628272; of the SEs
     * lme4's default optimiser holds five digits.
     */
    @Test
    void sleepstudyHasThePublishedFixedEffects() {
        MixedFit fit = fit("sleepstudy");
        assertThat(fit.fixedEffect("intercept").estimate().value()).isCloseTo(251.4051048, within(5e-8));
        assertThat(fit.fixedEffect("days").estimate().value()).isCloseTo(10.4672860, within(5e-8));
        assertThat(fit.fixedEffect("intercept").estimate().se()).isCloseTo(6.8245967, within(5e-5));
        assertThat(fit.fixedEffect("days").estimate().se()).isCloseTo(1.5457896, within(5e-6));
        assertThat(fit.criterion()).isCloseTo(1743.628272, within(5e-7));
        assertThat(fit.randomEffects().components().get(0).sd()).isCloseTo(24.7406580, within(5e-4));
        assertThat(fit.randomEffects().components().get(1).sd()).isCloseTo(5.9221377, within(5e-5));
        assertThat(fit.randomEffects().correlations().get(0).value()).isCloseTo(.0655512, within(5e-6));
        assertThat(fit.randomEffects().residualSd()).isCloseTo(25.5917957, within(5e-5));
        assertThat(fit.observations()).isEqualTo(180);
        assertThat(fit.subjects()).isEqualTo(18);
        assertThat(fit.warnings()).isEmpty();
    }

    /** Kuznetsova, Brockhoff & Christensen 2017 (Journal of Statistical Software 82(13), from memory): df 17, t 6.771. */
    @Test
    void sleepstudyHasThePublishedSatterthwaiteDegreesOfFreedom() {
        FixedEffect days = fit("sleepstudy").fixedEffect("days");
        assertThat(days.df()).isCloseTo(17, within(1e-6));
        assertThat(days.t()).isCloseTo(6.771, within(5e-4));
        assertThat(days.estimate().method()).isEqualTo("population, REML, t limits, Satterthwaite degrees of freedom");
        assertThat(days.estimate().n()).isEqualTo(18);
    }

    /**
     * In a balanced design REML has a closed form (Laird & Ware 1982): the fixed effects are the means of the subjects'
     * own least-squares coefficients, σ² is the pooled mean square about their lines, and Σ is the covariance of the
     * coefficients less σ²(Z'Z)⁻¹. It settles the digits that lme4's optimiser leaves open.
     */
    @Test
    void sleepstudyHasTheClosedFormOfTheBalancedDesign() {
        MixedData data = Reference.data("sleepstudy");
        SimpleRegression[] lines = new SimpleRegression[18];
        for (int i = 0; i < data.size(); i++) {
            int s = data.subject().codes()[i];
            lines[s] = lines[s] == null ? new SimpleRegression() : lines[s];
            lines[s].addData(data.fixed().get(1).values()[i], data.response()[i]);
        }
        double sse = 0;
        SimpleRegression between = new SimpleRegression();
        for (SimpleRegression line : lines) {
            sse += line.getSumSquaredErrors();
            between.addData(line.getSlope(), line.getIntercept());
        }
        double variance = sse / 144;
        // days 0 to 9: n 10, mean 4.5, sum of squares about the mean 82.5
        double slopeVariance = between.getXSumSquares() / 17 - variance / 82.5;
        double interceptVariance = between.getTotalSumSquares() / 17 - variance * (0.1 + 4.5 * 4.5 / 82.5);
        double covariance = between.getSumOfCrossProducts() / 17 + variance * 4.5 / 82.5;
        MixedFit fit = fit("sleepstudy");
        assertThat(fit.randomEffects().residualSd()).isCloseTo(Math.sqrt(variance), within(1e-9));
        assertThat(fit.randomEffects().components().get(0).sd()).isCloseTo(Math.sqrt(interceptVariance), within(1e-8));
        assertThat(fit.randomEffects().components().get(1).sd()).isCloseTo(Math.sqrt(slopeVariance), within(1e-9));
        assertThat(fit.randomCovariance()[0][1]).isCloseTo(covariance, within(1e-7));
        assertThat(fit.randomCovariance()[1][0]).isCloseTo(covariance, within(1e-7));
        double se = Math.sqrt(between.getXSumSquares() / 17 / 18);
        assertThat(fit.fixedEffect("days").estimate().se()).isCloseTo(se, within(1e-10));
        assertThat(Math.sqrt(fit.fixedCovariance()[1][1])).isCloseTo(se, within(1e-10));
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 4, 9})
    void thePopulationCurveHasTheLimitsOfTheReferenceContrast(int day) {
        Estimate at = fit("sleepstudy").population(1, day);
        String of = "predict." + day;
        assertThat(at.value()).isCloseTo(Reference.of("sleepstudy", of + ".fit"), within(1e-6));
        assertThat(at.se()).isCloseTo(Reference.of("sleepstudy", of + ".se"), within(1e-5));
        assertThat(at.limits().lower()).isCloseTo(Reference.of("sleepstudy", of + ".lower"), within(1e-4));
        assertThat(at.limits().upper()).isCloseTo(Reference.of("sleepstudy", of + ".upper"), within(1e-4));
    }

    /** The variance from Henderson's equations solved whole, with R's dense solve. */
    @ParameterizedTest
    @ValueSource(strings = {"S308", "S309", "S372"})
    void aSubjectsOwnValueAndSlopeHaveTheVarianceOfHendersonsEquations(String subject) {
        MixedFit fit = fit("sleepstudy");
        Estimate own = fit.own(subject, new double[] {1, 9}, new double[] {1, 9});
        assertThat(own.value()).isCloseTo(Reference.of("sleepstudy", "own." + subject + ".fit"), within(1e-4));
        assertThat(own.se()).isCloseTo(Reference.of("sleepstudy", "own." + subject + ".se"), within(1e-4));
        SubjectEffect.Deviation slope = fit.subjectEffects().stream()
                .filter(s -> s.subject().equals(subject))
                .findFirst()
                .orElseThrow()
                .deviation("days");
        assertThat(slope.own().value())
                .isCloseTo(Reference.of("sleepstudy", "ownslope." + subject + ".fit"), within(1e-5));
        assertThat(slope.own().se()).isCloseTo(Reference.of("sleepstudy", "ownslope." + subject + ".se"), within(1e-5));
        assertThat(slope.own().limits().contains(slope.own().value())).isTrue();
        double half = (slope.own().limits().upper() - slope.own().limits().lower()) / 2;
        // wider than the normal's 1.96 SE, since the variances are estimated
        assertThat(half / slope.own().se()).isBetween(1.96, 2.2);
        // Var(b | y) / Var(b), from lme4's conditional SD and SD
        double share = Math.pow(
                Reference.of("sleepstudy", "condsd." + subject + ".2") / Reference.of("sleepstudy", "sd.2"), 2);
        assertThat(slope.shrinkage()).isCloseTo(share, within(1e-5));
        Estimate single = fit.ownObservation(subject, new double[] {1, 9}, new double[] {1, 9});
        assertThat(single.value()).isEqualTo(own.value());
        assertThat(single.se())
                .isCloseTo(
                        Math.hypot(
                                Reference.of("sleepstudy", "own." + subject + ".se"),
                                Reference.of("sleepstudy", "sigma")),
                        within(1e-4));
    }

    /**
     * lme4's {@code confint(method = "profile")} of the ML deviance; lme4 interpolates its profile by a spline, which
     * leaves about four digits.
     */
    @ParameterizedTest
    @CsvSource({"sleepstudy, 1, 0", "sleepstudy, 3, 1", "dyestuff, 1, 0", "dyestuff2, 1, 0"})
    void profileLimitsOfTheStandardDeviationsAreThoseOfTheReference(String model, int number, int component) {
        RandomEffects random = MixedModel.fit(
                        Reference.data(model), MixedOptions.standard().withProfile())
                .orElseThrow()
                .randomEffects();
        check(random.components().get(component).limits(), model, number);
        check(random.residualLimits(), model, model.equals("sleepstudy") ? 4 : 2);
        if (model.equals("sleepstudy")) {
            check(random.correlations().get(0).limits(), model, 2);
        }
    }

    private static void check(Interval limits, String model, int number) {
        double lower = Reference.of(model + ".ml", "profile." + number + ".lower");
        double upper = Reference.of(model + ".ml", "profile." + number + ".upper");
        assertThat(limits.lower()).isCloseTo(lower, within(1e-3 * Math.abs(lower) + 1e-9));
        assertThat(limits.upper()).isCloseTo(upper, within(1e-3 * upper));
        assertThat(limits.level()).isEqualTo(0.95);
    }

    @Test
    void withoutProfileThereAreNoLimitsOfComponents() {
        RandomEffects random = fit("sleepstudy").randomEffects();
        assertThat(random.residualLimits()).isNull();
        assertThat(random.components()).allMatch(c -> c.limits() == null);
        assertThat(random.correlations()).allMatch(c -> c.limits() == null);
        RandomEffects three = MixedModel.fit(
                        Reference.data("oxboys3"), MixedOptions.standard().withProfile())
                .orElseThrow()
                .randomEffects();
        assertThat(three.residualLimits()).isNull();
    }

    /** Ratio from lme4; p of chi-square tails by hand: one degree erfc(√(x/2)), two degrees exp(−x/2). */
    @Test
    void theSlopesVarianceIsTestedByTheMixture() {
        SlopeVarianceTest test = fit("sleepstudy").slopeVarianceTest();
        double x = Reference.of("sleepstudy", "slope.lrt");
        assertThat(test.ratio()).isCloseTo(x, within(1e-6));
        assertThat(test.pConservative()).isCloseTo(Math.exp(-x / 2), within(1e-15));
        double one = 2
                * (1
                        - new org.hipparchus.distribution.continuous.NormalDistribution()
                                .cumulativeProbability(Math.sqrt(x)));
        assertThat(test.p()).isCloseTo((one + Math.exp(-x / 2)) / 2, within(1e-13));
        assertThat(test.randomColumns()).isEqualTo(2);
    }

    /** Stram & Lee 1994, case 1: half of chi-square with one degree; a ratio of zero says nothing. */
    @Test
    void aSingleRandomColumnIsTestedAgainstHalfAPointMass() {
        SlopeVarianceTest none = fit("dyestuff2").slopeVarianceTest();
        assertThat(none.ratio()).isCloseTo(0, within(1e-9));
        assertThat(SlopeVarianceTest.of(10, 10, 1).p()).isEqualTo(1);
        assertThat(SlopeVarianceTest.of(9, 10, 1).ratio()).isZero();
        // chi-square of one degree: 2.705543 is the 90 % point, 3.841459 the 95 % point (any table)
        assertThat(SlopeVarianceTest.of(2.705543, 0, 1).p()).isCloseTo(0.05, within(1e-7));
        assertThat(SlopeVarianceTest.of(3.841459, 0, 1).pConservative()).isCloseTo(0.05, within(1e-7));
    }

    @Test
    void singularFitsSaySoAndWhich() {
        MixedFit zero = fit("dyestuff2");
        assertThat(zero.randomEffects().singular()).isTrue();
        assertThat(zero.warnings())
                .anyMatch(w -> w.contains("the variance of the random intercept is estimated as zero"));
        assertThat(zero.subjectEffects()).allSatisfy(s -> {
            assertThat(s.deviation("intercept").shrinkage()).isCloseTo(1, within(1e-12));
            assertThat(s.deviation("intercept").blup()).isCloseTo(0, within(1e-9));
        });
        MixedFit one = fit("orthodont");
        assertThat(one.randomEffects().singular()).isTrue();
        assertThat(one.warnings()).anyMatch(w -> w.contains("the correlation of intercept and age is estimated as 1"));
        assertThat(fit("sleepstudy4").randomEffects().singular())
                .isEqualTo(Reference.of("sleepstudy4", "singular") != 0);
        assertThat(fit("dyestuff").warnings()).isEmpty();
    }

    @Test
    void wrongNamesAndLengthsAreErrorsOfTheProgram() {
        MixedFit fit = fit("dyestuff");
        assertThatThrownBy(() -> fit.fixedEffect("days")).hasMessageContaining("no fixed column days");
        assertThatThrownBy(() -> fit.population(1, 2)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> fit.own("Z", new double[] {1}, new double[] {1}))
                .hasMessageContaining("Z");
        assertThatThrownBy(() -> fit.ownObservation("Z", new double[] {1}, new double[] {1}))
                .hasMessageContaining("Z");
        assertThatThrownBy(() -> fit.own("A", new double[] {1}, new double[] {}))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> fit.subjectEffects().get(0).deviation("days"))
                .hasMessageContaining("no random column days");
        assertThatThrownBy(() -> new MixedOptions(Criterion.ML, 1, false)).isInstanceOf(IllegalArgumentException.class);
    }

    /** The farthest residuals of the reference; the bound is R's {@code qnorm(1 - 0.025 / 180)}. */
    @Test
    void outliersAreListedTheFarthestFirst() {
        ConditionalResiduals residuals = fit("sleepstudy").residuals();
        assertThat(residuals.bound()).isCloseTo(Reference.of("sleepstudy", "bound"), within(1e-9));
        double last = Double.POSITIVE_INFINITY;
        for (int i : residuals.outliers()) {
            double expected = Math.abs(Reference.of("sleepstudy", "stdres." + (i + 1)));
            assertThat(expected).isLessThan(last).isGreaterThan(residuals.bound());
            last = expected;
        }
        long beyond = java.util.stream.IntStream.rangeClosed(1, 180)
                .filter(i -> Math.abs(Reference.of("sleepstudy", "stdres." + i)) > residuals.bound())
                .count();
        assertThat(beyond).isEqualTo(3);
        assertThat(residuals.outliers()).hasSize((int) beyond);
        // with few observations the bound is 3
        ConditionalResiduals few = new ConditionalResiduals(new double[] {1, -3.01, 3, 3.5});
        assertThat(few.bound()).isEqualTo(3);
        assertThat(few.outliers()).containsExactly(3, 1);
    }

    @Test
    void aLevelWithoutObservationsIsNoSubject() {
        MixedData data = Reference.data("dyestuff");
        java.util.List<String> levels = new java.util.ArrayList<>(data.subject().levels());
        levels.add("Z");
        MixedFit fit = MixedModel.fit(
                        new MixedData(
                                data.response(),
                                data.fixed(),
                                data.random(),
                                new org.sideport.stats.data.Factor(
                                        "subject", levels, data.subject().codes())),
                        MixedOptions.standard().withCriterion(Criterion.ML))
                .orElseThrow();
        assertThat(fit.subjects()).isEqualTo(6);
        assertThat(fit.subjectEffects())
                .extracting(SubjectEffect::subject)
                .containsExactly("A", "B", "C", "D", "E", "F");
        assertThat(fit.criterion()).isCloseTo(Reference.of("dyestuff.ml", "criterion"), within(1e-8));
        assertThat(fit.criterionName()).isEqualTo("ml");
        assertThat(fit("dyestuff").criterionName()).isEqualTo("reml");
    }
}
