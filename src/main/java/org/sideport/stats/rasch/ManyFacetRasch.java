package org.sideport.stats.rasch;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import org.hipparchus.distribution.continuous.ChiSquaredDistribution;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.data.Factor;

/**
 * A many-facet Rasch analysis (Linacre 1989, Many-Facet Rasch Measurement): the log odds of level k against k − 1 are
 * {@code ability − severity − difficulty − step}, in logits. Severities and difficulties of those in the estimation add up
 * to 0 each.
 *
 * <p>How it is estimated, and why so. Joint maximum likelihood is biased as long as each trainee has few marks, and its
 * correction by (L − 1)/L (Wright & Douglas 1977) holds for complete tables of one facet only. Marginal likelihood needs
 * the abilities to be normal and the assessors to be met at random; with 10 to 40 trainees, of whom the weak ones are often
 * sent to the same assessor, neither can be relied on. So severities, difficulties and steps maximise the likelihood
 * conditional on each trainee's sum of scores, exactly for any pattern of missing marks, see {@link
 * ConditionalLikelihood}; it equals the linear logistic test, rating scale and partial credit models (Fischer 1973, Acta
 * Psychologica 37:359; Fischer & Ponocny 1994, Psychometrika 59:177) with a virtual item for each assessor and item. Only
 * comparisons within a trainee enter, so that no assumption on trainees is made. What bias is left to few trainees is
 * reduced, see {@link Estimation}. Trainees are then placed by Warm's
 * weighted likelihood, which is finite for extreme sums; their standard errors hold the uncertainty of the structure too.
 *
 * <p>Assumed: one skill, marks independent given it (marks of one operation by one assessor often are not: a halo makes
 * the standard errors too small), the same severity on all items and days. From below ten trainees the limits, which are
 * normal ones, are rough.
 *
 * @param n marks
 * @param used marks in the estimation of the structure
 * @param lowest level given
 * @param highest level given
 * @param steps none if only two levels were given
 * @param logLikelihood conditional, natural log
 * @param traineeSeparation {@code null} where it cannot be told; likewise the others
 */
