package org.sideport.stats.casemix;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Outcome;
import org.sideport.stats.Quantiles;
import org.sideport.stats.casemix.LogisticLikelihood.Maximum;

/**
 * Whether risks come true: of cases with a risk near 5 % some 5 in 100 should have the event.
 *
 * @param events expected and observed in all
 * @param groups by tenth of the risk, lowest first; fewer where risks are equal
 * @param hosmerLemeshow chi-square over the groups (Hosmer & Lemeshow 1980, Communications in Statistics A 9:1043);
 *     {@code null} with fewer than 3 groups
 * @param degreesOfFreedom groups less 2 for a model fitted to the same cases, else groups; {@code null} as above
 * @param p of the chi-square; {@code null} as above
 * @param brier mean of {@code (outcome − risk)²}
 * @param inTheLarge log odds by which all risks are too low (positive) or too high, the slope held at 1 (Cox 1958,
 *     Biometrika 45:562); {@code null} if it has no finite estimate
 * @param slope of the log odds of the outcome on those of the risk: 1 is right, below 1 the risks are too extreme;
 *     {@code null} if it has no finite estimate
 */
public record RiskCalibration(
        ExpectedEvents events,
        List<Group> groups,
        @Nullable Double hosmerLemeshow,
        @Nullable Integer degreesOfFreedom,
        @Nullable Double p,
        double brier,
        @Nullable Coefficient inTheLarge,
        @Nullable Coefficient slope,
        List<String> warnings) {

    private static final int GROUPS = 10;

    /**
     * Cases of similar risk.
     *
     * @param from lowest risk met
     * @param to highest risk met
     * @param n cases
     * @param observed events
     * @param expected sum of the risks
     */
    public record Group(double from, double to, int n, int observed, double expected) {}

    public RiskCalibration {
        groups = List.copyOf(groups);
        warnings = List.copyOf(warnings);
    }

    /**
     * @param risk between 0 and 1, at least one
     * @param outcome 0 or 1
     * @param fittedToThese whether the risks come from a model of these same cases
     */
    public static RiskCalibration of(double[] risk, double[] outcome, boolean fittedToThese, double level) {
        ExpectedEvents events = ExpectedEvents.of(risk, outcome, level);
        List<Group> groups = groups(risk, outcome);
        @Nullable Double chiSquare = null;
        @Nullable Integer df = null;
        if (groups.size() >= 3) {
            chiSquare = groups.stream().mapToDouble(RiskCalibration::misfit).sum();
            df = groups.size() - (fittedToThese ? 2 : 0);
        }
        double brier = 0;
        for (int i = 0; i < risk.length; i++) {
            brier += (outcome[i] - risk[i]) * (outcome[i] - risk[i]) / risk.length;
        }
        double[] logit =
                Arrays.stream(risk).map(p -> Math.log(p) - Math.log1p(-p)).toArray();
        List<String> warnings = new ArrayList<>(events.ratio().warnings());
        if (chiSquare != null && groups.stream().anyMatch(g -> Math.min(g.expected(), g.n() - g.expected()) < 5)) {
            warnings.add("Some tenths expect fewer than 5 cases with or without the event: the chi-square is rough.");
        }
        if (fittedToThese) {
            warnings.add("The risks come from a model of these same cases, so they agree with them better than they"
                    + " will with new ones.");
        }
        return new RiskCalibration(
                events,
                groups,
                chiSquare,
                df,
                chiSquare == null || df == null ? null : (Double) ChiSquare.upperTail(chiSquare, df),
                brier,
                inTheLarge(logit, outcome, level),
                slope(logit, outcome, level),
                warnings);
    }

    private static double misfit(Group g) {
        double d = g.observed() - g.expected();
        return d * d / g.expected() + d * d / (g.n() - g.expected());
    }

    /** Cut at the tenths of the risks (quantiles of type 7), a case on a cut going to the lower group. */
    private static List<Group> groups(double[] risk, double[] outcome) {
        double[] sorted = risk.clone();
        Arrays.sort(sorted);
        double[] cuts = new double[GROUPS];
        for (int g = 0; g < GROUPS; g++) {
            cuts[g] = g == GROUPS - 1
                    ? sorted[sorted.length - 1]
                    : Quantiles.type7Sorted(sorted, (g + 1) / (double) GROUPS);
        }
        int[] n = new int[GROUPS];
        int[] observed = new int[GROUPS];
        double[] expected = new double[GROUPS];
        double[] from = new double[GROUPS];
        double[] to = new double[GROUPS];
        Arrays.fill(from, 1);
        for (int i = 0; i < risk.length; i++) {
            int g = 0;
            while (risk[i] > cuts[g]) {
                g++;
            }
            n[g]++;
            observed[g] += (int) outcome[i];
            expected[g] += risk[i];
            from[g] = Math.min(from[g], risk[i]);
            to[g] = Math.max(to[g], risk[i]);
        }
        List<Group> groups = new ArrayList<>();
        for (int g = 0; g < GROUPS; g++) {
            if (n[g] > 0) {
                groups.add(new Group(from[g], to[g], n[g], observed[g], expected[g]));
            }
        }
        return groups;
    }

    private static @Nullable Coefficient inTheLarge(double[] logit, double[] outcome, double level) {
        int events = CaseOutcomes.events(outcome);
        if (events == 0 || events == outcome.length) {
            return null;
        }
        double[] ones = new double[outcome.length];
        Arrays.fill(ones, 1);
        @Nullable
        Maximum found =
                new LogisticLikelihood(new double[][] {ones}, outcome, logit, false).maximise(new double[1], -1);
        return found == null
                ? null
                : LogisticRegression.of(
                        null, found.beta()[0], Math.sqrt(found.covariance().getEntry(0, 0)), level, null, null);
    }

    private static @Nullable Coefficient slope(double[] logit, double[] outcome, double level) {
        Outcome<LogisticFit> fit = new LogisticRegression(LogisticMethod.MAXIMUM_LIKELIHOOD, level, false)
                .fit(new CaseOutcomes(outcome, List.of(Term.number("log odds", logit))));
        return fit instanceof Outcome.Found<LogisticFit> found ? found.value().coefficient("log odds") : null;
    }
}
