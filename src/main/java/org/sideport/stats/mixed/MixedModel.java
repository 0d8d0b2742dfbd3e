package org.sideport.stats.mixed;

import org.jspecify.annotations.Nullable;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;

/**
 * Linear mixed model with one grouping factor, random columns with a full covariance matrix, fitted by restricted or full
 * maximum likelihood (Laird & Ware 1982, Biometrics 38:963; profiled deviance of Bates, Mächler, Bolker & Walker 2015,
 * Journal of Statistical Software 67(1), equations 34 to 42).
 *
 * <p>Assumes: subjects are independent and a sample of those one speaks about; deviations and residuals are normal, the
 * residuals independent with one variance; observations are missing for reasons that have nothing to do with the value
 * missed. An evaluation of the deviance costs some operations for each subject, whatever the number of observations;
 * memory is linear in the observations.
 */
public final class MixedModel {

    /** With random effects as free as this SD ratio, what is left over is the scatter about each subject's own line. */
    private static final double FREE = 1e6;

    /** A scatter below this share of the squares that least squares leaves is rounding. */
    private static final double EXACT = 1e-12;

    private MixedModel() {}

    /**
     * Refuses below 3 subjects, if no subject has a second observation, with as many random effects as observations or
     * more, without variation, and with columns that others make up exactly (which it names).
     */
    public static Outcome<MixedFit> fit(MixedData data, MixedOptions options) {
        Refusal refusal = FitCheck.refusal(data);
        if (refusal != null) {
            return new Outcome.Refused<>(refusal);
        }
        CrossProducts products = new CrossProducts(data);
        double whole = OrthonormalColumns.dot(data.response(), data.response());
        if (products.yy <= 1e-24 * whole) {
            return Outcome.refused(
                    Refusal.Reason.NO_VARIATION,
                    "the fixed effects give all " + data.size() + " values exactly; nothing is left to vary",
                    "check the value column and the covariates");
        }
        Deviance deviance = new Deviance(products, options.criterion());
        double[][] free = Small.identity(products.q());
        for (int k = 0; k < free.length; k++) {
            free[k][k] = FREE;
        }
        if (deviance.solve(free).squares <= EXACT * products.yy) {
            return Outcome.refused(
                    Refusal.Reason.NO_VARIATION,
                    "each subject's values lie on a line of their own without any scatter",
                    "check whether the values were computed or copied; a model of chance does not apply to them");
        }
        FactorSearch.Found found = FactorSearch.search(deviance);
        if (!found.converged()) {
            return Outcome.refused(
                    Refusal.Reason.NOT_CONVERGED,
                    "the search for the variance components did not come to rest",
                    "leave the random slope or covariates out, or add observations");
        }
        return Outcome.of(new MixedFit(data, options, deviance, deviance.solve(found.factor())));
    }

    /**
     * Tests whether subjects differ in the last random column, by the criterion asked for: the model is fitted with and
     * without it.
     *
     * @return {@code null} where either fit is refused, or there is one random column only and it is not an intercept
     *     that can be left out by itself
     */
    static @Nullable SlopeVarianceTest lastColumnTest(MixedFit fit) {
        int q = fit.data().random().size();
        double without;
        if (q == 1) {
            without = fit.deviance().profiled(new double[1][1]);
        } else {
            Deviance smaller = new Deviance(
                    new CrossProducts(fit.data().withFirstRandom(q - 1)),
                    fit.options().criterion());
            FactorSearch.Found found = FactorSearch.search(smaller);
            if (!found.converged()) {
                return null;
            }
            without = found.deviance();
        }
        return SlopeVarianceTest.of(without, fit.criterion(), q);
    }

    /** Whether a relative covariance factor lies on the boundary, in units where each column has mean square one. */
    static boolean isSingular(double[][] relativeCovariance) {
        return Small.eigen(relativeCovariance).getEigenvalue(relativeCovariance.length - 1) < 1e-8;
    }
}
