package org.sideport.stats.agreement;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.function.Function;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Estimate;
import org.sideport.stats.Interval;
import org.sideport.stats.Outcome;
import org.sideport.stats.QuantileType;
import org.sideport.stats.Quantiles;
import org.sideport.stats.Refusal;
import org.sideport.stats.data.Factor;
import org.sideport.stats.resample.Bootstrap;
import org.sideport.stats.variance.Reml;
import org.sideport.stats.variance.VarianceComponents;

/**
 * Intraclass correlations of a table with gaps: variance components by restricted maximum likelihood, the coefficients from
 * them ({@link IccFromComponents}). No scores are thrown away; that a score is missing must not depend on what it would have
 * been.
 *
 * <p>Limits: scores are drawn anew from the fitted model into the same cells, and the coefficient fitted again; the
 * bias-corrected percentiles (Efron 1981, Canadian Journal of Statistics 9:139) of these are the limits. They rest on normal
 * errors, as the exact limits of a complete table do. In simulated tables of 10 × 3 and 30 × 4 with a quarter missing, 95 %
 * limits held the truth in 91 to 96 % of cases.
 */
public final class IncompleteIcc {

    /** Limits from fewer fits than this would be noise. */
    private static final double SHARE_THAT_MUST_FIT = 0.9;

    private IncompleteIcc() {}

    /**
     * @param table with or without gaps
     * @param bootstrap how many fits the limits rest on, their seed and level
     * @return refused with fewer than two subjects with two scores, with fewer than two raters, or for the fit's reasons
     */
    public static Outcome<IccTable> of(RatingMatrix table, Bootstrap bootstrap) {
        Cells cells = Cells.of(table);
        if (cells.subjects.size() < 2 || cells.raters.size() < 2 || cells.scoredTwice < 2) {
            return Outcome.refused(
                    Refusal.Reason.TOO_FEW,
                    "there are " + cells.raters.size() + " raters and " + cells.scoredTwice
                            + " subjects with two scores",
                    "at least 2 of each are needed; for useful limits 10 subjects or more");
        }
        double k = table.harmonicMeanRaters();
        List<String> warnings = new ArrayList<>();
        warnings.add(table.missingCells() + " of "
                + (table.subjects().size() * (long) table.raters().size())
                + " scores are missing: the figures come from variance components by restricted maximum likelihood, and k is"
                + String.format(Locale.ROOT, " %.2f, the harmonic mean of the raters of each subject.", k));
        if (cells.subjects.size() < 10) {
            warnings.add("There are only " + cells.subjects.size() + " subjects: the limits are wide for that reason.");
        }
        Outcome<VarianceComponents> two = Reml.fit(cells.values, List.of(cells.subjects, cells.raters));
        boolean nested = two instanceof Outcome.Refused<VarianceComponents> refused
                && refused.refusal().reason() == Refusal.Reason.NOT_IDENTIFIED;
        if (nested) {
            warnings.add("The gaps leave no way to tell severity from chance (the raters share no subjects), so only"
                    + " ICC(1,1) and ICC(1,k) can be given.");
        } else if (two instanceof Outcome.Refused<VarianceComponents> refused) {
            return new Outcome.Refused<>(refused.refusal());
        }
        Outcome<VarianceComponents> one = Reml.fit(cells.values, List.of(cells.subjects));
        return one.flatMap(oneWay -> {
            List<IccEstimate> estimates = new ArrayList<>(
                    new Refit(cells, List.of(cells.subjects), oneWay, c -> oneWay(c, k), bootstrap).estimates());
            @Nullable TwoWayComponents components = null;
            if (two instanceof Outcome.Found<VarianceComponents> found) {
                components = components(found.value(), k);
                estimates.addAll(new Refit(
                                cells,
                                List.of(cells.subjects, cells.raters),
                                found.value(),
                                c -> IccFromComponents.twoWay(components(c, k)),
                                bootstrap)
                        .estimates());
                found.value().warnings().forEach(warning -> warnings.add(sentence(warning)));
            }
            estimates.sort(Comparator.comparing(IccEstimate::form));
            return Outcome.of(new IccTable(
                    cells.subjects.size(),
                    cells.raters.size(),
                    cells.values.length,
                    null,
                    components,
                    estimates,
                    warnings));
        });
    }

    private static String sentence(String words) {
        return Character.toUpperCase(words.charAt(0)) + words.substring(1) + ".";
    }

    private static TwoWayComponents components(VarianceComponents c, double k) {
        return new TwoWayComponents(
                c.components().get(0).variance(),
                c.components().get(1).variance(),
                c.residual().variance(),
                k);
    }

    private static Outcome<Map<IccForm, Double>> oneWay(VarianceComponents c, double k) {
        return IccFromComponents.oneWay(
                c.components().get(0).variance(), c.residual().variance(), k);
    }

