package org.sideport.cli.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** The commands on agreement as a user runs them, in this process. */
class AgreementCommandsTest extends OneStatsRun {

    /** Shrout & Fleiss 1979, Psychological Bulletin 86:420, table 2. */
    private static final double[][] SHROUT_FLEISS = {
        {9, 2, 5, 8}, {6, 1, 3, 2}, {8, 4, 6, 8}, {7, 1, 2, 6}, {10, 5, 6, 9}, {6, 2, 4, 7}
    };

    private static String longCsv(String header, double[][] table) {
        StringBuilder csv = new StringBuilder(header + "\n");
        for (int i = 0; i < table.length; i++) {
            for (int j = 0; j < table[i].length; j++) {
                csv.append("T")
                        .append(i + 1)
                        .append(",A")
                        .append(j + 1)
                        .append(",")
                        .append(table[i][j])
                        .append("\n");
            }
        }
        return csv.toString();
    }

    @Test
    void iccShowsThePublishedFormsAndAdvisesAbsoluteAgreement() throws IOException {
        String csv = file(longCsv("subject,rater,score", SHROUT_FLEISS));
        assertThat(call("icc", csv, "--json")).isZero();
        JsonNode json = json();
        // figures of Shrout & Fleiss 1979, limits by R psych, src/test/oracle/agreement/icc.R
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
        assertThat(call("icc", csv, "--confidence", "0.9")).isZero();
        assertThat(out.toString()).contains("90 % 0.043 to 0.691").contains("raters (severity)");
    }

    @Test
    void iccBridgesGapsOrLeavesSubjectsOutOnWish() throws IOException {
        String csv = file(longCsv("subject,rater,score", SHROUT_FLEISS) + "T7,A1,5\n");
        assertThat(call("icc", csv, "--resamples", "100", "--json")).isZero();
        assertThat(json().at("/subjects").asInt()).isEqualTo(7);
        assertThat(json().at("/scores").asInt()).isEqualTo(25);
        assertThat(json().at("/mean_squares").isNull()).isTrue();
        assertThat(json().at("/variance_components/raters_per_subject").asDouble())
                .isCloseTo(7 / (6 / 4.0 + 1), within(1e-12));
        assertThat(json().at("/warnings/0").asString()).contains("3 of 28 scores are missing");
        assertThat(call("icc", csv, "--complete-only", "--json")).isZero();
        assertThat(json().at("/subjects").asInt()).isEqualTo(6);
        assertThat(json().at("/warnings/0").asString()).contains("1 of 7 subjects were left out");
    }

    @Test
    void iccOfRatersWithoutSharedSubjectsGivesTheOneWayForms() throws IOException {
        String csv = file("subject,rater,score\nT1,A1,1\nT1,A2,2\nT2,A3,5\nT2,A4,4\nT3,A5,8\nT3,A6,9\n");
        assertThat(call("icc", csv, "--resamples", "100")).isZero();
        assertThat(out.toString())
                .contains("ICC(1,1)")
                .doesNotContain("raters (severity)")
                .contains("share no subjects");
    }

    /** By R vcd and by hand: agreement .675, kappa .553648, linear .704545, quadratic .836478. */
    @Test
    void kappaOfTwoRatersWithWeights() throws IOException {
        int[][] table = {{4, 2, 0, 0}, {1, 6, 3, 0}, {0, 2, 9, 2}, {0, 0, 3, 8}};
        StringBuilder csv = new StringBuilder("subject,rater,score\n");
        int subject = 0;
        for (int i = 0; i < 4; i++) {
            for (int j = 0; j < 4; j++) {
                for (int times = 0; times < table[i][j]; times++) {
                    subject++;
                    csv.append("S" + subject + ",A1," + (i + 2) + "\nS" + subject + ",A2," + (j + 2) + "\n");
                }
            }
        }
        String path = file(csv.toString());
        assertThat(call("kappa", path, "--json")).isZero();
        assertThat(json().at("/cohen/estimate").asDouble()).isCloseTo(.553648, within(5e-7));
        assertThat(json().at("/cohen/observed").asDouble()).isCloseTo(.675, within(1e-12));
        assertThat(json().at("/fleiss_by_level").size()).isEqualTo(4);
        assertThat(call("kappa", path, "--weights", "quadratic", "--json")).isZero();
        assertThat(json().at("/cohen/estimate").asDouble()).isCloseTo(.836478, within(5e-7));
        assertThat(call("kappa", path, "--weights", "linear")).isZero();
        assertThat(out.toString()).contains("0.705").contains("Gwet's AC2").contains("counting near misses in part");
        assertThat(call("kappa", path, "--levels", "2,3,4")).isEqualTo(2);
        assertThat(err.toString()).contains("the score 5 is none of the levels");
        // an unused level changes the weights: the widest distance is 4, not 3
        assertThat(call("kappa", path, "--weights", "linear", "--levels", "1,2,3,4,5", "--json"))
                .isZero();
        assertThat(json().at("/cohen/observed").asDouble()).isCloseTo(1 - 13 / 40.0 / 4, within(1e-12));
    }

