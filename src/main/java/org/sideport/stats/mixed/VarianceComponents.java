package org.sideport.stats.mixed;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Interval;

/** Σ of a fit as SDs and correlations, and what to warn of. */
final class VarianceComponents {

    private VarianceComponents() {}

    static RandomEffects of(MixedFit fit) {
        double[][] covariance = fit.randomCovariance();
        List<Column> random = fit.data().random();
        int q = random.size();
        VarianceProfile profile = fit.options().profile() && q <= 2
                ? new VarianceProfile(fit.deviance().data(), fit.options().level())
                : null;
        List<RandomEffects.Component> components = new ArrayList<>();
        List<RandomEffects.Correlation> correlations = new ArrayList<>();
        double sigma = fit.solution().sigma();
        double[] sd = new double[q];
        for (int k = 0; k < q; k++) {
            // Below this share of σ a contribution is rounding.
            double typical = OrthonormalColumns.length(fit.deviance().data().tInverse[k]) * sigma;
            sd[k] = Math.sqrt(covariance[k][k]);
            sd[k] = sd[k] < 1e-7 * typical ? 0 : sd[k];
            components.add(
                    new RandomEffects.Component(random.get(k).name(), sd[k], profile == null ? null : profile.sd(k)));
            for (int j = 0; j < k; j++) {
                @Nullable Interval limits = profile == null ? null : profile.correlation();
                correlations.add(new RandomEffects.Correlation(
                        random.get(k).name(),
                        random.get(j).name(),
                        sd[k] > 0 && sd[j] > 0 ? (Double) correlation(covariance[k][j], sd[k], sd[j]) : null,
                        limits));
            }
        }
        return new RandomEffects(
                components,
                correlations,
                sigma,
                profile == null ? null : profile.residual(),
                MixedModel.isSingular(fit.solution().relativeCovariance()));
    }

    private static double correlation(double covariance, double a, double b) {
        return Math.max(-1, Math.min(1, covariance / (a * b)));
    }

    static List<String> warnings(RandomEffects effects, int subjects) {
        List<String> warnings = new ArrayList<>();
        if (effects.singular()) {
            warnings.add(
                    "the fit lies on the boundary (singular): " + boundary(effects)
                            + "; the data do not hold enough to tell these apart, so do not read them as measured; limits of a single subject may be too narrow");
        }
        if (subjects < 6) {
            warnings.add("with " + subjects + " subjects the variation between subjects is hardly known");
        }
        return warnings;
    }

    private static String boundary(RandomEffects effects) {
        List<String> parts = new ArrayList<>();
        effects.components().stream()
                .filter(c -> c.sd() == 0)
                .forEach(c -> parts.add("the variance of the random " + c.name() + " is estimated as zero"));
        effects.correlations().forEach(c -> {
            Double value = c.value();
            if (value != null && Math.abs(value) > 0.9999) {
                parts.add(String.format(
                        Locale.ROOT,
                        "the correlation of %s and %s is estimated as %.0f",
                        c.second(),
                        c.first(),
                        value));
            }
        });
        return parts.isEmpty() ? "a combination of the random effects has no variance" : String.join(", ", parts);
    }
}
