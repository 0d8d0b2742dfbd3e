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
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.cli.Main;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The commands on agreement as a user runs them, in this process. */
class AgreementCommandsTest {

    /** Shrout & Fleiss 1979, Psychological Bulletin 86:420, table 2. */
    private static final double[][] SHROUT_FLEISS = {
        {9, 2, 5, 8}, {6, 1, 3, 2}, {8, 4, 6, 8}, {7, 1, 2, 6}, {10, 5, 6, 9}, {6, 2, 4, 7}
    };

    @TempDir
    Path home;

    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();

    private int run(String... arguments) {
        out.getBuffer().setLength(0);
        err.getBuffer().setLength(0);
        List<String> all = new ArrayList<>(List.of("stats"));
        all.addAll(List.of(arguments));
        return Main.run(
                all.toArray(String[]::new), new PrintWriter(out, true), new PrintWriter(err, true), Map.of(), home);
    }

    private JsonNode json() {
        return JsonMapper.builder().build().readTree(out.toString());
    }

    private String file(String text) throws IOException {
        return Files.writeString(home.resolve("data.csv"), text).toString();
    }

    private static String longCsv(String header, double[][] table) {
        StringBuilder csv = new StringBuilder(header + "\n");
        for (int i = 0; i < table.length; i++) {
            for (int j = 0; j < table[i].length; j++) {
                csv.append("T").append(i + 1).append(",A").append(j + 1).append(",").append(table[i][j]).append("\n");
            }
        }
        return csv.toString();
    }

    @Test
    void iccShowsThePublishedFormsAndAdvisesAbsoluteAgreement() throws IOException {
        String csv = file(longCsv("subject,rater,score", SHROUT_FLEISS));
        assertThat(run("icc", csv, "--json")).isZero();
        JsonNode json = json();
        // check values of Shrout & Fleiss 1979, limits by R psych, src/test/oracle/agreement/icc.R
        assertThat(json.at("/icc/1/form").asString()).isEqualTo("ICC(2,1)");
        assertThat(json.at("/icc/1/mcgraw_wong").asString()).isEqualTo("ICC(A,1)");
        assertThat(json.at("/icc/1/estimate").asDouble()).isCloseTo(.2897637795, within(1e-9));
        assertThat(json.at("/icc/1/lower").asDouble()).isCloseTo(.01878651, within(1e-7));
        assertThat(json.at("/icc/5/estimate").asDouble()).isCloseTo(.9093155424, within(1e-9));
        assertThat(json.at("/icc/0/f").asDouble()).isCloseTo(1.794678, within(1e-6));
        assertThat(json.at("/variance_components/rater").asDouble()).isCloseTo(5.244444, within(1e-6));
        assertThat(json.at("/mean_squares/error").asDouble()).isCloseTo(1.01944, within(5e-6));
        // second against third judge: differences -3 -2 -2 -1 -1 -2
        assertThat(json.at("/agreement/pairs/3/within_one_level").asDouble()).isCloseTo(2.0 / 6, within(1e-12));
        assertThat(json.at("/agreement/pairs/3/mean_difference").asDouble()).isCloseTo(-11.0 / 6, within(1e-12));
        assertThat(json.at("/sentence").asString()).contains("For decisions read the absolute agreement");
        assertThat(run("icc", csv, "--confidence", "0.9")).isZero();
        assertThat(out.toString()).contains("90 % 0.043 to 0.691").contains("raters (severity)");
    }

    @Test
    void iccRefusesGapsUnlessToldToLeaveSubjectsOut() throws IOException {
        String csv = file(longCsv("subject,rater,score", SHROUT_FLEISS) + "T7,A1,5\n");
        assertThat(run("icc", csv)).isEqualTo(1);
        assertThat(out.toString()).contains("3 of 28 scores are missing");
        assertThat(run("icc", csv, "--complete-only", "--json")).isZero();
        assertThat(json().at("/subjects").asInt()).isEqualTo(6);
        assertThat(json().at("/warnings/0").asString()).contains("1 of 7 subjects were left out");
    }

    @Test
    void badInputIsNamed() throws IOException {
        assertThat(run("icc", file("subject,score\nT1,3\n"))).isEqualTo(2);
        assertThat(err.toString()).contains("there is no column rater");
        assertThat(run("icc", file("subject,rater,score\nT1,A1,3\nT1,A1,4\n"))).isEqualTo(1);
        assertThat(out.toString()).contains("T1 has two scores of rater A1");
        String csv = file(longCsv("subject,rater,score", SHROUT_FLEISS));
        assertThat(run("icc", csv, "--confidence", "95")).isEqualTo(2);
        assertThat(run("icc", csv, "--step", "0")).isEqualTo(2);
    }
}
