package org.sideport.stats.casemix;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.hipparchus.linear.RealMatrix;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.casemix.LogisticLikelihood.Maximum;

/**
 * Logistic regression of an outcome on what was known before: {@code log(p / (1 − p)) = β₀ + Σ βⱼ xⱼ} (Hosmer, Lemeshow &
 * Sturdivant 2013, Applied Logistic Regression, 3rd ed., chapter 2). The cases must be independent, and each outcome
 * either 0 or 1.
 *
 * @param method see there
 * @param level of the limits, for instance 0.95
 * @param profiles whether to find profile limits and likelihood ratio tests, at the cost of some twenty fits for each
 *     coefficient
 */
public record LogisticRegression(LogisticMethod method, double level, boolean profiles) {

    /** A rule of thumb: Peduzzi et al. 1996, Journal of Clinical Epidemiology 49:1373. */
    static final int EVENTS_PER_TERM = 10;

    private static final double DEPENDENT = 1e-9;

    /**
     * @return refused if all outcomes are equal, there are not more cases than coefficients, a term is a combination of
     *     those before it, or (maximum likelihood) the outcomes are separated
     */
    public Outcome<LogisticFit> fit(CaseOutcomes data) {
        int k = data.terms().size() + 1;
        int n = data.size();
        int events = data.events();
        if (n <= k) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "there are " + n + " cases for " + k + " coefficients",
                    "collect more cases or use fewer factors");
        }
        if (events == 0 || events == n) {
            return Outcome.refused(
                    Refusal.Reason.NO_VARIATION,
                    events == 0
                            ? "none of the " + n + " cases had the event"
                            : "all of the " + n + " cases had the event",
                    "collect cases until both outcomes occur");
        }
        double[][] columns = data.columns();
        int dependent = firstDependent(columns);
        if (dependent >= 0) {
            return Outcome.refused(
                    Refusal.Reason.NOT_IDENTIFIED,
                    data.terms().get(dependent - 1).name() + " does not vary, or follows from the factors before it",
                    "leave it out");
        }
        Separation separation = Separation.of(data);
        if (method == LogisticMethod.MAXIMUM_LIKELIHOOD && separation.kind() != Separation.Kind.NONE) {
            return Outcome.refused(
                    Refusal.Reason.SEPARATED,
                    separation.words() + ", so that maximum likelihood has no finite estimate",
                    "use Firth's penalised likelihood, join levels, or collect more cases");
        }
        LogisticLikelihood likelihood =
                new LogisticLikelihood(columns, data.outcome(), new double[n], method == LogisticMethod.FIRTH);
        @Nullable Maximum maximum = likelihood.maximise(new double[k], -1);
        if (maximum == null) {
            return Outcome.refused(
                    Refusal.Reason.NOT_CONVERGED,
                    "the iteration did not come to rest with " + n + " cases and " + k + " coefficients",
                    "use fewer factors or join levels that few cases have");
        }
        return Outcome.of(result(data, likelihood, maximum, separation));
    }

    private LogisticFit result(
            CaseOutcomes data, LogisticLikelihood likelihood, Maximum maximum, Separation separation) {
        int n = data.size();
        int events = data.events();
        int k = maximum.beta().length;
        double[][] covariance = new double[k][k];
        for (int a = 0; a < k; a++) {
            for (int b = 0; b < k; b++) {
                covariance[a][b] = maximum.covariance().getEntry(a, b) / likelihood.scale(a) / likelihood.scale(b);
            }
        }
        List<Coefficient> coefficients = new ArrayList<>();
        for (int j = 0; j < k; j++) {
            coefficients.add(coefficient(data, likelihood, maximum, j));
        }
        List<String> warnings = new ArrayList<>();
        int rarer = Math.min(events, n - events);
        if (k > 1 && rarer < EVENTS_PER_TERM * (k - 1)) {
            warnings.add("The rarer outcome occurred " + rarer + " times for " + (k - 1)
                    + " terms; with fewer than about " + EVENTS_PER_TERM
                    + " for each term the estimates are unsteady and look too good on their own data.");
        }
        if (separation.kind() != Separation.Kind.NONE) {
            warnings.add("There is " + separation.words()
                    + "; the estimates are finite by the penalty only, read the profile limits.");
        }
        if (profiles && coefficients.stream().anyMatch(c -> c.profile() == null)) {
            warnings.add("Some profile limits could not be found; Wald's limits stand in their place.");
        }
        double[] risk = likelihood.linearPredictor(maximum.beta());
        for (int i = 0; i < n; i++) {
            risk[i] = LogisticLikelihood.probability(risk[i]);
        }
        double p = (double) events / n;
        return new LogisticFit(
                method,
                n,
                events,
                coefficients,
                covariance,
                maximum.logLikelihood(),
                -2 * maximum.logLikelihood(),
                -2 * (events * Math.log(p) + (n - events) * Math.log1p(-p)),
                risk,
                separation,
                maximum.steps(),
                warnings);
    }

    private Coefficient coefficient(CaseOutcomes data, LogisticLikelihood likelihood, Maximum maximum, int j) {
        RealMatrix covariance = maximum.covariance();
        double scale = likelihood.scale(j);
        double estimate = maximum.beta()[j] / scale;
        double se = Math.sqrt(covariance.getEntry(j, j)) / scale;
        @Nullable Interval profile = null;
        @Nullable Double ratio = null;
        if (profiles) {
            LikelihoodProfile along = new LikelihoodProfile(likelihood, maximum, j);
            profile = along.limits(se, level);
            ratio = along.ratioAtZero();
        }
        return of(j == 0 ? null : data.terms().get(j - 1), estimate, se, level, profile, ratio);
    }

    static Coefficient of(
            @Nullable Term term,
            double estimate,
            double se,
            double level,
            @Nullable Interval profile,
            @Nullable Double ratio) {
        NormalDistribution normal = new NormalDistribution();
        double z = normal.inverseCumulativeProbability(0.5 + level / 2);
        return new Coefficient(
                term == null ? Term.INTERCEPT : term.factor(),
                term == null ? null : term.level(),
                estimate,
                se,
                estimate / se,
                2 * normal.cumulativeProbability(-Math.abs(estimate / se)),
                new Interval(estimate - z * se, estimate + z * se, level),
                profile,
                ratio,
                ratio == null ? null : (Double) ChiSquare.upperTail(ratio, 1));
    }

    /** By modified Gram-Schmidt; −1 if all columns are independent. */
    private static int firstDependent(double[][] columns) {
        List<double[]> basis = new ArrayList<>();
        for (int j = 0; j < columns.length; j++) {
            double[] rest = columns[j].clone();
            double whole = norm(rest);
            for (double[] b : basis) {
                double dot = 0;
                for (int i = 0; i < rest.length; i++) {
                    dot += b[i] * rest[i];
                }
                for (int i = 0; i < rest.length; i++) {
                    rest[i] -= dot * b[i];
                }
            }
            double left = norm(rest);
            if (left <= DEPENDENT * whole) {
                return j;
            }
            for (int i = 0; i < rest.length; i++) {
                rest[i] /= left;
            }
            basis.add(rest);
        }
        return -1;
    }

    private static double norm(double[] values) {
        double sum = 0;
        for (double v : values) {
            sum += v * v;
        }
        return Math.sqrt(sum);
    }
}