    /** The scores that there are, in long form. */
    @SuppressWarnings("ArrayRecordComponent")
    private record Cells(double[] values, Factor subjects, Factor raters, int scoredTwice) {

        static Cells of(RatingMatrix table) {
            List<Double> values = new ArrayList<>();
            List<String> subjects = new ArrayList<>();
            List<String> raters = new ArrayList<>();
            int twice = 0;
            for (int i = 0; i < table.scores().length; i++) {
                int present = 0;
                for (int j = 0; j < table.raters().size(); j++) {
                    if (!Double.isNaN(table.scores()[i][j])) {
                        values.add(table.scores()[i][j]);
                        subjects.add(table.subjects().get(i));
                        raters.add(table.raters().get(j));
                        present++;
                    }
                }
                twice += present > 1 ? 1 : 0;
            }
            return new Cells(
                    values.stream().mapToDouble(Double::doubleValue).toArray(),
                    Factor.of("subject", subjects),
                    Factor.of("rater", raters),
                    twice);
        }
    }

    /** One model, fitted to the scores and to scores drawn from it. */
    private record Refit(
            Cells cells,
            List<Factor> factors,
            VarianceComponents fit,
            Function<VarianceComponents, Outcome<Map<IccForm, Double>>> coefficients,
            Bootstrap bootstrap) {

        List<IccEstimate> estimates() {
            if (!(coefficients.apply(fit) instanceof Outcome.Found<Map<IccForm, Double>> found)) {
                return List.of();
            }
            double[][] drawn = drawn();
            List<IccEstimate> estimates = new ArrayList<>();
            found.value().forEach((form, value) -> {
                double[] replicates = drawn[form.ordinal()];
                @Nullable
                Interval limits = replicates.length < SHARE_THAT_MUST_FIT * bootstrap.resamples()
                        ? null
                        : limits(value, replicates);
                List<String> warnings = limits == null
                        ? List.of("Scores drawn from the model could too seldom be fitted for limits.")
                        : List.of();
                String method = form.shroutFleiss() + " of Shrout and Fleiss, " + form.mcGrawWong()
                        + " of McGraw and Wong, from REML variance components; limits by parametric bootstrap";
                estimates.add(new IccEstimate(
                        form, new Estimate(value, null, limits, cells.subjects.size(), method, warnings), null));
            });
            return estimates;
        }

        /** For each form, by its ordinal, the coefficients of the drawings that could be fitted, ascending. */
        private double[][] drawn() {
            double[][] all = new double[IccForm.values().length][bootstrap.resamples()];
            SplittableRandom random = new SplittableRandom(bootstrap.seed());
            int kept = 0;
            for (int b = 0; b < bootstrap.resamples(); b++) {
                Outcome<Map<IccForm, Double>> again =
                        Reml.fit(scores(random), factors).flatMap(coefficients);
                if (again instanceof Outcome.Found<Map<IccForm, Double>> found) {
                    for (Map.Entry<IccForm, Double> each : found.value().entrySet()) {
                        all[each.getKey().ordinal()][kept] = each.getValue();
                    }
                    kept++;
                }
            }
            for (int form = 0; form < all.length; form++) {
                all[form] = Arrays.copyOf(all[form], kept);
                Arrays.sort(all[form]);
            }
            return all;
        }

        private double[] scores(SplittableRandom random) {
            double[] scores = new double[cells.values.length];
            double residual = Math.sqrt(fit.residual().variance());
            for (int i = 0; i < scores.length; i++) {
                scores[i] = residual * random.nextGaussian();
            }
            for (int f = 0; f < factors.size(); f++) {
                Factor factor = factors.get(f);
                double sd = Math.sqrt(fit.components().get(f).variance());
                double[] effects = new double[factor.size()];
                for (int level = 0; level < effects.length; level++) {
                    effects[level] = sd * random.nextGaussian();
                }
                for (int i = 0; i < scores.length; i++) {
                    scores[i] += effects[factor.codes()[i]];
                }
            }
            return scores;
        }

        private Interval limits(double value, double[] sorted) {
            NormalDistribution normal = new NormalDistribution();
            double below = 0;
            for (double each : sorted) {
                below += each < value ? 1 : each == value ? 0.5 : 0;
            }
            double bias = normal.inverseCumulativeProbability(
                    Math.min(Math.max(below, 0.5), sorted.length - 0.5) / sorted.length);
            double z = normal.inverseCumulativeProbability(0.5 + bootstrap.level() / 2);
            return new Interval(
                    Quantiles.ofSorted(sorted, normal.cumulativeProbability(2 * bias - z), QuantileType.WEIBULL),
                    Quantiles.ofSorted(sorted, normal.cumulativeProbability(2 * bias + z), QuantileType.WEIBULL),
                    bootstrap.level());
        }
    }
}
