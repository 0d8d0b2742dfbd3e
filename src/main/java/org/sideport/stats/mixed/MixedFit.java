package org.sideport.stats.mixed;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.hipparchus.distribution.continuous.TDistribution;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;

/** A fitted linear mixed model. Immutable. */
public final class MixedFit {

    private final MixedData data;
    private final MixedOptions options;
    private final Deviance deviance;
    private final Solution solution;
    private final double sigma;
    private final Satterthwaite satterthwaite;
    private final RandomEffects randomEffects;
    private final List<FixedEffect> fixedEffects;

    MixedFit(MixedData data, MixedOptions options, Deviance deviance, Solution solution) {
        this.data = data;
        this.options = options;
        this.deviance = deviance;
        this.solution = solution;
        this.sigma = solution.sigma();
        this.satterthwaite = new Satterthwaite(deviance, solution.factor(), sigma);
        this.randomEffects = VarianceComponents.of(this);
        this.fixedEffects = makeFixedEffects();
    }

    MixedData data() {
        return data;
    }

    MixedOptions options() {
        return options;
    }

    Deviance deviance() {
        return deviance;
    }

    Solution solution() {
        return solution;
    }

    /** Minus twice the log (restricted) likelihood at the optimum, constants included. */
    public double criterion() {
        return solution.profiled();
    }

    /** {@code reml} or {@code ml}. */
    public String criterionName() {
        return options.criterion().name().toLowerCase(java.util.Locale.ROOT);
    }

    /** Log (restricted) likelihood. */
    public double logLikelihood() {
        return -criterion() / 2;
    }

    /** Akaike's criterion; compare REML fits with the same fixed effects only. */
    public double aic() {
        int q = data.random().size();
        return criterion() + 2 * (data.fixed().size() + q * (q + 1) / 2.0 + 1);
    }

    /** Number of observations. */
    public int observations() {
        return data.size();
    }

    /** Number of subjects that have observations. */
    public int subjects() {
        return (int) java.util.Arrays.stream(data.countBySubject())
                .filter(c -> c > 0)
                .count();
    }

    /** In the order of the columns. */
    public List<FixedEffect> fixedEffects() {
        return fixedEffects;
    }

    /**
     * @throws IllegalArgumentException if there is no such fixed column
     */
    public FixedEffect fixedEffect(String name) {
        return fixedEffects.stream()
                .filter(f -> f.name().equals(name))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no fixed column " + name));
    }

    public RandomEffects randomEffects() {
        return randomEffects;
    }

    /** Σ: covariance of the random effects, in the order of their columns, in units of the response and the columns. */
    public double[][] randomCovariance() {
        double[][] tInverse = deviance.data().tInverse;
        return scaled(
                Small.multiply(Small.multiply(tInverse, solution.relativeCovariance()), Small.transpose(tInverse)));
    }

    /** Covariance matrix of the estimated fixed effects, in the order of the columns. */
    public double[][] fixedCovariance() {
        double[][] rInverse = deviance.data().rInverse;
        return scaled(Small.multiply(Small.multiply(rInverse, solution.c), Small.transpose(rInverse)));
    }

    private double[][] scaled(double[][] relative) {
        for (double[] row : relative) {
            for (int j = 0; j < row.length; j++) {
                row[j] *= sigma * sigma;
            }
        }
        return relative;
    }

    /** One for each subject with observations, in the order of the factor. */
    public List<SubjectEffect> subjectEffects() {
        return SubjectEffects.of(this);
    }

    /** Shares of variance explained. */
    public ExplainedVariance explainedVariance() {
        return ExplainedVariance.of(this);
    }

    /**
     * Intraclass correlation of the first random column, which should be the intercept: the share of the variance, at the
     * point where the other random columns are zero, that lies between subjects.
     */
    public Estimate intraclassCorrelation() {
        double between = randomCovariance()[0][0];
        return new Estimate(
                between / (between + sigma * sigma),
                null,
                null,
                subjects(),
                "intraclass correlation of the random " + data.random().get(0).name(),
                warnings());
    }

    /** Whether subjects differ in the last random column; {@code null} where the model without it could not be fitted. */
    public @Nullable SlopeVarianceTest slopeVarianceTest() {
        return MixedModel.lastColumnTest(this);
    }

