package org.sideport.cli.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

/**
 * The commands arl and chart. Where nothing else is said the figures were worked out
 * outside this program by exact arithmetic.
 */
class ValueCommandsTest extends MonitoringRun {

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
