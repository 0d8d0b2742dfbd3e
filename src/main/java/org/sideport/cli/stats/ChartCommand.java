package org.sideport.cli.stats;

import java.nio.file.Path;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import java.util.function.DoubleFunction;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.model.InputException;
import org.sideport.stats.Outcome;
import org.sideport.stats.monitoring.Baseline;
import org.sideport.stats.monitoring.CusumDesign;
import org.sideport.stats.monitoring.EwmaDesign;
import org.sideport.stats.monitoring.IndividualsChart;
import org.sideport.stats.monitoring.Restart;
import org.sideport.stats.monitoring.RunRule;
import org.sideport.stats.monitoring.ValueChart;
import org.sideport.stats.monitoring.ValueRunLength;
import org.sideport.stats.monitoring.ValueSeries;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "chart",
        sortOptions = false,
        description = {
            "Charts a measured value over consecutive cases: which cases stand out.",
            "",
            "The value is for instance the duration of a phase; it is held against a baseline.",
            "",
            "The CSV has one case a row: case_number (1, 2, 3 … in the order of operation,",
            "none missing) or date, value and, if you like, subject:",
            "  case_number,value",
            "  1,65.1",
            "",
            "Charts (--chart):",
            "  individuals  each value and its step from the case before; finds single odd",
            "               cases; --rules adds run rules",
            "  ewma         weighted average of the latest cases; finds small lasting shifts",
            "  cusum        two-sided CUSUM of the values; finds small lasting shifts",
            "",
            "Examples:",
            "  sideport stats chart rhexis.csv --consecutive --log --baseline 30",
            "  sideport stats chart rhexis.csv --consecutive --chart cusum --mean 70 --sd 15",
            "",
            "Durations are skewed: --log charts their logarithms. Every case counts: a log of",
            "chosen cases is refused, and so is one with a missing value."
        })
final class ChartCommand extends StatsCommand {

    /** Which chart. */
    enum Kind {
        INDIVIDUALS,
        EWMA,
        CUSUM
    }

    @Parameters(paramLabel = "LOG.csv", description = "The log of all consecutive cases.")
    Path file = Path.of("");

    @Option(
            names = "--chart",
            paramLabel = "CHART",
            defaultValue = "individuals",
            description = "Which chart: individuals, ewma or cusum (default: individuals).")
    Kind kind = Kind.INDIVIDUALS;

    @Mixin
    SeriesOptions log = new SeriesOptions();

    @Option(
            names = "--value",
            paramLabel = "COLUMN",
            defaultValue = "value",
            description = "Column of the value (default: value).")
    String column = "value";

    @Option(names = "--log", description = "Chart the natural logarithms of the values.")
    boolean logarithm;

    @Option(
            names = "--baseline",
            paramLabel = "N",
            description =
                    "Take mean and SD from the first N cases (default: all cases, unless --mean and --sd are given).")
    @Nullable
    Integer baselineCases;

    @Option(
            names = "--mean",
            paramLabel = "M",
            description = "Known mean, with --sd; with --log that of the logarithms.")
    @Nullable
    Double mean;

    @Option(names = "--sd", paramLabel = "S", description = "Known standard deviation, with --mean.")
    @Nullable
    Double sd;

    @Mixin
    LimitOptions limits = new LimitOptions();

    @Mixin
    ValueOptions values = new ValueOptions();

    @Option(
            names = "--restart",
            paramLabel = "HOW",
            defaultValue = "restart",
            description = "cusum, after a signal: restart, continue, or stop (default: restart).")
    Restart restart = Restart.RESTART;

    @Option(names = "--points", description = "Print every case, not only the signals (--json always has them).")
    boolean points;

    ChartCommand(Console console) {
        super(console);
    }

    @Override
    Outcome<Answer> answer() {
        if ((mean == null) != (sd == null)) {
            throw new InputException("mean and SD belong together", "--mean, --sd", "give both, or --baseline");
        }
        if (mean != null && baselineCases != null) {
            throw new InputException(
                    "the baseline is given in two ways", "--baseline", "take --baseline or --mean and --sd");
        }
        if (baselineCases != null && baselineCases < 2) {
            throw new InputException("a baseline needs 2 cases at least", "--baseline", "30 or more are better");
        }
        if (sd != null && !(sd > 0)) {
            throw new InputException("an SD lies above 0", "--sd", "write for instance --sd 15");
        }
        if (kind == Kind.INDIVIDUALS && limits.ways() > 0) {
            throw new InputException(
                    "the limits of the individuals chart are 3 SD",
                    "--chart individuals",
                    "leave --limit, --run-length and --within out; --rules adds run rules");
        }
        return log.stated(() -> SeriesCsv.read(file, log).values(column, logarithm))
                .flatMap(series -> baseline(series).map(baseline -> charted(series, baseline)));
    }

    private Outcome<Baseline> baseline(ValueSeries series) {
        if (mean != null) {
            return Outcome.of(Baseline.given(mean, Objects.requireNonNull(sd)));
        }
        int cases = baselineCases != null ? baselineCases : Math.max(2, series.size());
        return Baseline.ofFirst(series, cases);
    }

    private Answer charted(ValueSeries series, Baseline baseline) {
        ValueChart chart;
        DoubleFunction<ValueRunLength> run;
        switch (kind) {
            case INDIVIDUALS -> {
                Set<RunRule> rules = values.rules();
                chart = IndividualsChart.of(series, baseline, rules);
                run = shift -> ValueRunLength.individuals(rules, shift);
            }
            case EWMA -> {
                EwmaDesign design = values.ewma(limits);
                chart = design.chart(series, baseline);
                run = shift -> ValueRunLength.of(design, shift);
            }
            case CUSUM -> {
                CusumDesign design = values.cusum(limits);
                chart = design.chart(series, baseline, restart);
                run = shift -> ValueRunLength.of(design, shift);
            }
            default -> throw new IllegalStateException("chart " + kind);
        }
        ValueRunReport report = new ValueRunReport(new double[] {0, 0.5, 1, 2}, new int[] {50, 100}, run);
        boolean own = baseline.cases() == series.size();
        return new ChartReport(kind.name().toLowerCase(Locale.ROOT), chart, report, logarithm, own, points).answer();
    }
}
