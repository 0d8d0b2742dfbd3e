package org.sideport.cli.stats;

import java.util.EnumSet;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.stats.monitoring.CusumDesign;
import org.sideport.stats.monitoring.EwmaDesign;
import org.sideport.stats.monitoring.RunRule;
import org.sideport.stats.monitoring.ValueRunLength;
import picocli.CommandLine.Option;

/** The parameters of a chart of measured values. */
final class ValueOptions {

    private static final double USUAL_K = 0.5;
    private static final double USUAL_H = 5;
    private static final double USUAL_WIDTH = 3;

    @Option(
            names = "--rules",
            paramLabel = "RULE,...",
            split = ",",
            hideParamSyntax = true,
            description =
                    "individuals: run rules beside the 3 SD limits: 2of3 (two of three beyond 2 SD on one side), 4of5"
                            + " (four of five beyond 1 SD), 8 (eight in a row on one side), or all. Each brings more false signals"
                            + " (default: none).")
    String[] rules = {};

    @Option(
            names = "--lambda",
            paramLabel = "L",
            defaultValue = "0.2",
            description = "ewma: weight of the newest case, above 0 to 1 (default: 0.2).")
    double lambda;

    @Option(
            names = "--steady",
            description = "ewma: limits of late cases from the start (default: limits that widen from case to case).")
    boolean steady;

    @Option(
            names = "--head-start",
            paramLabel = "F",
            defaultValue = "0",
            description = "cusum of values: where both sums start, in SD, below h; h/2 finds an early shift sooner"
                    + " (default: 0).")
    double headStart;

    /** The rules in force, the 3 SD limits always among them. */
    Set<RunRule> rules() {
        Set<RunRule> set = EnumSet.of(RunRule.BEYOND_3_SD);
        for (String rule : rules) {
            switch (rule.strip().toLowerCase(Locale.ROOT)) {
                case "2of3" -> set.add(RunRule.TWO_OF_THREE_BEYOND_2_SD);
                case "4of5" -> set.add(RunRule.FOUR_OF_FIVE_BEYOND_1_SD);
                case "8" -> set.add(RunRule.EIGHT_ON_ONE_SIDE);
                case "all" -> set.addAll(EnumSet.allOf(RunRule.class));
                default ->
                    throw new InputException(
                            "there is no run rule " + rule, "--rules", "take of 2of3, 4of5, 8, or all");
            }
        }
        return set;
    }

    /**
     * @throws InputException for parameters that make no sense
     */
    CusumDesign cusum(LimitOptions limits) {
        check(limits);
        try {
            double k = limits.k == null ? USUAL_K : limits.k;
            double h = limits.runLength != null
                    ? ValueRunLength.cusumLimit(k, limits.runLength)
                    : limits.limit == null ? USUAL_H : limits.limit;
            return new CusumDesign(k, h, headStart);
        } catch (IllegalArgumentException e) {
            throw fault(e);
        }
    }

    /**
     * @throws InputException for parameters that make no sense
     */
    EwmaDesign ewma(LimitOptions limits) {
        check(limits);
        try {
            double width = limits.runLength != null
                    ? ValueRunLength.ewmaWidth(new EwmaDesign(lambda, 1, steady).lambda(), steady, limits.runLength)
                    : limits.limit == null ? USUAL_WIDTH : limits.limit;
            return new EwmaDesign(lambda, width, steady);
        } catch (IllegalArgumentException e) {
            throw fault(e);
        }
    }

    private static void check(LimitOptions limits) {
        if (limits.within != null) {
            throw new InputException(
                    "the limit of a chart of values is not chosen by a number of cases",
                    "--within",
                    "take --limit or --run-length");
        }
        if (limits.ways() > 1) {
            throw new InputException(
                    "the limit is to be chosen in more than one way", "--limit", "take --limit or --run-length");
        }
    }

    private static InputException fault(IllegalArgumentException e) {
        return new InputException(String.valueOf(e.getMessage()), null, "see --help for the usual values", e);
    }

    /** For people, and for machines as {@code limit}. */
    static String limitWords(double limit, @Nullable Double runLength) {
        return Figures.plain(limit, 4)
                + (runLength == null
                        ? ""
                        : ", chosen for a false signal only after " + Figures.plain(runLength, 0)
                                + " cases on average");
    }
}
