package org.sideport.cli.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** The command as a user runs it, in this process. Expected numbers: R, src/test/oracle/learning/learning.R. */
class CurveCommandTest extends OneStatsRun {

    private static final double[] SLIP = {1000, 905, 860, 800, 790, 1900, 720, 735, 700, 690, 660, 668, 645, 640};
    private static final double[] WOBBLE = {
        5.1, 4.7, 5.6, 5.0, 4.4, 5.3, 4.9, 5.8, 4.6, 5.2, 5.0, 4.5, 5.5, 4.8, 5.4, 5.1
    };

    private String series(double... values) throws IOException {
        StringBuilder csv = new StringBuilder("subject,case_number,value\n");
        for (int i = 0; i < values.length; i++) {
            csv.append(String.format(Locale.ROOT, "T03,%d,%s%n", i + 1, values[i]));
        }
        return file(csv.toString());
    }

    @Test
    void anOutlyingCaseIsNamedWeighedDownAndCanBeSeenInBothFits() throws IOException {
        assertThat(call(
                        "curve",
                        series(SLIP),
                        "--model",
                        "power",
                        "--robust",
                        "bisquare",
                        "--reference",
                        "700",
                        "--resamples",
                        "199",
                        "--json"))
                .isZero();
        JsonNode json = json();
        assertThat(json.at("/subject").asString()).isEqualTo("T03");
        assertThat(json.at("/n").asInt()).isEqualTo(14);
        assertThat(json.at("/model").asString()).isEqualTo("power");
        assertThat(json.at("/models")).hasSize(4);
        assertThat(json.at("/models/0/delta").asDouble()).isZero();
        assertThat(json.at("/parameters/0/name").asString()).isEqualTo("first");
        assertThat(json.at("/parameters/0/robust_estimate").asDouble()).isCloseTo(1019.923136, within(1e-4));
        assertThat(json.at("/parameters/1/name").asString()).isEqualTo("factor_per_doubling");
        assertThat(json.at("/parameters/1/robust_estimate").asDouble()).isCloseTo(0.887238608071, within(1e-8));
        assertThat(json.at("/robust/loss").asString()).isEqualTo("bisquare");
        assertThat(json.at("/robust/weights")).hasSize(14);
        assertThat(json.at("/robust/weights/7/weight").asDouble()).isCloseTo(0.801544179483, within(1e-6));
        assertThat(json.at("/outliers")).hasSize(1);
        assertThat(json.at("/outliers/0/case_number").asInt()).isEqualTo(6);
        assertThat(json.at("/outliers/0/weight").asDouble()).isZero();
        // S r^log₂n = 700: log₂ n = log(700/S)/log r
        double robust = Math.pow(2, Math.log(700 / 1019.923136) / Math.log(0.887238608071));
        assertThat(json.at("/reference/robust_cases").asDouble()).isCloseTo(robust, within(1e-4));
        assertThat(json.at("/reference/reach").asString()).isNotEmpty();
        assertThat(json.at("/warnings").toString()).contains("1 outlying case kept in the least-squares fit");
        assertThat(json.at("/model_without_outliers").asString()).isNotEmpty();
        assertThat(json.at("/sentence").asString())
                .contains("speed is not competence")
                .contains("later cases are often harder ones");
    }

    @Test
    void theTablesAreForPeople() throws IOException {
        assertThat(call("curve", series(SLIP), "--robust", "huber", "--reference", "100", "--resamples", "199"))
                .isZero();
        assertThat(out.toString())
                .contains("14 cases of T03, numbers 1 to 14; duration, errors as factors")
                .contains("best by AICc")
                .contains("huber")
                .contains("outlying case")
                .contains("Weight of each case: 1: ")
                .contains("Change of level at case")
                .contains("Change of slope at case")
                .contains("Cases to the reference 100.000: ")
                .contains("With outlying cases weighed down:");
        assertThat(call("curve", series(SLIP), "--model", "log-linear")).isZero();
        assertThat(out.toString())
                .contains("as asked for")
                .contains("change per doubling")
                .doesNotContain("Weight of each case")
                .doesNotContain("reference");
    }

