package org.sideport.cli.stats;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.InputException;
import org.sideport.stats.Outcome;
import org.sideport.stats.monitoring.BinaryDesign;
import org.sideport.stats.monitoring.CusumDesign;
import org.sideport.stats.monitoring.EwmaDesign;
import org.sideport.stats.monitoring.LearningCurveDesign;
import org.sideport.stats.monitoring.RunRule;
import org.sideport.stats.monitoring.SprtDesign;
import org.sideport.stats.monitoring.ValueRunLength;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "arl",
        sortOptions = false,
        description = {
            "Run lengths and false signals of a chart, before any case is seen.",
            "",
            "After how many cases the chart signals on average (average run length), and how",
            "probable a signal within some number of cases is, at several true failure rates",
            "or shifts. Reads no file.",
            "",
            "Charts of failures (--rates are true failure rates): sprt, tabular, llr, lc.",
            "Charts of values (--shifts are shifts of the mean in SD): individuals, cusum,",
            "ewma.",
            "",
            "Examples:",
            "  sideport stats arl --chart lc --acceptable 0.05 --unacceptable 0.15 \\",
            "    --limit 1.5",
            "  sideport stats arl --chart tabular --acceptable 0.05 --unacceptable 0.15 \\",
            "    --k 0.1 --limit 2 --rates 0.05,0.1,0.2 --horizon 50,100",
            "  sideport stats arl --chart llr --acceptable 0.02 --within 74",
            "  sideport stats arl --chart cusum --limit 5 --shifts 0,0.5,1,2",
            "",
            "Every case counts as independent of the others, with the same rate or shift from",
            "the first case on."
        })
final class ArlCommand extends StatsCommand {

    /** Charts with known run lengths. */
    enum Kind {
        SPRT,
        TABULAR,
        LLR,
        LC,
        INDIVIDUALS,
        CUSUM,
        EWMA
    }

    @Option(
            names = "--chart",
            paramLabel = "CHART",
            required = true,
            description = "Which chart: sprt, tabular, llr, lc, individuals, cusum or ewma.")
    @Nullable
    Kind kind;

    @Option(
            names = "--rates",
            paramLabel = "P,...",
            split = ",",
            hideParamSyntax = true,
            description = "True failure rates (default: the two that the chart tells apart).")
    double[] rates = {};

    @Option(
            names = "--shifts",
            paramLabel = "D,...",
            split = ",",
            hideParamSyntax = true,
            defaultValue = "0,0.5,1,1.5,2,3",
            description = "Shifts of the mean in SD (default: 0,0.5,1,1.5,2,3).")
    double[] shifts = {};

    @Option(
            names = "--horizon",
            paramLabel = "N,...",
            split = ",",
            hideParamSyntax = true,
            defaultValue = "50,100",
            description = "Numbers of cases for the probabilities (default: 50,100).")
    int[] horizons = {};

    @Mixin
    FailureOptions failures = new FailureOptions();

    @Mixin
    LimitOptions limits = new LimitOptions();

    @Mixin
    ValueOptions values = new ValueOptions();

    ArlCommand(Console console) {
        super(console);
    }

    @Override
    Outcome<Answer> answer() {
        for (int horizon : horizons) {
            if (horizon < 1) {
                throw new InputException("there is no number of cases " + horizon, "--horizon", "write 50,100");
            }
        }
        for (double shift : shifts) {
            if (!(Math.abs(shift) <= 10)) {
                throw new InputException("a shift of " + shift + " SD is out of reach", "--shifts", "take −10 to 10");
            }
        }
        if (kind == null) {
            throw new IllegalStateException("the chart is a required option");
        }
        return Outcome.of(
                switch (kind) {
                    case SPRT -> failures(FailureOptions.Kind.SPRT);
                    case TABULAR -> failures(FailureOptions.Kind.TABULAR);
                    case LLR -> failures(FailureOptions.Kind.LLR);
                    case LC -> failures(FailureOptions.Kind.LC);
                    case INDIVIDUALS -> individuals();
                    case CUSUM -> cusum(values.cusum(limits));
                    case EWMA -> ewma(values.ewma(limits));
                });
    }