    /** Krippendorff 2011: ordinal alpha .815. */
    @Test
    void krippendorffOfTheExampleWithGaps() throws IOException {
        int[][] rows = {
            {1, 2, 3, 3, 2, 1, 4, 1, 2, 0, 0, 0},
            {1, 2, 3, 3, 2, 2, 4, 1, 2, 5, 0, 3},
            {0, 3, 3, 3, 2, 3, 4, 2, 2, 5, 1, 0},
            {1, 2, 3, 3, 2, 4, 4, 1, 2, 5, 1, 0}
        };
        StringBuilder csv = new StringBuilder("subject,rater,score\n");
        for (int rater = 0; rater < 4; rater++) {
            for (int unit = 0; unit < 12; unit++) {
                csv.append("U" + unit + ",A" + rater + "," + (rows[rater][unit] == 0 ? "" : rows[rater][unit]) + "\n");
            }
        }
        String path = file(csv.toString());
        assertThat(call("krippendorff", path, "--resamples", "200", "--json")).isZero();
        assertThat(json().at("/estimate").asDouble()).isCloseTo(.815388, within(5e-7));
        assertThat(json().at("/scale").asString()).isEqualTo("ordinal");
        assertThat(call("krippendorff", path, "--scale", "nominal", "--resamples", "200"))
                .isZero();
        assertThat(out.toString()).contains("alpha (nominal)  0.743");
        assertThat(call("krippendorff", path, "--resamples", "10")).isEqualTo(2);
    }

    /** Shrout & Fleiss 1979: ICC(3,4), which is alpha, .91. */
    @Test
    void cronbachShowsAlphaAndEachItem() throws IOException {
        String csv = file(longCsv("subject,item,score", SHROUT_FLEISS));
        assertThat(call("cronbach", csv, "--json")).isZero();
        assertThat(json().at("/estimate").asDouble()).isCloseTo(.9093155424, within(1e-9));
        assertThat(json().at("/items/3/item").asString()).isEqualTo("A4");
        assertThat(json().at("/items/3/mean").asDouble()).isCloseTo(40 / 6.0, within(1e-12));
        assertThat(call("cronbach", csv)).isZero();
        assertThat(out.toString()).contains("alpha 0.909 (95 % 0.676 to 0.986), 6 subjects, 4 items");
    }

    /** Bland & Altman 1986: −2.1, limits −79.7 and 75.5. */
    @Test
    void blandAltmanOfPairsAndOfRepeats() throws IOException {
        double[] first = {494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427};
        double[] second = {512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451};
        StringBuilder csv = new StringBuilder("subject,first,second\n");
        for (int i = 0; i < 17; i++) {
            csv.append("S" + i + "," + first[i] + "," + second[i] + "\n");
        }
        assertThat(call("bland-altman", file(csv.toString()), "--multiplier", "2", "--json"))
                .isZero();
        assertThat(json().at("/bias/estimate").asDouble()).isCloseTo(-2.117647, within(5e-7));
        assertThat(json().at("/lower/estimate").asDouble()).isCloseTo(-79.647907, within(5e-7));
        assertThat(json().at("/upper/estimate").asDouble()).isCloseTo(75.412613, within(5e-7));
        // differences of T1 0 and 2, of T2 1, of T3 −1: by hand mean ½; the rows of T1 are two pairs
        assertThat(call("bland-altman", file("subject,first,second\nT1,1,1\nT1,3,1\nT2,2,1\nT3,1,2\n"), "--json"))
                .isZero();
        assertThat(json().at("/bias/method").asString()).contains("true value may vary");
        assertThat(json().at("/bias/estimate").asDouble()).isEqualTo(.5);
        String constant = file("subject,first,second\nT1,1,1\nT1,3,\nT2,4,3\nT2,4,\nT3,5,8\nT3,9,\n");
        assertThat(call("bland-altman", constant, "--constant", "--json")).isZero();
        assertThat(json().at("/sd").asDouble()).isCloseTo(Math.sqrt(3), within(1e-12));
        assertThat(call("bland-altman", constant)).isEqualTo(2);
        assertThat(call("bland-altman", file("subject,first,second\nT1,,1\n"), "--constant"))
                .isEqualTo(2);
        assertThat(err.toString()).contains("subject T1 was measured by one of the two only");
        assertThat(call("bland-altman", file("subject,first,second\nT1,1,1\n"))).isEqualTo(1);
        assertThat(call("bland-altman", constant, "--multiplier", "0")).isEqualTo(2);
    }

    @Test
    void usualOtherNamesOfColumnsAndSeveralCasesOfATraineeAreUnderstood() throws IOException {
        StringBuilder csv = new StringBuilder("trainee,operation,assessor,total\n");
        for (int i = 0; i < 6; i++) {
            for (int j = 0; j < 4; j++) {
                csv.append("T" + i / 2 + ",op" + i % 2 + ",A" + j + "," + SHROUT_FLEISS[i][j] + "\n");
            }
        }
        assertThat(call("icc", file(csv.toString()), "--json")).isZero();
        assertThat(json().at("/subjects").asInt()).isEqualTo(6);
        assertThat(json().at("/icc/1/estimate").asDouble()).isCloseTo(.2897637795, within(1e-9));
        assertThat(call("icc", file("person,A1,A2\nT1,3,4\n"))).isEqualTo(2);
        assertThat(err.toString())
                .contains("there are no columns rater (or assessor")
                .contains("and no score (or total");
        assertThat(call("icc", file("subject,rater,score\nT1,A1,3\nT1,A1,4\n"))).isEqualTo(1);
        assertThat(out.toString()).contains("add a column case");
    }

    @Test
    void badInputIsNamed() throws IOException {
        assertThat(call("icc", file("subject,score\nT1,3\n"))).isEqualTo(2);
        assertThat(err.toString()).contains("there is no column rater");
        assertThat(call("icc", file("subject,rater,score\nT1,A1,3\nT1,A1,4\n"))).isEqualTo(1);
        assertThat(out.toString()).contains("T1 has two scores of rater A1");
        String csv = file(longCsv("subject,rater,score", SHROUT_FLEISS));
        assertThat(call("icc", csv, "--confidence", "95")).isEqualTo(2);
        assertThat(call("icc", csv, "--step", "0")).isEqualTo(2);
    }
}
