package org.sideport.stats.casemix;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.sideport.stats.casemix.LogisticMethod.FIRTH;
import static org.sideport.stats.casemix.LogisticMethod.MAXIMUM_LIKELIHOOD;

import java.util.Arrays;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.data.Factor;

/**
 * Against R's glm and profile likelihood on open data: src/test/oracle/casemix/logistic.R and .txt. birthwt: Hosmer &
 * Lemeshow 1989, Applied Logistic Regression, appendix 1; infert: Trichopoulos et al. 1976.
 */
class LogisticRegressionTest {

    private static final CaseOutcomes BIRTHWT = TestData.read("birthwt.csv");
    private LogisticFit fit;
    private LogisticFit penalised;
    private LogisticFit infert;

    @BeforeEach
    void fits() {
        fit = new LogisticRegression(MAXIMUM_LIKELIHOOD, 0.95, true)
                .fit(BIRTHWT)
                .orElseThrow();
        penalised = new LogisticRegression(FIRTH, 0.95, true).fit(BIRTHWT).orElseThrow();
        infert = new LogisticRegression(MAXIMUM_LIKELIHOOD, 0.95, false)
                .fit(TestData.read("infert.csv"))
                .orElseThrow();
    }

    private static Offset<Double> digits(double expected, double relative) {
        return within(Math.abs(expected) * relative);
    }

    /** Estimate; SE at the estimate itself (expected.R); z, p; Wald; profile limits by uniroot of the refitted deviance; LRT by drop1 where it is the same. */
    @ParameterizedTest
    @CsvSource({
        "intercept, 0.4644032826509, 1.20470211012995, 0.385492213322, 0.69987277443786, -1.896769464401697, 2.82557602970349, -1.86788715293, 2.87558342761, ",
        "age, -0.0270697792990, 0.03645261431319, -0.742601863299, 0.45772276009831, -0.098515590463074, 0.04437603186516, -0.100189307776, 0.0433761963856, 0.558635994",
        "lwt, -0.0151825628626, 0.00692790239692, -2.191509348758, 0.02841495396461, -0.028761002042201, -0.00160412368296, -0.0295733468929, -0.0022579827564, 5.380722962",
        "race=b, 1.2632193755484, 0.52646774146093, 2.399424079461, 0.01642088462292, 0.231361563566878, 2.29507718752995, 0.234155142643, 2.31507045858, ",
        "race=c, 0.8616351075343, 0.43919749223233, 1.961839771794, 0.04978114165470, 0.000823841057348, 1.72244637401135, 0.0126034317642, 1.74474603916, ",
        "smoke, 0.9233491572288, 0.40085831552068, 2.303430219333, 0.02125464911209, 0.137681296255955, 1.70901701820161, 0.149597069924, 1.73073814118, 5.488667921",
        "ptl, 0.5417551194891, 0.34626656242589, 1.564560885695, 0.11768590627253, -0.136914871782572, 1.22042511076071, -0.126276874357, 1.24630025982, 2.521112743",
        "ht, 1.8336956099130, 0.69176998829542, 2.650730215784, 0.00803179689183, 0.477851347589537, 3.18953987223642, 0.512318881648, 3.27778241311, 7.384328039",
        "ui, 0.7585965042111, 0.45939182125583, 1.651306073078, 0.09867609284320, -0.141794920063351, 1.65898792848565, -0.152425456076, 1.66222395091, 2.679508743"
    })
    void coefficientsAgreeWithTheReference(
            String name,
            double estimate,
            double se,
            double z,
            double p,
            double waldLower,
            double waldUpper,
            double lower,
            double upper,
            Double ratio) {
        Coefficient c = fit.coefficient(name);
        assertThat(c.estimate()).isCloseTo(estimate, digits(estimate, 1e-10));
        assertThat(c.se()).isCloseTo(se, digits(se, 1e-10));
        // R's glm takes the information of the step before the last, which costs it some digits here
        assertThat(c.z()).isCloseTo(z, digits(z, 1e-9));
        assertThat(c.pWald()).isCloseTo(p, digits(p, 1e-8));
        assertThat(c.wald().lower()).isCloseTo(waldLower, within(1e-9 * se));
        assertThat(c.wald().upper()).isCloseTo(waldUpper, within(1e-9 * se));
        assertThat(c.profile()).isNotNull();
        assertThat(c.profile().lower()).isCloseTo(lower, within(1e-8 * se));
        assertThat(c.profile().upper()).isCloseTo(upper, within(1e-8 * se));
        assertThat(c.profile().level()).isEqualTo(0.95);
        assertThat(c.oddsRatio()).isCloseTo(Math.exp(estimate), digits(Math.exp(estimate), 1e-10));
        assertThat(c.oddsRatioLimits().upper()).isCloseTo(Math.exp(upper), digits(Math.exp(upper), 1e-9));
        if (ratio != null) {
            assertThat(c.likelihoodRatio()).isCloseTo(ratio, within(1e-8));
        }
    }

