package org.sideport.cli.stats;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.model.InputException;
import org.sideport.stats.Outcome;
import org.sideport.stats.monitoring.BinaryDesign;
import org.sideport.stats.monitoring.BinarySeries;
import org.sideport.stats.monitoring.LearningCurveDesign;
import org.sideport.stats.monitoring.LlrDesign;
import org.sideport.stats.monitoring.Restart;
import org.sideport.stats.monitoring.RiskMix;
import org.sideport.stats.monitoring.SprtDesign;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "cusum",
        sortOptions = false,
        description = {
            "Charts failures over consecutive cases: after how many cases which verdict.",
            "",
            "A failure is what you define, for instance a torn posterior capsule, or that the",
            "trainer took over.",
            "",
            "The CSV has one case a row: case_number (1, 2, 3 … in the order of operation,",
            "none missing) or date, failure (1 or 0, empty if unknown) and, if you like, risk",
            "(expected probability of the failure in this case), subject:",
            "  case_number,failure,risk",
            "  1,0,0.021",
            "",
            "Charts (--chart):",
            "  lc       LC-CUSUM: starts from \"not competent\"; a signal shows competence",
            "  sprt     sequential test, the line of most trainee papers: accepts or alarms",
            "  tabular  one-sided CUSUM of failures above k: a signal is an alarm",
            "  llr      log-likelihood-ratio CUSUM, risk-adjusted if there is a risk: alarm",
            "  oe       observed less expected failures: a display without a verdict",
            "",
            "Examples:",
            "  sideport stats cusum log.csv --consecutive --chart lc --acceptable 0.05 \\",
            "    --unacceptable 0.15 --within 100",
            "  sideport stats cusum log.csv --consecutive --chart sprt --acceptable 0.05 \\",
            "    --unacceptable 0.10",
            "  sideport stats cusum log.csv --consecutive --chart llr --run-length 500",
            "",
            "Every case counts: a log of chosen cases is refused, and so is a case with an",
            "unknown outcome, because a gap is no success. Fix failure, rates and limit",
            "before you look at the cases; \"sideport stats arl\" shows what they can do."
        })
final class CusumCommand extends StatsCommand {

    private static final String RISK = "risk";

    @Parameters(paramLabel = "LOG.csv", description = "The log of all consecutive cases.")
    Path file = Path.of("");

    @Option(
            names = "--chart",
            paramLabel = "CHART",
            required = true,
            description = "Which chart: lc, sprt, tabular, llr or oe.")
    FailureOptions.@Nullable Kind kind;

    @Mixin
    SeriesOptions log = new SeriesOptions();

    @Mixin
    FailureOptions rates = new FailureOptions();

    @Mixin
    LimitOptions limits = new LimitOptions();

    @Option(
            names = "--restart",
            paramLabel = "HOW",
            description = "After a signal: restart at 0, continue, or stop (default: restart; sprt continue; lc stop).")
    @Nullable
    Restart restart;

    @Option(
            names = "--watch",
            paramLabel = "H",
            description = "lc: once competence is shown, watch over it with an ordinary CUSUM of this limit.")
    @Nullable
    Double watch;

    @Option(
            names = "--failure",
            paramLabel = "COLUMN",
            defaultValue = "failure",
            description = "Column of the outcome, 1 for a failure (default: failure).")
    String failure = "failure";

    @Option(
            names = "--ignore-risk",
            description = "Do not use the column risk (default: llr, sprt and oe use it if it is there).")
    boolean ignoreRisk;

    @Mixin
    private ConfidenceOption confidence = new ConfidenceOption();

    @Option(names = "--points", description = "Print every case, not only the signals (--json always has them).")
    boolean points;

    CusumCommand(Console console) {
        super(console);
    }

    @Override
    Outcome<Answer> answer() {
        FailureOptions.Kind chart = kind();
        check(chart);
        return log.stated(() -> {
            SeriesCsv csv = SeriesCsv.read(file, log);
            boolean withRisk = csv.has(RISK)
                    && !ignoreRisk
                    && chart != FailureOptions.Kind.LC
                    && chart != FailureOptions.Kind.TABULAR;
            return csv.outcomes(failure, withRisk ? RISK : null)
                    .flatMap(series -> chart == FailureOptions.Kind.OE
                            ? expected(series)
                            : charted(series, chart, csv.has(RISK) && !withRisk));
        });
    }

    private FailureOptions.Kind kind() {
        if (kind == null) {
            throw new IllegalStateException("the chart is a required option");
        }
        return kind;
    }

    private void check(FailureOptions.Kind chart) {
        if (watch != null && chart != FailureOptions.Kind.LC) {
            throw new InputException("only the chart lc is followed by a watch", "--watch", "leave it out");
        }
        if (watch != null && !(watch > 0)) {
            throw new InputException("a limit lies above 0", "--watch", "write for instance --watch 2");
        }
        if (chart == FailureOptions.Kind.SPRT && limits.ways() > 0) {
            throw new InputException(
                    "the limits of the sequential test follow from --alpha and --beta",
                    "--chart sprt",
                    "leave --limit, --run-length and --within out");
        }
        if (chart == FailureOptions.Kind.OE && limits.ways() > 0) {
            throw new InputException(
                    "observed less expected has no limit to cross",
                    "--chart oe",
                    "leave --limit, --run-length and --within out, or take --chart llr");
        }
    }

    private Outcome<Answer> expected(BinarySeries series) {
        double rate = series.isRiskAdjusted() ? 0.5 : rates.needAcceptable();
        if (!(rate > 0 && rate < 1)) {
            throw new InputException("a rate lies between 0 and 1", "--acceptable", "5 % is --acceptable 0.05");
        }
        return ExpectedReport.of(series, rate, confidence.level(), points);
    }

    private Outcome<Answer> charted(BinarySeries series, FailureOptions.Kind chart, boolean riskLeftOut) {
        @Nullable RiskMix mix = series.isRiskAdjusted() ? RiskMix.of(series.risks()) : null;
        BinaryDesign design = rates.design(chart, limits.k, mix == null ? null : mix.meanRisk());
        LimitOptions.@Nullable Settled settled = null;
        if (!(design instanceof SprtDesign)) {
            settled = limits.settle(design, mix == null ? null : mix.grouped(RunLengthReport.GROUPS));
            design = settled.design();
        }
        @Nullable
        LlrDesign watching =
                watch != null && design instanceof LearningCurveDesign learning ? learning.watch(watch) : null;
        return Outcome.of(
                new CusumReport(series, design, settled, mix, restart, watching, riskLeftOut, points).answer());
    }
}