    /** Residuals of each observation from its subject's own curve. */
    public ConditionalResiduals residuals() {
        return ConditionalResiduals.of(this);
    }

    /**
     * The population's expected value.
     *
     * @param fixed one number for each fixed column
     */
    public Estimate population(double... fixed) {
        double[] x = deviance.data().fixedContrast(check(fixed, data.fixed().size()));
        return estimate(fixedPart(x), (s, residual) -> s.variance(x) * residual * residual, "population, ");
    }

    /**
     * A subject's own expected value: population and predicted deviation, with limits that hold the uncertainty of both,
     * but not the scatter of a single observation.
     *
     * @param subject a level of the subject factor that has observations
     */
    public Estimate own(String subject, double[] fixed, double[] random) {
        int s = data.subject().levels().indexOf(subject);
        if (s < 0) {
            throw new IllegalArgumentException("no subject " + subject);
        }
        return own(s, fixed, random, false);
    }

    /** As {@link #own}, but the limits are those of one new observation. */
    public Estimate ownObservation(String subject, double[] fixed, double[] random) {
        int s = data.subject().levels().indexOf(subject);
        if (s < 0) {
            throw new IllegalArgumentException("no subject " + subject);
        }
        return own(s, fixed, random, true);
    }

    Estimate own(int s, double[] fixed, double[] random, boolean observation) {
        double[] x = deviance.data().fixedContrast(check(fixed, data.fixed().size()));
        double[] z = deviance.data().randomContrast(check(random, data.random().size()));
        double value = fixedPart(x) + OrthonormalColumns.dot(z, solution.blup(s));
        double scatter = observation ? 1 : 0;
        return estimate(
                value,
                (there, residual) -> (there.variance(x, z, s) + scatter) * residual * residual,
                observation ? "a new observation of the subject, " : "subject's own, ");
    }

    private static double[] check(double[] columns, int expected) {
        if (columns.length != expected) {
            throw new IllegalArgumentException(columns.length + " numbers for " + expected + " columns");
        }
        return columns;
    }

    private double fixedPart(double[] x) {
        return OrthonormalColumns.dot(x, solution.gamma) + OrthonormalColumns.dot(x, deviance.data().leastSquares);
    }

    /** What to know about the fit. */
    public List<String> warnings() {
        return VarianceComponents.warnings(randomEffects, subjects());
    }

    private List<FixedEffect> makeFixedEffects() {
        List<FixedEffect> effects = new ArrayList<>();
        for (int j = 0; j < data.fixed().size(); j++) {
            double[] contrast = new double[data.fixed().size()];
            contrast[j] = 1;
            double[] x = deviance.data().fixedContrast(contrast);
            Degrees df = degrees((s, residual) -> s.variance(x) * residual * residual);
            Estimate estimate = population(contrast);
            double t = estimate.value() / se(estimate);
            double p = 2 * new TDistribution(df.df).cumulativeProbability(-Math.abs(t));
            effects.add(new FixedEffect(data.fixed().get(j).name(), estimate, t, df.df, p));
        }
        return List.copyOf(effects);
    }

    private static double se(Estimate estimate) {
        Double se = estimate.se();
        return se == null ? Double.NaN : se;
    }

    private interface VarianceOf extends java.util.function.ToDoubleBiFunction<Solution, Double> {}

    private record Degrees(double df, String method) {}

    private Degrees degrees(VarianceOf variance) {
        OptionalDouble df = satterthwaite.degreesOfFreedom(variance);
        int residual = data.size() - data.fixed().size();
        return df.isPresent()
                ? new Degrees(df.getAsDouble(), "Satterthwaite degrees of freedom")
                : new Degrees(residual, "residual degrees of freedom (Satterthwaite's do not exist here)");
    }

    private Estimate estimate(double value, VarianceOf variance, String what) {
        double se = Math.sqrt(variance.applyAsDouble(solution, sigma));
        Degrees df = degrees(variance);
        double t = new TDistribution(df.df).inverseCumulativeProbability(0.5 + options.level() / 2);
        return new Estimate(
                value,
                se,
                new Interval(value - t * se, value + t * se, options.level()),
                subjects(),
                what + options.criterion() + ", t limits, " + df.method,
                List.of());
    }
}