    /** The same script: drop1's p, deviance, AIC. */
    @Test
    void devianceAndTests() {
        assertThat(fit.deviance()).isCloseTo(201.426951204, within(1e-9));
        assertThat(fit.nullDeviance()).isCloseTo(234.671996193, within(1e-9));
        assertThat(fit.logLikelihood()).isCloseTo(-100.713475602, within(1e-9));
        assertThat(fit.aic()).isCloseTo(219.426951204, within(1e-9));
        assertThat(fit.coefficient("ht").pLikelihoodRatio()).isCloseTo(0.0065795, within(5e-8));
        assertThat(fit.coefficient("age").pLikelihoodRatio()).isCloseTo(0.4548103, within(5e-8));
        assertThat(fit.n()).isEqualTo(189);
        assertThat(fit.events()).isEqualTo(59);
        assertThat(fit.separation().kind()).isEqualTo(Separation.Kind.NONE);
        assertThat(fit.warnings()).hasSize(1).first().asString().contains("59 times for 8 terms");
        assertThat(fit.method()).isEqualTo(MAXIMUM_LIKELIHOOD);
        assertThat(fit.steps()).isBetween(3, 12);
    }

    @ParameterizedTest
    @CsvSource({
        "intercept, -1.1492365355906, 1.4122093417314",
        "age, 0.0395820016977, 0.0312028090607",
        "parity, -0.8282773822931, 0.1964938941234",
        "education=6-11yrs, -1.0442435837275, 0.7925590697067",
        "education=12+ yrs, -1.4032050894763, 0.8341662077577",
        "spontaneous, 2.0459050216801, 0.3101633246601",
        "induced, 1.2887573809390, 0.3014661869563"
    })
    void secondDataSet(String name, double estimate, double se) {
        Coefficient c = infert.coefficient(name);
        assertThat(c.estimate()).isCloseTo(estimate, digits(estimate, 1e-9));
        assertThat(c.se()).isCloseTo(se, digits(se, 1e-9));
        assertThat(c.profile()).isNull();
        assertThat(c.likelihoodRatio()).isNull();
        assertThat(c.pLikelihoodRatio()).isNull();
        assertThat(c.oddsRatioLimits().lower()).isCloseTo(Math.exp(c.wald().lower()), digits(1, 1e-12));
    }

    @Test
    void secondDataSetDeviance() {
        assertThat(infert.deviance()).isCloseTo(257.797690206, within(1e-8));
        assertThat(infert.nullDeviance()).isCloseTo(316.171110816, within(1e-8));
        assertThat(infert.coefficient("spontaneous").pWald()).isCloseTo(4.21777537927e-11, within(1e-17));
        assertThat(infert.warnings()).isEmpty();
    }

    /** Firth's method by direct maximisation in R (same script). */
    @ParameterizedTest
    @CsvSource({
        "intercept, 0.3488566303316, 1.18286106939217, -1.90603638765, 2.68120643446, 0.0900227256883",
        "age, -0.0253153412372, 0.03587668789448, -0.0962058843713, 0.0430551400736, 0.51864124827",
        "lwt, -0.0138335619778, 0.00675685669629, -0.0276762294224, -0.00146650103345, 4.85926428934",
        "race=b, 1.2074083094980, 0.51988896284628, 0.218478944622, 2.21878792785, 5.7056627447",
        "race=c, 0.8181124666964, 0.43147154468409, -0.00418658484873, 1.67131360786, 3.802163511",
        "smoke, 0.8782206108067, 0.39420147133565, 0.13102437819, 1.65635055547, 5.32138366002",
        "ptl, 0.5034091168963, 0.34248619021406, -0.136011232711, 1.17954499508, 2.37375034392",
        "ht, 1.7121697819407, 0.68135759202221, 0.461484500166, 3.07458857114, 7.18617930486",
        "ui, 0.7362392832600, 0.45589771087987, -0.144250059383, 1.60824590137, 2.70230676759"
    })
    void penalisedCoefficientsAgreeWithTheReference(
            String name, double estimate, double se, double lower, double upper, double ratio) {
        // the reference is an optimiser without derivatives: some 6 digits
        Coefficient c = penalised.coefficient(name);
        assertThat(c.estimate()).isCloseTo(estimate, within(2e-5 * se));
        assertThat(c.se()).isCloseTo(se, digits(se, 1e-5));
        assertThat(c.profile()).isNotNull();
        assertThat(c.profile().lower()).isCloseTo(lower, within(1e-4 * se));
        assertThat(c.profile().upper()).isCloseTo(upper, within(1e-4 * se));
        assertThat(c.likelihoodRatio()).isCloseTo(ratio, within(1e-5));
    }

