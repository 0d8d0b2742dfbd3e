package org.sideport.stats.mixed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.assertj.core.data.Offset;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Against R 4.2.2, lme4 1.1.31 and lmerTest 3.1.3 on open data; script src/test/oracle/mixed/mixed.R. lme4 was run to the
 * end of what its optimiser can tell apart, which leaves its variance components about six right digits.
 */
class MixedModelReferenceTest {

    private static MixedFit fit(String model) {
        boolean ml = model.endsWith(".ml");
        return MixedModel.fit(
                        Reference.data(ml ? model.substring(0, model.length() - 3) : model),
                        MixedOptions.standard().withCriterion(ml ? Criterion.ML : Criterion.REML))
                .orElseThrow();
    }

    private static Offset<Double> digits(double expected, double relative) {
        return within(Math.max(Math.abs(expected) * relative, 1e-9));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "sleepstudy",
                "sleepstudy.ml",
                "sleepstudy.intercept",
                "sleepstudy4",
                "orthodont",
                "orthodont.ml",
                "dyestuff",
                "dyestuff.ml",
                "dyestuff2",
                "oxboys",
                "oxboys3"
            })
    void criterionFixedEffectsAndComponentsAreThoseOfTheReference(String model) {
        MixedFit fit = fit(model);
        assertThat(fit.criterion()).isCloseTo(Reference.of(model, "criterion"), within(2e-8));
        assertThat(fit.logLikelihood()).isCloseTo(Reference.of(model, "loglik"), within(1e-8));
        assertThat(fit.aic()).isCloseTo(Reference.of(model, "aic"), within(2e-8));
        for (int j = 0; j < fit.fixedEffects().size(); j++) {
            FixedEffect effect = fit.fixedEffects().get(j);
            String n = "." + (j + 1);
            double beta = Reference.of(model, "beta" + n);
            double se = Reference.of(model, "se" + n);
            assertThat(effect.estimate().value()).isCloseTo(beta, digits(beta, 3e-7));
            assertThat(effect.estimate().se()).isCloseTo(se, digits(se, 3e-6));
            assertThat(effect.t()).isCloseTo(beta / se, digits(beta / se, 3e-6));
            double df = Reference.of(model, "df" + n);
            assertThat(effect.df()).as("df of %s", effect.name()).isCloseTo(df, digits(df, 1e-4));
            double p = Reference.of(model, "p" + n);
            assertThat(effect.p()).isCloseTo(p, within(2e-3 * p));
        }
        RandomEffects random = fit.randomEffects();
        for (int k = 0; k < random.components().size(); k++) {
            double sd = Reference.of(model, "sd." + (k + 1));
            assertThat(random.components().get(k).sd()).isCloseTo(sd, digits(sd, 1e-5));
        }
        List<RandomEffects.Correlation> correlations = random.correlations();
        for (int k = 1, at = 0; k < random.components().size(); k++) {
            for (int j = 0; j < k; j++, at++) {
                assertThat(correlations.get(at).value())
                        .isCloseTo(Reference.of(model, "cor." + (k + 1) + "." + (j + 1)), within(1e-5));
            }
        }
        double sigma = Reference.of(model, "sigma");
        assertThat(random.residualSd()).isCloseTo(sigma, digits(sigma, 1e-6));
        assertThat(fit.explainedVariance().marginal()).isCloseTo(Reference.of(model, "r2m"), within(2e-6));
        assertThat(fit.explainedVariance().conditional()).isCloseTo(Reference.of(model, "r2c"), within(2e-6));
        assertThat(fit.intraclassCorrelation().value()).isCloseTo(Reference.of(model, "icc"), within(1e-5));
    }

    @ParameterizedTest
    @ValueSource(strings = {"sleepstudy", "sleepstudy4", "orthodont", "dyestuff", "dyestuff.ml", "dyestuff2", "oxboys"})
    void deviationsOfSubjectsAndStandardisedResidualsAreThoseOfTheReference(String model) {
        MixedFit fit = fit(model);
        double sigma = Reference.of(model, "sigma");
        for (SubjectEffect subject : fit.subjectEffects()) {
            for (int k = 0; k < subject.deviations().size(); k++) {
                String of = "." + subject.subject() + "." + (k + 1);
                SubjectEffect.Deviation deviation = subject.deviations().get(k);
                assertThat(deviation.blup()).as(of).isCloseTo(Reference.of(model, "ranef" + of), within(2e-5 * sigma));
                assertThat(deviation.conditionalSd())
                        .as(of)
                        .isCloseTo(Reference.of(model, "condsd" + of), within(2e-5 * sigma));
            }
        }
        double[] standardised = fit.residuals().standardised();
        for (int i = 0; i < standardised.length; i++) {
            assertThat(standardised[i]).isCloseTo(Reference.of(model, "stdres." + (i + 1)), within(2e-5));
        }
        assertThat(Reference.has(model, "stdres." + (standardised.length + 1))).isFalse();
    }
}
