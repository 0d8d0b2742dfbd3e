package org.sideport.cli.stats;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.model.InputException;
import org.sideport.stats.monitoring.BinaryDesign;
import org.sideport.stats.monitoring.LimitFinder;
import org.sideport.stats.monitoring.LlrDesign;
import org.sideport.stats.monitoring.RiskMix;
import org.sideport.stats.monitoring.RiskMixLimits;
import picocli.CommandLine.Option;

/** The limit of a chart, given or chosen by what is wished of it. */
final class LimitOptions {

    @Option(
            names = "--k",
            paramLabel = "K",
            description =
                    "Reference value. tabular: between the two rates (default: the value that tells them apart best)."
                            + " CUSUM of values: half the shift to be found, in SD (default: 0.5).")
    @Nullable
    Double k;

    @Option(names = "--limit", paramLabel = "H", description = "The limit itself (h; of an EWMA its width in SD).")
    @Nullable
    Double limit;

    @Option(
            names = "--run-length",
            paramLabel = "N",
            description = "Choose the limit: a false signal only after N cases on average, or later.")
    @Nullable
    Double runLength;

    @Option(
            names = "--within",
            paramLabel = "N",
            description =
                    "Choose the limit of a chart of failures: a false signal within N cases has at most the probability"
                            + " --false-signals.")
    @Nullable
    Integer within;

    @Option(
            names = "--false-signals",
            paramLabel = "A",
            defaultValue = "0.05",
            description = "With --within: that probability (default: 0.05).")
    double falseSignals;

    /**
     * A design whose limit is settled.
     *
     * @param how in words
     * @param json the limit and where it comes from
     */
    record Settled(BinaryDesign design, String how, Map<String, @Nullable Object> json) {}

    /** How many of the three ways were taken. */
    int ways() {
        return (int)
                Stream.of(limit, runLength, within).filter(Objects::nonNull).count();
    }

    /**
     * @param design not a sequential test
     * @param mix the risks of the cases, {@code null} where the chart uses none
     * @throws InputException unless just one way was taken, and for wishes that cannot be met
     */
    Settled settle(BinaryDesign design, @Nullable RiskMix mix) {
        if (ways() != 1) {
            throw new InputException(
                    ways() == 0
                            ? "the limit of the chart is missing"
                            : "the limit is to be chosen in more than one way",
                    "--limit",
                    "give one of: --limit H; --run-length N; --within N (with --false-signals A)");
        }
        try {
            return limit != null
                    ? given(design, limit)
                    : mix == null ? chosen(design) : chosen((LlrDesign) design, mix);
        } catch (IllegalArgumentException e) {
            throw new InputException(
                    String.valueOf(e.getMessage()), null, "see --help for --limit, --run-length and --within", e);
        }
    }

    private static Settled given(BinaryDesign design, double limit) {
        return new Settled(
                LimitFinder.withLimit(design, limit),
                Figures.plain(limit, 6) + ", as given",
                Json.object("h", limit, "chosen_by", "given"));
    }

    private Settled chosen(BinaryDesign design) {
        double rate = design.falseSignalRate();
        if (runLength != null) {
            return byRunLength(
                    LimitFinder.withLimit(design, LimitFinder.forRunLength(design, rate, runLength)),
                    runLength,
                    "at a true rate of " + Figures.plain(rate));
        }
        int n = Objects.requireNonNull(within);
        LimitFinder.HorizonLimit found = LimitFinder.forHorizon(design, rate, n, falseSignals);
        return byHorizon(
                LimitFinder.withLimit(design, found.limit()),
                n,
                " at a true rate of " + Figures.plain(rate),
                found.falseSignals());
    }

    private Settled chosen(LlrDesign design, RiskMix mix) {
        String where = "if every case fails with its expected risk";
        if (runLength != null) {
            return byRunLength(
                    LimitFinder.withLimit(design, RiskMixLimits.forRunLength(design, mix, runLength)),
                    runLength,
                    where);
        }
        int n = Objects.requireNonNull(within);
        double found = RiskMixLimits.forHorizon(design, mix, n, falseSignals);
        return byHorizon(LimitFinder.withLimit(design, found), n, " " + where, null);
    }

    private static Settled byRunLength(BinaryDesign design, double wished, String where) {
        return new Settled(
                design,
                Figures.plain(design.upperLimit(), 6) + ", the smallest with a false signal only after "
                        + Figures.plain(wished, 0) + " cases on average " + where,
                Json.object("h", design.upperLimit(), "chosen_by", "run_length", "wished", wished));
    }

    private Settled byHorizon(BinaryDesign design, int n, String where, @Nullable Double attained) {
        Map<String, @Nullable Object> json = new LinkedHashMap<>(Json.object(
                "h", design.upperLimit(), "chosen_by", "false_signals", "wished", falseSignals, "within_cases", n));
        json.put("attained", attained);
        return new Settled(
                design,
                Figures.plain(design.upperLimit(), 6) + ", the smallest with at most " + Figures.percent(falseSignals)
                        + " false signals within " + n + " cases" + where
                        + (attained == null ? "" : " (" + Figures.percent(attained) + " with this limit)"),
                json);
    }
}