    /** The covariance is symmetric and holds the squared standard errors; two covariances by R (expected.R). */
    @Test
    void covarianceBelongsToTheStandardErrors() {
        for (int j = 0; j < 9; j++) {
            double se = fit.coefficients().get(j).se();
            assertThat(fit.covariance()[j][j]).isCloseTo(se * se, digits(se * se, 1e-9));
            for (int i = 0; i < j; i++) {
                assertThat(fit.covariance()[i][j])
                        .isCloseTo(fit.covariance()[j][i], digits(fit.covariance()[j][i], 1e-12));
            }
        }
        assertThat(fit.covariance()[1][2]).isCloseTo(-3.33555190529e-05, within(1e-14));
        assertThat(fit.covariance()[0][2]).isCloseTo(-0.00526928009166, within(1e-12));
    }

    @Test
    void theMethodIsNamed() {
        assertThat(fit.method().words()).isEqualTo("logistic regression by maximum likelihood");
        assertThat(fit.predict(new double[8], 0.95).method()).contains("maximum likelihood");
        assertThat(penalised.method().words()).contains("Firth");
    }

    /** Ten of the rarer outcome for each term are enough not to be warned. */
    @Test
    void fewEventsForTheTermsAreWarnedOf() {
        for (int rarer : new int[] {9, 10}) {
            for (boolean turned : new boolean[] {false, true}) {
                double[] x = new double[40];
                double[] y = new double[40];
                for (int i = 0; i < 40; i++) {
                    x[i] = i % 7;
                    y[i] = (i < rarer) == turned ? 0 : 1;
                }
                assertThat(new LogisticRegression(MAXIMUM_LIKELIHOOD, 0.95, false)
                                .fit(new CaseOutcomes(y, List.of(Term.number("x", x))))
                                .orElseThrow()
                                .warnings())
                        .hasSize(rarer < 10 ? 1 : 0);
            }
        }
    }

    /** The most cases that are too few, and the fewest that are not. */
    @Test
    void oneCaseMoreThanCoefficientsIsEnough() {
        assertThat(refusal(TestData.of("0 1", new double[] {1, 2})).reason()).isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(refusal(TestData.of("0 1 0", new double[] {1, 2, 4}, new double[] {1, 2, 3}))
                        .reason())
                .isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(new LogisticRegression(MAXIMUM_LIKELIHOOD, 0.95, false)
                        .fit(TestData.of("0 1 0", new double[] {1, 2, 3})))
                .isInstanceOf(Outcome.Found.class);
    }

    @Test
    void penalisedFitHasNoAic() {
        assertThat(penalised.aic()).isNull();
        assertThat(penalised.deviance()).isGreaterThan(fit.deviance());
        assertThat(penalised.nullDeviance()).isEqualTo(fit.nullDeviance());
    }

    /** The same script: predict with se.fit on the log odds. */
    @Test
    void riskOfANewCase() {
        Estimate risk = fit.predict(new double[] {30, 120, 1, 0, 1, 0, 0, 1}, 0.95);
        double link = 0.775567397161;
        double se = 0.74793706767;
        assertThat(risk.value()).isCloseTo(0.684724001181, within(1e-11));
        assertThat(risk.se()).isCloseTo(se * 0.684724001181 * (1 - 0.684724001181), within(1e-10));
        assertThat(risk.limits()).isNotNull();
        double z = 1.959963984540054;
        assertThat(risk.limits().lower()).isCloseTo(1 / (1 + Math.exp(-(link - z * se))), within(1e-10));
        assertThat(risk.limits().upper()).isCloseTo(1 / (1 + Math.exp(-(link + z * se))), within(1e-10));
        assertThatThrownBy(() -> fit.predict(new double[] {1}, 0.95)).hasMessageContaining("1 values for 8 terms");
        assertThatThrownBy(() -> fit.coefficient("none")).hasMessageContaining("none");
    }

