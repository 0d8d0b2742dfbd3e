package org.sideport.cli.stats;

import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.stats.monitoring.BinaryDesign;
import org.sideport.stats.monitoring.LearningCurveDesign;
import org.sideport.stats.monitoring.LlrDesign;
import org.sideport.stats.monitoring.SprtDesign;
import org.sideport.stats.monitoring.TabularDesign;
import picocli.CommandLine.Option;

/** The parameters of a chart of failures, but for its limit. */
final class FailureOptions {

    /** Which chart. */
    enum Kind {
        SPRT,
        TABULAR,
        LLR,
        LC,
        OE
    }

    @Option(
            names = "--acceptable",
            paramLabel = "P",
            description = "Acceptable failure rate (lc: adequate performance), as a fraction, for instance 0.05.")
    @Nullable
    Double acceptable;

    @Option(
            names = "--unacceptable",
            paramLabel = "P",
            description = "Failure rate to be told from it (lc: inadequate performance), for instance 0.15.")
    @Nullable
    Double unacceptable;

    @Option(
            names = "--odds",
            paramLabel = "R",
            description =
                    "llr: the factor on the odds of failure to be found; 2 looks for doubled odds, 0.5 for improvement"
                            + " (default: from the two rates, otherwise 2).")
    @Nullable
    Double odds;

    @Option(
            names = "--alpha",
            paramLabel = "A",
            defaultValue = "0.10",
            description = "sprt: wished chance of an alarm at the acceptable rate (default: 0.10).")
    double alpha;

    @Option(
            names = "--beta",
            paramLabel = "B",
            defaultValue = "0.10",
            description = "sprt: wished chance of acceptance at the unacceptable rate (default: 0.10).")
    double beta;

    /**
     * The design with a limit of 1 where a limit is still to be chosen.
     *
     * @param k of the tabular CUSUM, {@code null} for the default
     * @param meanRisk of the cases, {@code null} where they have no risks of their own
     * @throws InputException if a parameter is missing or makes no sense
     */
    BinaryDesign design(Kind kind, @Nullable Double k, @Nullable Double meanRisk) {
        if (odds != null && kind != Kind.LLR) {
            throw new InputException("only the chart llr has an odds multiplier", "--odds", "leave it out");
        }
        if (k != null && kind != Kind.TABULAR) {
            throw new InputException("only the chart tabular has a reference value", "--k", "leave it out");
        }
        try {
            return switch (kind) {
                case SPRT -> new SprtDesign(needAcceptable(), needUnacceptable(), alpha, beta);
                case TABULAR -> tabular(k);
                case LLR -> llr(meanRisk);
                case LC -> new LearningCurveDesign(needAcceptable(), needUnacceptable(), 1);
                case OE -> throw new IllegalArgumentException("observed less expected is no test");
            };
        } catch (IllegalArgumentException e) {
            throw new InputException(
                    String.valueOf(e.getMessage()),
                    null,
                    "rates are fractions: 5 % is --acceptable 0.05; see --help for the others",
                    e);
        }
    }

    private TabularDesign tabular(@Nullable Double k) {
        double p0 = needAcceptable();
        double p1 = needUnacceptable();
        // Without a wish, the reference value of the likelihood ratio of the two rates, which is what a success takes
        // off.
        return new TabularDesign(k == null ? new SprtDesign(p0, p1, 0.1, 0.1).s() : k, 1, p0, p1);
    }

    private LlrDesign llr(@Nullable Double meanRisk) {
        if (odds != null && unacceptable != null) {
            throw new InputException(
                    "--odds and --unacceptable say the same in two ways", "--odds", "leave one of them out");
        }
        double p0 = acceptable == null && meanRisk != null ? meanRisk : needAcceptable();
        if (unacceptable == null) {
            return new LlrDesign(odds == null ? 2 : odds, 1, p0);
        }
        SprtDesign rates = new SprtDesign(p0, unacceptable, 0.1, 0.1);
        return new LlrDesign(rates.oddsRatio(), 1, p0);
    }

    double needAcceptable() {
        if (acceptable == null) {
            throw new InputException(
                    "the acceptable failure rate is missing", "--acceptable", "write for instance --acceptable 0.05");
        }
        return acceptable;
    }

    private double needUnacceptable() {
        if (unacceptable == null) {
            throw new InputException(
                    "the unacceptable failure rate is missing",
                    "--unacceptable",
                    "write for instance --unacceptable 0.15");
        }
        return unacceptable;
    }
}
