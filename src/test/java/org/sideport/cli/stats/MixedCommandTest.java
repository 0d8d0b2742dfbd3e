package org.sideport.cli.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** The command as a user runs it, in this process. Expected numbers: lme4, src/test/oracle/mixed/mixed.R. */
class MixedCommandTest extends OneStatsRun {

    /** lme4's sleepstudy with the columns that the command reads. */
    private String sleepstudy() throws IOException {
        String csv = Files.readString(Path.of("src/test/resources/mixed/sleepstudy.csv"));
        return Files.writeString(
                        folder.resolve("data.csv"),
                        csv.replaceFirst("subject,days,reaction", "subject,case_number,value"))
                .toString();
    }

    @Test
    void sleepstudyComesOutAsPublished() throws IOException {
        assertThat(call("mixed", sleepstudy(), "--better", "lower", "--at", "9,0", "--json"))
                .isZero();
        JsonNode json = json();
        assertThat(json.at("/fixed_effects/0/estimate").asDouble()).isCloseTo(251.4051048, within(5e-8));
        assertThat(json.at("/fixed_effects/1/name").asString()).isEqualTo("case_number");
        assertThat(json.at("/fixed_effects/1/estimate").asDouble()).isCloseTo(10.4672860, within(5e-8));
        assertThat(json.at("/fixed_effects/1/df").asDouble()).isCloseTo(17, within(1e-5));
        assertThat(json.at("/fixed_effects/1/t").asDouble()).isCloseTo(6.771, within(5e-4));
        assertThat(json.at("/criterion").asString()).isEqualTo("reml");
        assertThat(json.at("/criterion_value").asDouble()).isCloseTo(1743.628272, within(5e-7));
        assertThat(json.at("/random_effects/sd/1/estimate").asDouble()).isCloseTo(5.9221, within(5e-5));
        assertThat(json.at("/random_effects/sd/1/upper").asDouble()).isCloseTo(8.7534, within(5e-3));
        assertThat(json.at("/random_effects/correlations/0/estimate").asDouble())
                .isCloseTo(.06555, within(5e-5));
        assertThat(json.at("/random_effects/residual_sd/estimate").asDouble()).isCloseTo(25.5918, within(5e-4));
        assertThat(json.at("/random_effects/singular").asBoolean()).isFalse();
        assertThat(json.at("/slope_variance_test/likelihood_ratio").asDouble()).isCloseTo(42.8368, within(5e-4));
        // per 10 cases
        assertThat(json.at("/slope_change/estimate").asDouble()).isCloseTo(104.67286, within(5e-6));
        assertThat(json.at("/population/0/case_number").asDouble()).isZero();
        assertThat(json.at("/population/1/value").asDouble()).isCloseTo(345.6107, within(5e-4));
        assertThat(json.at("/trainees/0/subject").asString()).isEqualTo("S308");
        assertThat(json.at("/trainees/0/slope/own/estimate").asDouble()).isCloseTo(19.66626, within(5e-5));
        assertThat(json.at("/trainees/0/change/estimate").asDouble()).isCloseTo(196.6626, within(5e-4));
        assertThat(json.at("/trainees/0/at/1/value").asDouble()).isCloseTo(430.6600, within(5e-4));
        assertThat(json.at("/trainees/0/at/1/new_case_upper").asDouble())
                .isGreaterThan(json.at("/trainees/0/at/1/upper").asDouble() + 20);
        assertThat(json.at("/trainees")).hasSize(18);
        assertThat(json.at("/sentence").asString())
                .contains("a change for the worse per 10 cases is shown: 104.673")
                .contains("not adjusted for case mix");
        assertThat(json.at("/warnings").toString()).contains("harder cases are often given later");
    }

    @Test
    void outlyingCasesAreListedAndTheSlopeIsSaidWithoutThem() throws IOException {
        assertThat(call("mixed", sleepstudy(), "--no-profile")).isZero();
        // residuals 5.53, −4.57, −4.32 are the farthest in the reference (stdres.147, 150, 8)
        assertThat(out.toString())
                .contains("S332        6  454.162      5.53")
                .contains("S332        9  253.864     −4.57")
                .contains("S308        7  290.149     −4.32")
                .contains("Slope with all cases 104.673 (95 % 72.060 to 137.286) per 10 cases; without them ")
                .contains("3 outlying cases kept in the fit")
                .contains("an improvement per 10 cases is shown");
        assertThat(call("mixed", sleepstudy(), "--json")).isZero();
        assertThat(json().at("/outliers")).hasSize(3);
        assertThat(json().at("/outliers/0/case_number").asInt()).isEqualTo(7);
        assertThat(json().at("/without_outliers/observations").asInt()).isEqualTo(177);
    }

    @Test
    void levelsAloneAndMaximumLikelihoodCanBeAskedFor() throws IOException {
        assertThat(call("mixed", sleepstudy(), "--no-slope", "--no-profile", "--json"))
                .isZero();
        JsonNode json = json();
        assertThat(json.at("/criterion_value").asDouble()).isCloseTo(1786.46508539, within(1e-6));
        assertThat(json.at("/random_effects/sd")).hasSize(1);
        assertThat(json.at("/random_effects/sd/0/lower").isNull()).isTrue();
        assertThat(json.at("/trainees/0/slope").isMissingNode()).isTrue();
        assertThat(json.at("/intercept_variance_test/p").asDouble()).isLessThan(1e-10);
        assertThat(call("mixed", sleepstudy(), "--criterion", "ml", "--confidence", "0.9", "--json"))
                .isZero();
        assertThat(json().at("/criterion_value").asDouble()).isCloseTo(1751.93934446, within(1e-6));
        assertThat(json().at("/fixed_effects/0/level").asDouble()).isEqualTo(0.9);
        assertThat(call("mixed", sleepstudy(), "--no-slope")).isZero();
        assertThat(out.toString())
                .contains("Do trainees differ in their level?")
                .contains("level");
    }