    /** One 0/1 term: the estimate is the log odds ratio of the fourfold table, its variance Σ 1/n (Woolf 1955). */
    @Test
    void fourfoldTableInClosedForm() {
        double[] x = new double[40];
        double[] y = new double[40];
        for (int i = 0; i < 40; i++) {
            x[i] = i < 15 ? 1 : 0;
            y[i] = i < 9 || (i >= 15 && i < 20) ? 1 : 0;
        }
        LogisticFit table = new LogisticRegression(MAXIMUM_LIKELIHOOD, 0.9, false)
                .fit(new CaseOutcomes(y, List.of(Term.number("x", x))))
                .orElseThrow();
        Coefficient c = table.coefficient("x");
        assertThat(c.estimate()).isCloseTo(Math.log(9.0 * 20 / (6 * 5)), within(1e-12));
        assertThat(c.se()).isCloseTo(Math.sqrt(1 / 9.0 + 1 / 6.0 + 1 / 5.0 + 1 / 20.0), within(1e-12));
        assertThat(table.risk()[0]).isCloseTo(0.6, within(1e-12));
        assertThat(table.risk()[39]).isCloseTo(0.2, within(1e-12));
        assertThat(c.wald().level()).isEqualTo(0.9);
    }

    /** Firth's estimate in a fourfold table is that with ½ added to each cell (Heinze & Schemper 2002, section 2.2). */
    @Test
    void firthInAFourfoldTableAddsHalfToEachCell() {
        double[] x = {1, 1, 1, 1, 1, 0, 0, 0, 0};
        double[] y = {1, 1, 1, 1, 1, 1, 0, 0, 0};
        LogisticFit fit = new LogisticRegression(FIRTH, 0.95, true)
                .fit(new CaseOutcomes(y, List.of(Term.number("x", x))))
                .orElseThrow();
        assertThat(fit.coefficient("x").estimate()).isCloseTo(Math.log(5.5 * 3.5 / (0.5 * 1.5)), within(1e-9));
        assertThat(fit.coefficient("intercept").estimate()).isCloseTo(Math.log(1.5 / 3.5), within(1e-9));
        assertThat(fit.separation().kind()).isEqualTo(Separation.Kind.QUASI_COMPLETE);
        assertThat(fit.warnings()).anyMatch(w -> w.contains("quasi-complete separation: x tells some of the cases"));
    }

    /** Intercept alone: the log odds of the share; profile limits are those of the binomial likelihood ratio. */
    @Test
    void modelWithoutTerms() {
        LogisticFit fit = new LogisticRegression(MAXIMUM_LIKELIHOOD, 0.95, true)
                .fit(TestData.of("1 0 0 0 1 0 0 0"))
                .orElseThrow();
        Coefficient c = fit.coefficient("intercept");
        assertThat(c.estimate()).isCloseTo(Math.log(2 / 6.0), within(1e-12));
        assertThat(c.se()).isCloseTo(Math.sqrt(1 / 2.0 + 1 / 6.0), within(1e-12));
        assertThat(c.likelihoodRatio())
                .isCloseTo(2 * (2 * Math.log(0.25 / 0.5) + 6 * Math.log(0.75 / 0.5)), within(1e-10));
        assertThat(c.profile()).isNotNull();
        for (double limit : new double[] {c.profile().lower(), c.profile().upper()}) {
            double p = 1 / (1 + Math.exp(-limit));
            assertThat(2 * (2 * Math.log(0.25 / p) + 6 * Math.log(0.75 / (1 - p))))
                    .isCloseTo(3.841458820694124, within(1e-8));
        }
        assertThat(fit.warnings()).isEmpty();
    }

    private static Refusal refusal(CaseOutcomes data) {
        Outcome<LogisticFit> outcome = new LogisticRegression(MAXIMUM_LIKELIHOOD, 0.95, true).fit(data);
        assertThat(outcome).isInstanceOf(Outcome.Refused.class);
        return ((Outcome.Refused<LogisticFit>) outcome).refusal();
    }

