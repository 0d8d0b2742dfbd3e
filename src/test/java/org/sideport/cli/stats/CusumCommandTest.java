package org.sideport.cli.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/**
 * The command cusum: what it charts. Where nothing else is said the figures were worked out
 * outside this program by exact arithmetic.
 */
class CusumCommandTest extends MonitoringRun {

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
                .contains("last value 1.557 at case 21, where the chart stopped; the 9 cases after it are not charted")
                .contains("this limit is loose");
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
}
