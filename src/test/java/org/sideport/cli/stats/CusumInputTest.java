package org.sideport.cli.stats;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

/**
 * The command cusum: what it takes and what it refuses. Where nothing else is said the figures were worked out
 * outside this program by exact arithmetic.
 */
class CusumInputTest extends MonitoringRun {

    @Test
    void aColumnNamedAlmostLikeItKeepsItsGuard() throws IOException {
        String[] rates = {"--chart", "lc", "--acceptable", "0.05", "--unacceptable", "0.15", "--limit", "1.5"};
        String gap = file("case_no,date,pcr\n1,2026-01-01,0\n2,2026-01-02,1\n4,2026-01-03,0\n");
        Run refused = run(with(rates, "cusum", gap, "--consecutive", "--failure", "pcr"));
        assertThat(refused.code()).isEqualTo(1);
        assertThat(refused.out()).contains("case 3 missing");
        Run unnamed = run(with(rates, "cusum", gap, "--consecutive"));
        assertThat(unnamed.code()).isEqualTo(2);
        assertThat(unnamed.err()).contains("there is no column failure").contains("--failure COLUMN");
        Run percent = run("cusum", gap, "--chart", "lc", "--acceptable", "5%", "--unacceptable", "0.15");
        assertThat(percent.err()).contains("'5%' is no number").contains("0.05");
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
}