    /** Values without chance but for one step: 1000 · n^(−0.152003) falls by 10 % with each doubling (2^−0.152003 = 0.9). */
    @Test
    void aDurationThatFallsByTenPerCentPerDoublingIsFound() throws IOException {
        StringBuilder csv = new StringBuilder("Subject;Case_number;Value;grade;pupil\n");
        for (int s = 0; s < 5; s++) {
            for (int n = 1; n <= 32; n *= 2) {
                // multipliers in pairs that cancel over each trainee's log values, apart from rounding
                double wobble = Math.pow(1.02, (n % 3 == 1 ? 1 : -1) * (s % 2 == 0 ? 1 : -1));
                csv.append("T")
                        .append(s)
                        .append(';')
                        .append(n)
                        .append(';')
                        .append(String.format(
                                java.util.Locale.GERMANY,
                                "%.6f",
                                1000 * Math.pow(0.9, Math.log(n) / Math.log(2)) * wobble))
                        .append(';')
                        .append(s % 2 + n % 5)
                        .append(";")
                        .append(n == 8 ? "small" : "large")
                        .append('\n');
            }
            csv.append("T").append(s).append(";64;;1;large\n");
        }
        assertThat(call("mixed", file(csv.toString()), "--kind", "duration", "--covariates", "Grade,pupil", "--json"))
                .isZero();
        JsonNode json = json();
        assertThat(json.at("/time").asString()).isEqualTo("log");
        assertThat(json.at("/slope_change/estimate").asDouble()).isCloseTo(-0.10, within(0.01));
        assertThat(json.at("/slope_change/upper").asDouble()).isLessThan(-0.08);
        assertThat(json.at("/fixed_effects/2/name").asString()).isEqualTo("grade");
        assertThat(json.at("/fixed_effects/3/name").asString()).isEqualTo("pupil=small");
        assertThat(json.at("/rows_without_value").asInt()).isEqualTo(5);
        assertThat(json.at("/population/0/case_number").asInt()).isEqualTo(32);
        assertThat(json.at("/population/0/value").asDouble()).isCloseTo(1000 * Math.pow(0.9, 5), within(25.0));
        assertThat(json.at("/sentence").asString())
                .contains("an improvement per doubling of the number of cases is shown: −")
                .contains("adjusted for grade, pupil")
                .contains("Speed is not competence");
        assertThat(json.at("/warnings").toString())
                .contains("5 rows without a value left out")
                .doesNotContain("harder cases are often given later");
    }

    @Test
    void whatCannotBeFittedIsRefusedWithOne() throws IOException {
        String two = file("subject,case_number,value\nT1,1,5\nT1,2,4\nT2,1,6\nT2,2,3\n");
        assertThat(call("mixed", two)).isEqualTo(1);
        assertThat(out.toString()).contains("there are 2 subjects");
        assertThat(call("mixed", two, "--json")).isEqualTo(1);
        assertThat(json().at("/refused/reason").asString()).isEqualTo("too_few");
        String zero = file("subject,case_number,value\nT1,1,5\nT1,2,0\n");
        assertThat(call("mixed", zero, "--kind", "duration")).isEqualTo(1);
        assertThat(out.toString()).contains("a duration must be above 0");
    }

    @Test
    void badInputEndsWithTwoAndNamesThePlace() throws IOException {
        assertThat(call("mixed", file("subject,value\nT1,1\n"))).isEqualTo(2);
        assertThat(err.toString()).contains("case_number").contains("line 1");
        assertThat(call("mixed", file("subject,case_number,value\nT1,one,3\n"))).isEqualTo(2);
        assertThat(err.toString()).contains("the case_number is no number: one").contains("line 2");
        assertThat(call("mixed", file("subject,case_number,value\nT1,1,\n"))).isEqualTo(2);
        assertThat(err.toString()).contains("no row has a value");
        assertThat(call("mixed", sleepstudy(), "--covariates", "grade")).isEqualTo(2);
        assertThat(err.toString()).contains("there is no column grade");
        assertThat(call("mixed", sleepstudy(), "--covariates", "case_number")).isEqualTo(2);
        assertThat(err.toString()).contains("part of the model already");
        assertThat(call("mixed", sleepstudy(), "--confidence", "95")).isEqualTo(2);
        assertThat(err.toString()).contains("--confidence");
        assertThat(call("mixed", sleepstudy(), "--time", "log", "--at", "0")).isEqualTo(2);
        assertThat(err.toString()).contains("--at");
        assertThat(call("mixed", folder.resolve("none.csv").toString())).isEqualTo(2);
    }

    @Test
    void helpShowsTheColumnsAndAnExample() {
        assertThat(call("mixed", "--help")).isZero();
        assertThat(out.toString())
                .contains("subject,case_number,value,grade")
                .contains("T03,17,742.5,3")
                .contains("--kind")
                .contains("--covariates");
    }
}