public record ManyFacetRasch(
        StepModel model,
        Estimation estimation,
        int n,
        int used,
        int lowest,
        int highest,
        List<Measure> trainees,
        List<Measure> assessors,
        List<Measure> items,
        List<Step> steps,
        double logLikelihood,
        @Nullable Separation traineeSeparation,
        @Nullable Separation assessorSeparation,
        @Nullable Separation itemSeparation,
        @Nullable Homogeneity assessorsAlike,
        List<String> warnings) {

    /** Score points from the lowest to the highest level; more is a measurement, not a level. */
    private static final int MOST_POINTS = 50;

    public ManyFacetRasch {
        trainees = List.copyOf(trainees);
        assessors = List.copyOf(assessors);
        items = List.copyOf(items);
        steps = List.copyOf(steps);
        warnings = List.copyOf(warnings);
    }

    /**
     * @param estimation {@link Estimation#BIAS_REDUCED} for use
     * @param level of the limits, between 0 and 1
     * @return refused if there are fewer than two trainees with marks that tell, if all marks are the same, if the design
     *     falls apart (the parts are named), or if the marks order assessors or items without exception
     */
    public static Outcome<ManyFacetRasch> fit(Markings marks, StepModel model, Estimation estimation, double level) {
        if (!(level > 0 && level < 1)) {
            throw new IllegalArgumentException("level " + level);
        }
        int lowest = Arrays.stream(marks.levels()).min().orElse(0);
        int highest = Arrays.stream(marks.levels()).max().orElse(0);
        if (lowest == highest) {
            return Outcome.refused(
                    Refusal.Reason.NO_VARIATION,
                    marks.size() == 0 ? "there are no marks" : "all " + marks.size() + " marks are " + lowest,
                    "collect marks that differ");
        }
        UsableMarks usable = UsableMarks.of(marks, model);
        long inUse = IntStream.of(usable.rows()).map(marks::trainee).distinct().count();
        if (inUse < 2) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "only " + inUse + " of " + marks.trainees().size()
                            + " trainees have marks that differ once those who had or gave only top or only bottom marks"
                            + " are set aside",
                    "collect marks of more trainees, assessors and items");
        }
        for (int row : usable.rows()) {
            if (usable.categories(row).top() > MOST_POINTS) {
                return Outcome.refused(
                        Refusal.Reason.UNSUITABLE_DATA,
                        "levels from " + lowest + " to " + highest + " are "
                                + usable.categories(row).top() + " points apart, and levels are " + MOST_POINTS
                                + " at most",
                        "join neighbouring levels, or analyse these numbers as measurements");
            }
        }
        return Connectedness.check(usable).flatMap(tied -> {
            Parameters parameters = Parameters.of(tied);
            return ConditionalFit.of(tied, parameters, estimation)
                    .map(fit -> new Assembly(tied, parameters, fit, estimation, level).result());
        });
    }

    /** Puts the parts together. */
    private static final class Assembly {
        private final UsableMarks usable;
        private final Markings marks;
        private final Parameters parameters;
        private final ConditionalFit fit;
        private final Placement placed;
        private final FairAverage fair;
        private final Estimation estimation;
        private final double level;
        private final double normal;

        Assembly(UsableMarks usable, Parameters parameters, ConditionalFit fit, Estimation estimation, double level) {
            this.estimation = estimation;
            this.usable = usable;
            marks = usable.marks();
            this.parameters = parameters;
            this.fit = fit;
            this.level = level;
            normal = new NormalDistribution().inverseCumulativeProbability((1 + level) / 2);
            placed = new Placement(usable, parameters, fit);
            fair = new FairAverage(usable, parameters, fit);
        }

        ManyFacetRasch result() {
            double mean = placed.meanAbility();
            List<Measure> trainees = measures(
                    marks.trainees(),
                    usable.trainees(),
                    placed.ability,
                    placed.abilityError,
                    "weighted likelihood",
                    (i, logits) -> fair.overItems(logits));
            List<Measure> assessors = measures(
                    marks.assessors(),
                    usable.assessors(),
                    placed.severity,
                    placed.severityError,
                    estimation.label(),
                    (i, logits) -> fair.overItems(below(mean, logits)));
            List<Measure> items = measures(
                    marks.items(),
                    usable.items(),
                    placed.difficulty,
                    placed.difficultyError,
                    estimation.label(),
                    (i, logits) -> fair.onItem(below(mean, logits), i));
            List<Step> steps = steps();
            return new ManyFacetRasch(
                    usable.model(),
                    estimation,
                    marks.size(),
                    usable.rows().length,
                    Arrays.stream(marks.levels()).min().orElseThrow(),
                    Arrays.stream(marks.levels()).max().orElseThrow(),
                    trainees,
                    assessors,
                    items,
                    steps,
                    fit.logLikelihood(),
                    separation(trainees),
                    separation(assessors),
                    separation(items),
                    alike(),
                    new RaschWarnings(usable, trainees, assessors, items, steps).all());
        }

        private interface Fair {
            Estimate of(int code, Estimate logits);
        }

        private List<Measure> measures(
                Factor factor, Extreme[] extremes, double[] values, double[] errors, String method, Fair fairly) {
            MeanSquares.Sum[] fits = placed.fit(factor.codes(), factor.size());
            int[] counts = new int[factor.size()];
            double[] sums = new double[factor.size()];
            for (int row = 0; row < marks.size(); row++) {
                counts[factor.codes()[row]]++;
                sums[factor.codes()[row]] += marks.levels()[row];
            }
            List<Measure> measures = new ArrayList<>();
            for (int i = 0; i < values.length; i++) {
                @Nullable
                Estimate logits = Double.isNaN(values[i])
                        ? null
                        : estimate(
                                values[i],
                                errors[i],
                                counts[i],
                                extremes[i] == Extreme.NONE
                                        ? method
                                        : "weighted likelihood, the others taken as known");
                measures.add(new Measure(
                        factor.levels().get(i),
                        counts[i],
                        sums[i] / counts[i],
                        extremes[i],
                        logits,
                        fits[i].n() == 0 ? null : fits[i].meanSquares(),
                        logits == null ? null : fairly.of(i, logits)));
            }
            return measures;
        }

        /** Without an error where a facet has one member only, which stands at 0 by definition. */
        private Estimate estimate(double value, double error, int n, String method) {
            boolean fixed = error < 1e-7;
            return new Estimate(
                    fixed ? 0 : value,
                    fixed ? null : (Double) error,
                    fixed ? null : new Interval(value - normal * error, value + normal * error, level),
                    n,
                    fixed ? "the only one, 0 by definition" : method,
                    List.of());
        }

        private static Estimate below(double mean, Estimate logits) {
            Interval limits = logits.limits();
            return new Estimate(
                    mean - logits.value(),
                    logits.se(),
                    limits == null ? null : new Interval(mean - limits.upper(), mean - limits.lower(), limits.level()),
                    logits.n(),
                    logits.method(),
                    List.of());
        }

        private List<Step> steps() {
            List<Step> steps = new ArrayList<>();
            Set<Integer> seen = new HashSet<>();
            for (int i = 0; i < marks.items().size(); i++) {
                Categories c = usable.categories().get(i);
                if (parameters.items()[i] < 0 || c.size() < 3 || !seen.add(parameters.step(i, 1))) {
                    continue;
                }
                boolean shared = usable.model() == StepModel.RATING_SCALE;
                for (int k = 1; k < c.size(); k++) {
                    int gap = c.scores()[k] - c.scores()[k - 1];
                    double[] contrast = new double[parameters.size()];
                    for (int sign = 1; sign >= -1; sign -= 2) {
                        int place = parameters.step(i, sign > 0 ? k : k - 1);
                        if (place >= 0) {
                            contrast[place] += (double) sign / gap;
                        }
                    }
                    RealVector direction = new ArrayRealVector(contrast, false);
                    double variance = fit.covariance().operate(direction).dotProduct(direction);
                    int item = i;
                    int category = k;
                    int given = (int) IntStream.of(usable.rows())
                            .filter(row -> (shared || marks.item(row) == item) && usable.category(row) == category)
                            .count();
                    steps.add(new Step(
                            shared ? "all" : marks.items().levels().get(i),
                            c.level(k - 1),
                            c.level(k),
                            given,
                            estimate(
                                    direction.dotProduct(new ArrayRealVector(fit.values(), false)),
                                    Math.sqrt(variance),
                                    given,
                                    estimation.label())));
                }
            }
            return steps;
        }

        private static @Nullable Separation separation(List<Measure> measures) {
            List<double[]> pairs = new ArrayList<>();
            for (Measure measure : measures) {
                Estimate logits = measure.logits();
                Double se = logits == null ? null : logits.se();
                if (logits != null && se != null && measure.extreme() == Extreme.NONE) {
                    pairs.add(new double[] {logits.value(), se});
                }
            }
            Outcome<Separation> outcome = Separation.of(
                    pairs.stream().mapToDouble(p -> p[0]).toArray(),
                    pairs.stream().mapToDouble(p -> p[1]).toArray());
            return outcome instanceof Outcome.Found<Separation> found ? found.value() : null;
        }

        private @Nullable Homogeneity alike() {
            int df = parameters.assessorCount() - 1;
            if (df < 1) {
                return null;
            }
            RealMatrix covariance = fit.covariance().getSubMatrix(0, df - 1, 0, df - 1);
            RealVector severities = new ArrayRealVector(fit.values(), 0, df);
            double chiSquare = new CholeskyDecomposition(covariance, 1e-8, 1e-14)
                    .getSolver()
                    .solve(severities)
                    .dotProduct(severities);
            return new Homogeneity(chiSquare, df, 1 - new ChiSquaredDistribution(df).cumulativeProbability(chiSquare));
        }
    }
}