    @Test
    void unfitDataAreRefused() {
        Refusal few = refusal(TestData.of("1 0", new double[] {1, 2}));
        assertThat(few.reason()).isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(few.why()).isEqualTo("there are 2 cases for 2 coefficients");
        Refusal none = refusal(TestData.of("0 0 0", new double[] {1, 2, 4}));
        assertThat(none.reason()).isEqualTo(Refusal.Reason.NO_VARIATION);
        assertThat(none.why()).isEqualTo("none of the 3 cases had the event");
        assertThat(refusal(TestData.of("1 1 1", new double[] {1, 2, 4})).why())
                .isEqualTo("all of the 3 cases had the event");
        Refusal constant = refusal(TestData.of("1 0 1 0 0", new double[] {3, 3, 3, 3, 3}));
        assertThat(constant.reason()).isEqualTo(Refusal.Reason.NOT_IDENTIFIED);
        assertThat(constant.why()).startsWith("x1 does not vary");
        Refusal twice =
                refusal(TestData.of("1 0 1 0 0 1", new double[] {1, 2, 3, 3, 1, 2}, new double[] {3, 5, 7, 7, 3, 5}));
        assertThat(twice.why()).startsWith("x2 does not vary, or follows");
        Refusal separated = refusal(TestData.of("0 0 1 1", new double[] {1, 2, 3, 4}));
        assertThat(separated.reason()).isEqualTo(Refusal.Reason.SEPARATED);
        assertThat(separated.why())
                .isEqualTo("complete separation: x1 tells every case with the event from those without,"
                        + " so that maximum likelihood has no finite estimate");
        assertThat(separated.remedy()).contains("Firth");
    }

    @Test
    void impossibleInputIsAProgrammingError() {
        assertThatThrownBy(() -> TestData.of("2 0")).hasMessageContaining("0 or 1");
        assertThatThrownBy(() -> TestData.of("1 0", new double[] {1})).hasMessageContaining("1 values for 2 cases");
        assertThatThrownBy(() -> Term.number("x", Double.NaN)).hasMessageContaining("not a finite value");
        Factor factor = Factor.of("f", List.of("a", "b"));
        assertThatThrownBy(() -> Term.indicators(factor, "c")).hasMessageContaining("f has no level c");
    }

    @Test
    void aFactorOfNumbersIsANumberAndAnyOtherIndicators() {
        List<Term> number = Term.of(Factor.of("f", List.of("−1.5", "2", "2")));
        assertThat(number).hasSize(1);
        assertThat(number.get(0).values()).containsExactly(-1.5, 2, 2);
        assertThat(number.get(0).name()).isEqualTo("f");
        List<Term> levels = Term.of(Factor.of("f", List.of("c", "a", "b", "c")));
        assertThat(levels).extracting(Term::name).containsExactly("f=b", "f=c");
        assertThat(levels.get(1).values()).containsExactly(1, 0, 0, 1);
        assertThat(Term.indicators(Factor.of("f", List.of("1", "2")), "2"))
                .extracting(Term::name)
                .containsExactly("f=1");
    }

    /** Adding a constant to a term, or its unit, changes nothing but that coefficient and the intercept. */
    @Property(tries = 20)
    void fitDoesNotDependOnUnitOrOrder(@ForAll @IntRange(min = 1, max = 50) int factor, @ForAll boolean firth) {
        CaseOutcomes data = TestData.read("infert.csv");
        int n = data.size();
        List<Term> terms =
                List.of(data.terms().get(0), data.terms().get(1), data.terms().get(4));
        List<Term> changed = List.of(
                terms.get(2),
                Term.number(
                        "age",
                        Arrays.stream(terms.get(0).values())
                                .map(v -> 7 * factor - v * factor)
                                .toArray()),
                terms.get(1));
        LogisticRegression method = new LogisticRegression(firth ? FIRTH : MAXIMUM_LIKELIHOOD, 0.95, false);
        LogisticFit first = method.fit(new CaseOutcomes(data.outcome(), terms)).orElseThrow();
        LogisticFit second =
                method.fit(new CaseOutcomes(data.outcome(), changed)).orElseThrow();
        assertThat(second.coefficient("age").estimate() * factor)
                .isCloseTo(-first.coefficient("age").estimate(), within(1e-9));
        assertThat(second.coefficient("parity").se())
                .isCloseTo(first.coefficient("parity").se(), within(1e-9));
        assertThat(second.deviance()).isCloseTo(first.deviance(), within(1e-8));
        for (int i = 0; i < n; i++) {
            assertThat(first.risk()[i]).isGreaterThan(0).isLessThan(1);
            assertThat(second.risk()[i]).isCloseTo(first.risk()[i], within(1e-9));
        }
    }
}
