package org.sideport.cli.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sideport.cli.Main;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * The commands cusum, arl and chart, run within this process. Where nothing else is said the figures are those of the
 * project's trade facts, section 5.3: exact arithmetic outside this program.
 */
class MonitoringCommandsTest {

    @TempDir
    Path folder;

    private record Run(int code, String out, String err) {

        JsonNode json() {
            return JsonMapper.builder().build().readTree(out);
        }
    }

    private Run run(String... arguments) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        String[] all = new String[arguments.length + 1];
        all[0] = "stats";
        System.arraycopy(arguments, 0, all, 1, arguments.length);
        int code = Main.run(all, new PrintWriter(out, true), new PrintWriter(err, true), Map.of(), folder);
        return new Run(code, out.toString(), err.toString());
    }

    private Run ran(String... arguments) {
        Run run = run(arguments);
        assertThat(run.code()).as(run.err()).isZero();
        return run;
    }

    private String file(String text) throws IOException {
        return Files.writeString(folder.resolve("log.csv"), text).toString();
    }

    /** Cases 1 to n, of which some failed. */
    private String log(int n, Integer... failures) throws IOException {
        Set<Integer> failed = Set.of(failures);
        StringBuilder text = new StringBuilder("case_number,failure\n");
        for (int i = 1; i <= n; i++) {
            text.append(i).append(',').append(failed.contains(i) ? 1 : 0).append('\n');
        }
        return file(text.toString());
    }

    private static List<Integer> cases(JsonNode points) {
        List<Integer> cases = new ArrayList<>();
        points.forEach(point -> cases.add(point.at("/case").asInt()));
        return cases;
    }

    @Test
    void learningCurveCusumShowsCompetenceAtCase21() throws IOException {
        String[] command = {
            "cusum",
            log(30, 2, 7),
            "--consecutive",
            "--chart",
            "lc",
            "--acceptable",
            "0.05",
            "--unacceptable",
            "0.15",
            "--limit",
            "1.5",
            "--json"
        };
        JsonNode json = ran(command).json();
        assertThat(json.at("/chart").asString()).isEqualTo("lc");
        assertThat(cases(json.at("/signals"))).containsExactly(21);
        assertThat(json.at("/signals/0/signal").asString()).isEqualTo("accepted");
        assertThat(json.at("/signals/0/statistic").asDouble()).isCloseTo(1.55716, within(5.1e-6));
        assertThat(json.at("/points")).hasSize(21);
        assertThat(json.at("/points/5/statistic").asDouble()).isCloseTo(.44490, within(5.1e-6));
        assertThat(json.at("/points/1/failure").asBoolean()).isTrue();
        assertThat(json.at("/points/1/risk").isNull()).isTrue();
        assertThat(json.at("/parameters/weight_success").asDouble()).isCloseTo(.111226, within(5.1e-7));
        assertThat(json.at("/parameters/weight_failure").asDouble()).isCloseTo(-1.098612, within(5.1e-7));
        assertThat(json.at("/restart").asString()).isEqualTo("stop");
        assertThat(json.at("/failures").asInt()).isEqualTo(2);
        assertThat(json.at("/limit/chosen_by").asString()).isEqualTo("given");
        // horizons 30 (the cases charted), 50 and 100
        assertThat(json.at("/run_lengths/0/within/0/cases").asInt()).isEqualTo(30);
        String text = ran(
                        "cusum",
                        log(30, 2, 7),
                        "--consecutive",
                        "--chart",
                        "lc",
                        "--acceptable",
                        "0.05",
                        "--unacceptable",
                        "0.15",
                        "--limit",
                        "1.5")
                .out();
        assertThat(text)
                .contains("is shown at case 21")
                .contains("competence shown")
                .contains("fixed before anyone looked")
                .contains("local regulations and the credentialing body");
    }

    @Test
    void competenceOnceShownIsWatched() throws IOException {
        // two failures in turn after the signal: 2 ln 3 = 2.197 is above 1.5
        String log = log(30, 2, 7, 22, 23);
        JsonNode json = ran(
                        "cusum",
                        log,
                        "--consecutive",
                        "--chart",
                        "lc",
                        "--acceptable",
                        "0.05",
                        "--unacceptable",
                        "0.15",
                        "--limit",
                        "1.5",
                        "--watch",
                        "1.5",
                        "--json")
                .json();
        assertThat(cases(json.at("/signals"))).containsExactly(21, 23);
        assertThat(json.at("/signals/1/signal").asString()).isEqualTo("alarm");
        assertThat(json.at("/signals/1/stage").asString()).isEqualTo("watching");
        assertThat(json.at("/sentence").asString()).contains("afterwards alarms at case 23");
        assertThat(json.at("/points")).hasSize(30);
    }

    @Test
    void sequentialTestAcceptsAtCase83ByOneConventionOnly() throws IOException {
        String log = log(90, 4, 9, 23);
        String[] command = {
            "cusum", log, "--consecutive", "--chart", "sprt", "--acceptable", "0.05", "--unacceptable", "0.10", "--json"
        };
        JsonNode json = ran(command).json();
        assertThat(json.at("/verdict/decision").asString()).isEqualTo("accepted");
        assertThat(json.at("/verdict/decided_at").asInt()).isEqualTo(83);
        assertThat(json.at("/verdict/two_lines_at").isNull()).isTrue();
        assertThat(json.at("/verdict/first_alarm_at").isNull()).isTrue();
        assertThat(json.at("/parameters/s").asDouble()).isCloseTo(.072358, within(5.1e-7));
        assertThat(json.at("/upper_limit").asDouble()).isCloseTo(2.940554, within(5.1e-7));
        assertThat(json.at("/lower_limit").asDouble()).isCloseTo(-2.940554, within(5.1e-7));
        assertThat(json.at("/parameters/fewest_cases_to_accept").asInt()).isEqualTo(41);
        assertThat(json.at("/points/3/statistic").asDouble()).isCloseTo(.7106, within(5.1e-5));
        Run text =
                ran("cusum", log, "--consecutive", "--chart", "sprt", "--acceptable", "0.05", "--unacceptable", "0.10");
        assertThat(text.out())
                .contains("(one convention): case 83")
                .contains("asks for far more): never")
                .contains("another verdict on the same cases");
        // cases 83 to 90 lie beyond the limit: said once
        assertThat(text.out().lines().filter(line -> line.contains("acceptable rate accepted")))
                .hasSize(1);
        Run open = ran(
                "cusum", log(10), "--consecutive", "--chart", "sprt", "--acceptable", "0.05", "--unacceptable", "0.10");
        assertThat(open.out())
                .contains("No signal.")
                .contains("has not decided")
                .contains("even without any failure this chart needs 41 cases");
        assertThat(ran(
                                "cusum",
                                log(20, 1, 2, 3, 4),
                                "--consecutive",
                                "--chart",
                                "sprt",
                                "--acceptable",
                                "0.05",
                                "--unacceptable",
                                "0.10")
                        .out())
                .contains("alarms for the unacceptable rate 0.100 at case 4");
    }

    @Test
    void tabularCusumAlarmsAtCase9() throws IOException {
        JsonNode json = ran(
                        "cusum",
                        log(20, 3, 8, 9, 15),
                        "--consecutive",
                        "--chart",
                        "tabular",
                        "--acceptable",
                        "0.05",
                        "--unacceptable",
                        "0.15",
                        "--k",
                        "0.1",
                        "--limit",
                        "2",
                        "--restart",
                        "continue",
                        "--json")
                .json();
        assertThat(json.at("/signals/0/case").asInt()).isEqualTo(9);
        assertThat(json.at("/signals/0/statistic").asDouble()).isCloseTo(2.3, within(1e-9));
        assertThat(json.at("/last").asDouble()).isCloseTo(2.2, within(1e-9));
        assertThat(json.at("/run_lengths/0/average").asDouble()).isCloseTo(304.0514, within(5.1e-5));
        assertThat(json.at("/sentence").asString()).contains("alarms first at case 9");
        // s of the same rates, table of section 5.3: .091934
        assertThat(ran(
                                "cusum",
                                log(20),
                                "--consecutive",
                                "--chart",
                                "tabular",
                                "--acceptable",
                                "0.05",
                                "--unacceptable",
                                "0.15",
                                "--limit",
                                "2",
                                "--json")
                        .json()
                        .at("/parameters/k")
                        .asDouble())
                .isCloseTo(.091934, within(5.1e-7));
    }

    private static final String RISKS = "case_number,failure,risk\n1,0,.0106\n2,0,.0385\n3,0,.0106\n4,0,.3246\n"
            + "5,1,.0385\n6,0,.0106\n7,1,.0306\n8,0,.0106\n9,0,.0385\n10,1,.0106\n";

    @Test
    void riskAdjustedSeries() throws IOException {
        String log = file(RISKS);
        JsonNode json = ran("cusum", log, "--consecutive", "--chart", "llr", "--limit", "4.5", "--json")
                .json();
        double[] expected = {0, 0, 0, 0, .6554, .6448, 1.3078, 1.2973, 1.2595, 1.9421};
        for (int i = 0; i < 10; i++) {
            assertThat(json.at("/points/" + i + "/statistic").asDouble()).isCloseTo(expected[i], within(5.1e-5));
        }
        assertThat(json.at("/risk_adjusted").asBoolean()).isTrue();
        assertThat(json.at("/points/3/risk").asDouble()).isEqualTo(.3246);
        // mean of the ten risks .05237
        assertThat(json.at("/parameters/acceptable").asDouble()).isCloseTo(.05237, within(1e-12));
        assertThat(json.at("/run_lengths/0/rate").asDouble()).isCloseTo(.05237, within(1e-12));
        assertThat(json.at("/run_lengths/1/odds_multiplier").asDouble()).isEqualTo(2);
        assertThat(json.at("/warnings").toString()).contains("grade out").contains("no signal is no proof");
        JsonNode display =
                ran("cusum", log, "--consecutive", "--chart", "oe", "--json").json();
        double[] saved = {.0106, .0491, .0597, .3843, -.5772, -.5666, -1.5360, -1.5254, -1.4869, -2.4763};
        for (int i = 0; i < 10; i++) {
            assertThat(display.at("/points/" + i + "/statistic").asDouble()).isCloseTo(-saved[i], within(5.1e-5));
        }
        assertThat(display.at("/observed").asInt()).isEqualTo(3);
        assertThat(display.at("/expected").asDouble()).isCloseTo(.5237, within(1e-9));
        assertThat(display.at("/sentence").asString()).contains("no test").contains("formative");
        // failures of cases 5, 7 and 10 at 5 %: weights of the table for R = 2, p = .05
        JsonNode plain = ran(
                        "cusum",
                        log,
                        "--consecutive",
                        "--chart",
                        "llr",
                        "--ignore-risk",
                        "--acceptable",
                        "0.05",
                        "--limit",
                        "4.5",
                        "--json")
                .json();
        assertThat(plain.at("/points/4/statistic").asDouble()).isCloseTo(.644357, within(5.1e-7));
        assertThat(plain.at("/points/6/statistic").asDouble()).isCloseTo(2 * .644357 - .048790, within(2e-6));
        assertThat(plain.at("/warnings").toString()).contains("risk was not used");
        JsonNode test = ran(
                        "cusum",
                        log,
                        "--consecutive",
                        "--chart",
                        "sprt",
                        "--acceptable",
                        "0.05",
                        "--unacceptable",
                        "0.1",
                        "--json")
                .json();
        // OR 19/9: a success of risk .0106 takes off ln(1 + .0106 × 10/9)/ln(19/9)
        assertThat(test.at("/points/0/statistic").asDouble())
                .isCloseTo(-Math.log(1 + .0106 * 10 / 9) / Math.log(19 / 9.0), within(1e-12));
        assertThat(test.at("/sentence").asString()).contains("failures as the risks say");
    }

    @Test
    void limitIsChosenByWhatIsWished() throws IOException {
        // unit test of R package cusum: p = .1, n = 10, R = 2, alpha = .05; the next attainable value is 1.507580,
        // reached
        // with .04149 by enumeration of the 1024 outcomes
        JsonNode json = ran(
                        "cusum",
                        log(10, 3),
                        "--consecutive",
                        "--chart",
                        "llr",
                        "--acceptable",
                        "0.1",
                        "--within",
                        "10",
                        "--json")
                .json();
        assertThat(json.at("/limit/h").asDouble()).isCloseTo(1.507580, within(5.1e-7));
        assertThat(json.at("/limit/attained").asDouble()).isCloseTo(.04149, within(5.1e-6));
        JsonNode tabular = ran(
                        "cusum",
                        log(10, 3),
                        "--consecutive",
                        "--chart",
                        "tabular",
                        "--k",
                        "0.1",
                        "--acceptable",
                        "0.05",
                        "--unacceptable",
                        "0.15",
                        "--run-length",
                        "304",
                        "--json")
                .json();
        // k = 1/10, h = 2: average run length 304.05 at 5 %
        assertThat(tabular.at("/limit/h").asDouble()).isCloseTo(2, within(1e-9));
        String risks = file(RISKS);
        JsonNode byRun = ran("cusum", risks, "--consecutive", "--chart", "llr", "--run-length", "200", "--json")
                .json();
        assertThat(byRun.at("/run_lengths/0/average").asDouble()).isCloseTo(200, within(5.0));
        JsonNode byHorizon = ran(
                        "cusum",
                        risks,
                        "--consecutive",
                        "--chart",
                        "llr",
                        "--within",
                        "50",
                        "--false-signals",
                        "0.1",
                        "--json")
                .json();
        assertThat(byHorizon.at("/run_lengths/0/within/1/cases").asInt()).isEqualTo(50);
        assertThat(byHorizon.at("/run_lengths/0/within/1/signal").asDouble()).isCloseTo(.1, within(.005));
        assertThat(byHorizon.at("/limit/attained").isNull()).isTrue();
    }

    @Test
    void chosenCasesAreRefused() throws IOException {
        String[] rates = {"--chart", "lc", "--acceptable", "0.05", "--unacceptable", "0.15", "--limit", "1.5"};
        Run unsaid = run(with(rates, "cusum", log(30)));
        assertThat(unsaid.code()).isEqualTo(1);
        assertThat(unsaid.out())
                .contains("whoever chose them also chose the result")
                .contains("add --consecutive");
        Run json = run(with(rates, "cusum", log(30), "--json"));
        assertThat(json.json().at("/refused/reason").asString()).isEqualTo("selected_series");
        Run gap = run(with(rates, "cusum", file("case_number,failure\n1,0\n2,1\n4,0\n"), "--consecutive"));
        assertThat(gap.code()).isEqualTo(1);
        assertThat(gap.out()).contains("case 3 missing");
        for (String unknown : List.of("", "?", "unknown")) {
            String log = file("case_number,failure\n1,0\n2," + unknown + "\n3,0\n");
            Run refused = run(with(rates, "cusum", log, "--consecutive"));
            assertThat(refused.code()).isEqualTo(1);
            assertThat(refused.out()).contains("outcome of case 2 unknown, which is a gap and no success");
            Run before = ran(with(rates, "cusum", log, "--consecutive", "--up-to", "1"));
            assertThat(before.out()).contains("2 cases after case 1 are not charted");
        }
    }

    private static String[] with(String[] more, String... first) {
        List<String> all = new ArrayList<>(List.of(first));
        all.addAll(List.of(more));
        return all.toArray(String[]::new);
    }

    @Test
    void dateGivesTheOrderAndTiesKeepTheirRows() throws IOException {
        String[] rest = {
            "--consecutive",
            "--chart",
            "lc",
            "--acceptable",
            "0.05",
            "--unacceptable",
            "0.15",
            "--limit",
            "1.5",
            "--json"
        };
        JsonNode json = ran(with(rest, "cusum", file("date,failure\n2026-02-01,yes\n2026-01-05,no\n2026-02-01,no\n")))
                .json();
        assertThat(json.at("/points/0/failure").asBoolean()).isFalse();
        assertThat(json.at("/points/1/failure").asBoolean()).isTrue();
        assertThat(json.at("/points/2/failure").asBoolean()).isFalse();
        assertThat(json.at("/warnings").toString()).contains("whether one is missing cannot be seen");
        JsonNode both = ran(with(
                        rest,
                        "cusum",
                        file("case_number,date,failure\n1,2026-02-01,0\n2,2026-01-05,0\n3,2026-02-01,0\n")))
                .json();
        assertThat(both.at("/warnings").toString()).contains("case 2 is dated before case 1");
        Run wrong = run(with(rest, "cusum", file("date,failure\n5.1.2026,0\n")));
        assertThat(wrong.code()).isEqualTo(2);
        assertThat(wrong.err()).contains("year-month-day");
    }

    @Test
    void chartIsOfOnePerson() throws IOException {
        String log = file("subject,case_number,pcr\nT03,1,0\nT03,2,0\nT04,1,1\nT04,2,1\n");
        String[] rest = {
            "--consecutive", "--chart", "llr", "--acceptable", "0.05", "--limit", "1", "--failure", "pcr", "--json"
        };
        Run several = run(with(rest, "cusum", log));
        assertThat(several.code()).isEqualTo(2);
        assertThat(several.err()).contains("2 people: T03, T04").contains("--subject T03");
        JsonNode one = ran(with(rest, "cusum", log, "--subject", "T04")).json();
        assertThat(one.at("/failures").asInt()).isEqualTo(2);
        assertThat(cases(one.at("/signals"))).containsExactly(2);
        assertThat(run(with(rest, "cusum", log, "--subject", "T09")).err()).contains("no case of T09");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "--chart lc --acceptable 0.05 --unacceptable 0.15 | limit of the chart is missing",
                "--chart lc --acceptable 0.05 --unacceptable 0.15 --limit 1 --within 50 | more than one way",
                "--chart lc --unacceptable 0.15 --limit 1 | acceptable failure rate is missing",
                "--chart lc --acceptable 0.05 --limit 1 | unacceptable failure rate is missing",
                "--chart lc --acceptable 5 --unacceptable 15 --limit 1 | 5 % is --acceptable 0.05",
                "--chart lc --acceptable 0.15 --unacceptable 0.05 --limit 1 | has to be below",
                "--chart lc --acceptable 0.05 --unacceptable 0.15 --limit -1 | h is -1.0",
                "--chart lc --acceptable 0.05 --unacceptable 0.15 --within 5000 | horizon of 5000 cases",
                "--chart lc --acceptable 0.05 --unacceptable 0.15 --limit 1 --odds 2 | only the chart llr",
                "--chart lc --acceptable 0.05 --unacceptable 0.15 --limit 1 --k 2 | only the chart tabular",
                "--chart lc --acceptable 0.05 --unacceptable 0.15 --limit 1 --watch 0 | lies above 0",
                "--chart llr --acceptable 0.05 --limit 1 --watch 2 | followed by a watch",
                "--chart llr --acceptable 0.05 --unacceptable 0.1 --odds 2 --limit 1 | two ways",
                "--chart llr --acceptable 0.05 --odds 1 --limit 1 | no change to look for",
                "--chart sprt --acceptable 0.05 --unacceptable 0.1 --limit 1 | follow from --alpha",
                "--chart sprt --acceptable 0.05 --unacceptable 0.1 --alpha 0.7 | alpha 0.7",
                "--chart oe --acceptable 0.05 --limit 1 | no limit to cross",
                "--chart oe | acceptable failure rate is missing",
                "--chart oe --acceptable 2 | between 0 and 1",
                "--chart llr --acceptable 0.05 --limit 1 --failure pcr | no column pcr",
                "--acceptable 0.05 | --chart"
            })
    void badParametersAreExplained(String line) throws IOException {
        String[] parts = line.split(" \\| ");
        List<String> arguments = new ArrayList<>(List.of("cusum", log(5), "--consecutive"));
        arguments.addAll(List.of(parts[0].split(" ")));
        Run run = run(arguments.toArray(String[]::new));
        assertThat(run.code()).isEqualTo(2);
        assertThat(run.err()).contains(parts[1]);
    }

    @Test
    void badRowsAreNamed() throws IOException {
        String[] rest = {"--consecutive", "--chart", "llr", "--acceptable", "0.05", "--limit", "1"};
        assertThat(run(with(rest, "cusum", file("case_number,failure\n1,0\n2,maybe\n")))
                        .err())
                .contains("line 3")
                .contains("neither 1 nor 0: maybe");
        assertThat(run(with(rest, "cusum", file("case_number,failure\nfirst,0\n")))
                        .err())
                .contains("no whole number: first");
        assertThat(run(with(rest, "cusum", file("n,failure\n1,0\n"))).err()).contains("no column case_number");
        Run risk = run(with(rest, "cusum", file("case_number,failure,risk\n1,0,2.5\n")));
        assertThat(risk.code()).isEqualTo(1);
        assertThat(risk.out()).contains("write 2.5 % as 0.025");
    }

    @Test
    void chartOfImprovementUsesHalfTheOdds() throws IOException {
        // R = ½ at 20 %: a success adds −ln .9 = .10536, so that 10 successes pass 1
        Run run = ran(
                "cusum",
                log(20),
                "--consecutive",
                "--chart",
                "llr",
                "--odds",
                "0.5",
                "--acceptable",
                "0.2",
                "--limit",
                "1");
        assertThat(run.out()).contains("shows an improvement first at case 10");
        assertThat(ran(
                                "cusum",
                                log(9),
                                "--consecutive",
                                "--chart",
                                "llr",
                                "--odds",
                                "0.5",
                                "--acceptable",
                                "0.2",
                                "--limit",
                                "1",
                                "--points")
                        .out())
                .contains("No sign of improvement in 9 cases")
                .contains("0.948");
        // odds of .1 and .2: 2.25
        assertThat(ran(
                                "cusum",
                                log(9),
                                "--consecutive",
                                "--chart",
                                "llr",
                                "--acceptable",
                                "0.1",
                                "--unacceptable",
                                "0.2",
                                "--limit",
                                "1",
                                "--json")
                        .json()
                        .at("/parameters/odds_multiplier")
                        .asDouble())
                .isCloseTo(2.25, within(1e-12));
    }

    @ParameterizedTest
    @CsvSource({
        "0.1, 2, .05, 304.0514, .13296, .26781",
        "0.1, 3, .20, 28.0886, .89374, .99474",
        "0.05, 2, .02, 992.4873, .03535, .08335"
    })
    void runLengthsOfATabularCusum(String k, String h, String p, double average, double by50, double by100) {
        JsonNode json = ran(
                        "arl",
                        "--chart",
                        "tabular",
                        "--acceptable",
                        "0.01",
                        "--unacceptable",
                        "0.3",
                        "--k",
                        k,
                        "--limit",
                        h,
                        "--rates",
                        p,
                        "--json")
                .json();
        assertThat(json.at("/run_lengths/0/average").asDouble()).isCloseTo(average, within(5.1e-5));
        assertThat(json.at("/run_lengths/0/within/0/signal").asDouble()).isCloseTo(by50, within(5.1e-6));
        assertThat(json.at("/run_lengths/0/within/1/signal").asDouble()).isCloseTo(by100, within(5.1e-6));
    }

    @Test
    void runLengthsOfChartsOfValues() {
        // Montgomery's table, h = 5
        JsonNode cusum = ran("arl", "--chart", "cusum", "--limit", "5", "--shifts", "0,1,3", "--json")
                .json();
        assertThat(cusum.at("/run_lengths/0/average").asDouble()).isCloseTo(465.44, within(.0051));
        assertThat(cusum.at("/run_lengths/1/average").asDouble()).isCloseTo(10.376, within(5.1e-4));
        assertThat(cusum.at("/run_lengths/2/average").asDouble()).isCloseTo(2.5733, within(5.1e-5));
        // R spc (src/test/oracle/monitoring): λ .1, L 2.7, steady limits
        JsonNode ewma = ran(
                        "arl",
                        "--chart",
                        "ewma",
                        "--lambda",
                        "0.1",
                        "--limit",
                        "2.7",
                        "--steady",
                        "--shifts",
                        "0.5",
                        "--json")
                .json();
        assertThat(ewma.at("/run_lengths/0/average").asDouble()).isCloseTo(368.99373, within(1e-4));
        assertThat(ewma.at("/run_lengths/1/average").asDouble()).isCloseTo(28.190540, within(1e-5));
        assertThat(ran("arl", "--chart", "ewma", "--lambda", "0.1", "--steady", "--run-length", "500", "--json")
                        .json()
                        .at("/parameters/width")
                        .asDouble())
                .isCloseTo(2.8143100, within(1e-5));
        assertThat(ran("arl", "--chart", "cusum", "--run-length", "500", "--json")
                        .json()
                        .at("/parameters/h")
                        .asDouble())
                .isCloseTo(5.0707039, within(1e-5));
        // Champ & Woodall 1987, table 1 (from memory): all four rules 91.75
        Run rules = ran("arl", "--chart", "individuals", "--rules", "all", "--shifts", "0");
        assertThat(rules.out()).contains("91.75").contains("false signal after 92 cases");
        assertThat(ran("arl", "--chart", "individuals", "--rules", "2of3", "--json")
                        .out())
                .contains("225.4");
    }

    @Test
    void runLengthsOfTheOtherChartsOfFailures() {
        // three per cent about 1 030 and 184 (section 5.3)
        JsonNode llr = ran("arl", "--chart", "llr", "--acceptable", "0.02", "--limit", "2", "--json")
                .json();
        assertThat(llr.at("/run_lengths/0/average").asDouble()).isBetween(1000.0, 1060.0);
        assertThat(llr.at("/run_lengths/1/average").asDouble()).isBetween(179.0, 189.0);
        assertThat(llr.at("/sentence").asString()).contains("can hardly convict or clear anybody");
        Run sprt =
                ran("arl", "--chart", "sprt", "--acceptable", "0.02", "--unacceptable", "0.05", "--horizon", "70,71");
        // 71 successes are the fewest: .98^71 = .2382 at the acceptable rate
        assertThat(sprt.out()).contains("the fewest cases to acceptance are 71").contains("23.8 %");
        JsonNode lc = ran(
                        "arl",
                        "--chart",
                        "lc",
                        "--acceptable",
                        "0.05",
                        "--unacceptable",
                        "0.15",
                        "--within",
                        "50",
                        "--false-signals",
                        "0.2",
                        "--json")
                .json();
        assertThat(lc.at("/run_lengths/1/within/0/signal").asDouble()).isLessThanOrEqualTo(.2);
        assertThat(lc.at("/sentence").asString()).contains("competence shown");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "--chart individuals --limit 2 | are 3 SD",
                "--chart individuals --rules 5of9 | no run rule 5of9",
                "--chart cusum --within 20 | not chosen by a number of cases",
                "--chart cusum --limit 3 --run-length 20 | more than one way",
                "--chart cusum --limit 3 --head-start 4 | head start",
                "--chart ewma --lambda 2 | lambda is 2.0",
                "--chart ewma --lambda 2 --run-length 100 | lambda is 2.0",
                "--chart cusum --shifts 90 | out of reach",
                "--chart cusum --horizon 0 | number of cases 0",
                "--chart llr --acceptable 0.1 --limit 1 --rates 1 | not at 1.0",
                "--chart sprt --acceptable 0.1 --unacceptable 0.2 --limit 1 | follow from --alpha"
            })
    void badDesignsAreExplained(String line) {
        String[] parts = line.split(" \\| ");
        Run run = run(with(parts[0].split(" "), "arl"));
        assertThat(run.code()).isEqualTo(2);
        assertThat(run.err()).contains(parts[1]);
    }

    private String flow(double... values) throws IOException {
        StringBuilder text = new StringBuilder("case_number,value\n");
        for (int i = 0; i < values.length; i++) {
            text.append(i + 1).append(',').append(values[i]).append('\n');
        }
        return file(text.toString());
    }

    @Test
    void individualsChartOfTheHandbook() throws IOException {
        // NIST/SEMATECH e-Handbook 6.3.2.2: limits 55.8041 and 45.8159 about 50.81, no signal
        String log = flow(49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1);
        JsonNode json = ran("chart", log, "--consecutive", "--json").json();
        assertThat(json.at("/baseline/mean").asDouble()).isCloseTo(50.81, within(1e-9));
        assertThat(json.at("/points/0/upper").asDouble()).isCloseTo(55.8041, within(5.1e-5));
        assertThat(json.at("/points/0/lower").asDouble()).isCloseTo(45.8159, within(5.1e-5));
        assertThat(json.at("/moving_ranges/3/statistic").asDouble()).isCloseTo(3.5, within(1e-9));
        assertThat(json.at("/signals")).isEmpty();
        Run text = ran("chart", log, "--consecutive");
        assertThat(text.out())
                .contains("Limits: 45.8159 to 55.8041")
                .contains("speed is not competence")
                .contains("looks back")
                .contains("None of 10 cases stands out");
        // 51.3 at case 4 is the first beyond 45 + 3 × 2; all lie above 47, so the eighth ends a row of eight
        assertThat(ran("chart", log, "--consecutive", "--mean", "45", "--sd", "2")
                        .out())
                .containsPattern("4 +51.300 +51.300 +high: a point beyond 3 SD")
                .doesNotContain("looks back");
        assertThat(ran("chart", log, "--consecutive", "--mean", "47", "--sd", "3", "--rules", "8", "--points")
                        .out())
                .containsPattern("7 +52.600 +52.600\\R")
                .containsPattern("8 +52.400 +52.400 +high: eight in a row on one side");
    }

    @Test
    void ewmaAndCusumOfTheHandbook() throws IOException {
        // 6.3.2.4: target 50, s 2.0539, lambda .3, the twentieth statistic 51.99
        String log = flow(
                52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6,
                52.4, 53.6, 52.1);
        JsonNode ewma = ran(
                        "chart",
                        log,
                        "--consecutive",
                        "--chart",
                        "ewma",
                        "--lambda",
                        "0.3",
                        "--limit",
                        "3",
                        "--steady",
                        "--mean",
                        "50",
                        "--sd",
                        "2.0539",
                        "--json")
                .json();
        assertThat(ewma.at("/points/19/statistic").asDouble()).isCloseTo(51.99, within(.0051));
        assertThat(ewma.at("/points/0/upper").asDouble()).isCloseTo(52.5884, within(1.1e-4));
        assertThat(ewma.at("/baseline/cases").isNull()).isTrue();
        // 6.3.2.3 (from memory): sums 3.01 and 4.94 over h = 4.1959 at the fourteenth
        log = flow(
                324.925, 324.675, 324.725, 324.350, 325.350, 325.225, 324.125, 324.525, 325.225, 324.600, 324.625,
                325.150, 328.325, 327.250, 327.825, 328.500, 326.675, 327.775, 326.875, 328.350);
        JsonNode cusum = ran(
                        "chart",
                        log,
                        "--consecutive",
                        "--chart",
                        "cusum",
                        "--k",
                        "0.3175",
                        "--limit",
                        "4.1959",
                        "--mean",
                        "325",
                        "--sd",
                        "1",
                        "--restart",
                        "stop",
                        "--json")
                .json();
        assertThat(cases(cusum.at("/signals"))).containsExactly(14);
        assertThat(cusum.at("/points/13/statistic").asDouble()).isCloseTo(4.94, within(.0051));
        assertThat(cusum.at("/lower_side/7/statistic").asDouble()).isCloseTo(.72, within(.0051));
        assertThat(cusum.at("/sentence").asString()).startsWith("Case 14 of 14 stands out");
    }

    @Test
    void logarithmsAreShownAsValues() throws IOException {
        // ln 8 − ln 2 = 2 ln 2; the mean of ln 2, ln 8, ln 2 is ln(32)/3, the range mean 2 ln 2
        Run run = ran("chart", flow(2, 8, 2), "--consecutive", "--log", "--json");
        JsonNode json = run.json();
        assertThat(json.at("/baseline/mean").asDouble()).isCloseTo(Math.log(32) / 3, within(1e-12));
        assertThat(json.at("/baseline/sd").asDouble()).isCloseTo(2 * Math.log(2) / 1.128, within(1e-12));
        assertThat(json.at("/points/1/value").asDouble()).isCloseTo(8, within(1e-12));
        assertThat(json.at("/scale").asString()).isEqualTo("ln");
        assertThat(ran("chart", flow(2, 8, 2), "--consecutive", "--log").out()).contains("geometric mean 3.175");
        Run zero = run("chart", flow(2, 0, 2), "--consecutive", "--log");
        assertThat(zero.code()).isEqualTo(1);
        assertThat(zero.out()).contains("has no logarithm");
    }

    @Test
    void valuesHaveToBeEveryCaseInTurnToo() throws IOException {
        assertThat(run("chart", flow(1, 2, 3)).out()).contains("add --consecutive");
        Run gap = run("chart", file("case_number,value\n1,5\n2,\n3,7\n"), "--consecutive");
        assertThat(gap.code()).isEqualTo(1);
        assertThat(gap.out()).contains("case 2 unknown");
        assertThat(run("chart", flow(1), "--consecutive").out()).contains("the chart needs 2");
        assertThat(run("chart", flow(1, 2), "--consecutive", "--mean", "1").err())
                .contains("belong together");
        assertThat(run("chart", flow(1, 2), "--consecutive", "--mean", "1", "--sd", "0")
                        .err())
                .contains("above 0");
        assertThat(run("chart", flow(1, 2), "--consecutive", "--mean", "1", "--sd", "1", "--baseline", "2")
                        .err())
                .contains("two ways");
        assertThat(run("chart", flow(1, 2), "--consecutive", "--baseline", "1").err())
                .contains("2 cases at least");
        assertThat(run("chart", flow(1, 2), "--consecutive", "--limit", "2").err())
                .contains("are 3 SD");
        assertThat(run("chart", flow(1, 2), "--consecutive", "--baseline", "3").out())
                .contains("2 cases");
    }

    @ParameterizedTest
    @ValueSource(strings = {"cusum", "arl", "chart"})
    void helpShowsAnExampleForEveryColumn(String command) {
        Run help = run(command, "--help");
        assertThat(help.code()).isZero();
        assertThat(help.out()).contains("sideport stats " + command + " ");
        assertThat(help.out().lines().mapToInt(String::length).max().orElseThrow())
                .isLessThanOrEqualTo(80);
    }
}