    @Test
    void aScoreWithoutTrendIsNotGivenOne() throws IOException {
        assertThat(call("curve", series(WOBBLE), "--measure", "score", "--reference", "5.5", "--json"))
                .isZero();
        JsonNode json = json();
        assertThat(json.at("/scale").asString()).isEqualTo("plain");
        assertThat(json.at("/model").asString()).isEqualTo("constant");
        assertThat(json.at("/sentence").asString()).startsWith("No change of the score with the case number is shown");
        assertThat(json.at("/change_points/0/p").asDouble()).isCloseTo(0.9574, within(0.03));
        assertThat(json.at("/change_points/0/better_than_curves").asBoolean()).isFalse();
        assertThat(json.at("/reference/reach").asString()).isEqualTo("never");
        assertThat(json.at("/reference/cases").isNull()).isTrue();
        assertThat(json.at("/reference/upper").isNull()).isTrue();
        assertThat(json.at("/outliers")).isEmpty();
        assertThat(call("curve", series(WOBBLE), "--measure", "score", "--reference", "5.5"))
                .isZero();
        assertThat(out.toString())
                .contains("errors as differences")
                .contains("No outlying cases")
                .contains("no change is shown.")
                .contains("never on this curve");
        assertThat(call("curve", series(WOBBLE), "--measure", "score", "--better", "lower", "--reference", "5.5"))
                .isZero();
        assertThat(out.toString()).contains("the curve is there from the first case on");
    }

    @Test
    void oneOfSeveralSubjectsIsChosen() throws IOException {
        StringBuilder csv = new StringBuilder("Subject;Case_number;Value\n");
        for (int i = 0; i < 14; i++) {
            csv.append("T03;").append(i + 1).append(';').append((int) SLIP[i]).append('\n');
            csv.append("T04;")
                    .append(i + 1)
                    .append(';')
                    .append(i == 13 ? "" : 500 + i % 3)
                    .append('\n');
        }
        csv.append("T04;13;520\n");
        String file = file(csv.toString());
        assertThat(call("curve", file)).isEqualTo(2);
        assertThat(err.toString()).contains("there are 2 subjects: T03, T04").contains("--subject");
        assertThat(call("curve", file, "--subject", "T04", "--json")).isZero();
        assertThat(json().at("/n").asInt()).isEqualTo(14);
        assertThat(json().at("/rows_without_value").asInt()).isEqualTo(1);
        assertThat(json().at("/warnings").toString())
                .contains("1 row without a value left out")
                .contains("occur more than once");
        assertThat(call("curve", file, "--subject", "T09")).isEqualTo(2);
        assertThat(err.toString()).contains("there is no subject T09").contains("T03, T04");
    }

    @Test
    void aFileWithoutSubjectsIsOneSeries() throws IOException {
        StringBuilder csv = new StringBuilder("case_number,value\n");
        for (int i = 0; i < WOBBLE.length; i++) {
            csv.append(i + 1).append(',').append(WOBBLE[i]).append('\n');
        }
        assertThat(call("curve", file(csv.toString()), "--json")).isZero();
        assertThat(json().at("/subject").isNull()).isTrue();
    }

    @Test
    void tooFewCasesAreRefusedWithOne() throws IOException {
        assertThat(call("curve", series(5, 4, 3, 2, 1))).isEqualTo(1);
        assertThat(out.toString()).contains("there are 5 cases").contains("at least 10 cases");
        double[] zero = SLIP.clone();
        zero[2] = 0;
        assertThat(call("curve", series(zero), "--json")).isEqualTo(1);
        assertThat(json().at("/refused/reason").asString()).isEqualTo("unsuitable_data");
    }

    @Test
    void badInputEndsWithTwoAndNamesThePlace() throws IOException {
        assertThat(call("curve", file("subject,value\nT1,1\n"))).isEqualTo(2);
        assertThat(err.toString()).contains("case_number").contains("line 1");
        assertThat(call("curve", file("case_number,value\none,3\n"))).isEqualTo(2);
        assertThat(err.toString()).contains("the case_number is no number: one").contains("line 2");
        assertThat(call("curve", file("case_number,value\n1,\n"))).isEqualTo(2);
        assertThat(err.toString()).contains("no row has a value");
        String good = series(SLIP);
        assertThat(call("curve", good, "--confidence", "95")).isEqualTo(2);
        assertThat(err.toString()).contains("--confidence");
        assertThat(call("curve", good, "--resamples", "10")).isEqualTo(2);
        assertThat(err.toString()).contains("--resamples");
        assertThat(call("curve", good, "--reference", "-5")).isEqualTo(2);
        assertThat(err.toString()).contains("there is no duration -5.0");
        assertThat(call("curve", good, "--model", "spline")).isEqualTo(2);
        assertThat(err.toString()).contains("there is no curve spline");
        assertThat(call("curve", file("case_number,value\n1,2\n"), "--subject", "T1"))
                .isEqualTo(2);
        assertThat(err.toString()).contains("there is no column subject");
    }

    @Test
    void helpShowsTheColumnsAndAnExample() {
        assertThat(call("curve", "--help")).isZero();
        assertThat(out.toString())
                .contains("subject,case_number,value")
                .contains("T03,17,742.5")
                .contains("--reference")
                .contains("--robust");
    }
}