    private Answer failures(FailureOptions.Kind chart) {
        BinaryDesign design = failures.design(chart, limits.k, null);
        Map<String, @Nullable Object> json = new LinkedHashMap<>();
        json.put("chart", chart.name().toLowerCase(Locale.ROOT));
        List<String> lines = new ArrayList<>();
        lines.add("Chart: " + MonitoringWords.title(design));
        if (design instanceof SprtDesign sprt) {
            if (limits.ways() > 0) {
                throw new InputException(
                        "the limits of the sequential test follow from --alpha and --beta",
                        "--chart sprt",
                        "leave --limit, --run-length and --within out");
            }
            lines.add("Limits: accepted at " + Figures.plain(-sprt.h0()) + " or below, alarm at "
                    + Figures.plain(sprt.h1()) + " or above; the fewest cases to acceptance are "
                    + sprt.fewestCasesToAccept());
        } else {
            LimitOptions.Settled settled = limits.settle(design, null);
            design = settled.design();
            json.put("limit", settled.json());
            lines.add("Limit: h " + settled.how());
        }
        json.put("parameters", MonitoringJson.parameters(design, null));
        lines.add("");
        RunLengthReport report = new RunLengthReport(design, horizons);
        double[] asked = rates.length == 0 ? new double[] {design.acceptableRate(), design.otherRate()} : rates;
        for (double rate : asked) {
            if (!(rate > 0 && rate < 1)) {
                throw new InputException(
                        "a failure rate lies between 0 and 1, not at " + rate,
                        "--rates",
                        "write for instance 0.05,0.1");
            }
            report.add(design, rate);
        }
        json.put("run_lengths", report.json());
        lines.addAll(report.text());
        return new Answer(json, lines, List.of(), sentence(design) + " " + MonitoringWords.CAUTION);
    }

    private String sentence(BinaryDesign design) {
        RunLengthReport ends = new RunLengthReport(design, new int[] {100});
        double falseRate = design.falseSignalRate();
        double trueRate = design instanceof LearningCurveDesign ? design.acceptableRate() : design.otherRate();
        RunLengthReport.Line wrong = ends.add(design, falseRate).lines().get(0);
        RunLengthReport.Line right = ends.add(design, trueRate).lines().get(1);
        String signal = MonitoringWords.signal(design.upperSignal(), design instanceof LearningCurveDesign);
        return "Within 100 cases this chart says \"" + signal + "\" wrongly, at a true rate of "
                + Figures.plain(falseRate) + ", with a probability of "
                + Figures.percent(wrong.within().get(0))
                + ", and rightly, at " + Figures.plain(trueRate) + ", with "
                + Figures.percent(right.within().get(0))
                + (right.within().get(0) < 0.8
                        ? ": within so many cases it can hardly convict or clear anybody."
                        : ".");
    }

    private Answer individuals() {
        if (limits.ways() > 0) {
            throw new InputException(
                    "the limits of the individuals chart are 3 SD",
                    "--chart individuals",
                    "leave --limit, --run-length and --within out; --rules adds run rules");
        }
        Set<RunRule> rules = values.rules();
        return values(
                "individuals",
                "individuals chart, signals by "
                        + String.join(", ", rules.stream().map(RunRule::words).toList()),
                Json.object(
                        "rules",
                        rules.stream()
                                .map(rule -> rule.name().toLowerCase(Locale.ROOT))
                                .toList()),
                new ValueRunReport(withZero(), horizons, shift -> ValueRunLength.individuals(rules, shift)));
    }

    private Answer cusum(CusumDesign design) {
        return values(
                "cusum",
                "two-sided CUSUM, k " + Figures.plain(design.k()) + ", h "
                        + ValueOptions.limitWords(design.h(), limits.runLength) + ", head start "
                        + Figures.plain(design.headStart()),
                Json.object("k", design.k(), "h", design.h(), "head_start", design.headStart()),
                new ValueRunReport(withZero(), horizons, shift -> ValueRunLength.of(design, shift)));
    }

    private Answer ewma(EwmaDesign design) {
        return values(
                "ewma",
                "EWMA, lambda " + Figures.plain(design.lambda()) + ", limits "
                        + (design.steady() ? "of late cases from the start" : "that widen from case to case")
                        + ", width in SD " + ValueOptions.limitWords(design.width(), limits.runLength),
                Json.object("lambda", design.lambda(), "width", design.width(), "steady", design.steady()),
                new ValueRunReport(withZero(), horizons, shift -> ValueRunLength.of(design, shift)));
    }

    /** The sentence tells of no shift, whatever was asked. */
    private double[] withZero() {
        for (double shift : shifts) {
            if (shift == 0) {
                return shifts;
            }
        }
        double[] all = new double[shifts.length + 1];
        System.arraycopy(shifts, 0, all, 1, shifts.length);
        return all;
    }

    private static Answer values(
            String chart, String title, Map<String, @Nullable Object> parameters, ValueRunReport report) {
        List<String> lines = new ArrayList<>(List.of("Chart: " + title, ""));
        lines.addAll(report.text());
        return new Answer(
                Json.object("chart", chart, "parameters", parameters, "run_lengths", report.json()),
                lines,
                List.of(),
                "While nothing changes this chart gives a false signal after "
                        + Figures.plain(report.average(0), 0)
                        + " cases on average, if the values are independent and normal about a known mean. "
                        + MonitoringWords.VALUE_CAUTION);
    }
}
