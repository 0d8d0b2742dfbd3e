package org.sideport.cli.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.JsonNode;

/** The commands casemix and cutscore, run within this process. */
class StandardCommandsTest extends StatsRun {

    private static final String RESOURCES = "src/test/resources/org/sideport/stats/casemix/";

    /** Ratios of Narendran et al. 2009, Eye 23:31. */
    private static final String CASES =
            "case,failure,age,sex,glaucoma,diabetic_retinopathy,brunescent_or_white,no_fundal_view,"
                    + "pseudoexfoliation_or_phacodonesis,pupil,axial_length,doxazosin,unable_to_lie_flat,surgeon\n"
                    + "R0,0,50,f,no,no,no,no,no,large,24,no,no,consultant\n"
                    + "R1,0,72,F,no,no,no,no,no,large,24,no,no,consultant\n"
                    + "R2,0,72,female,0,0,0,0,0,large,24,0,0,senior house officer\n"
                    + "R3,1,78,f,no,yes,no,no,no,medium,24,no,no,specialist registrar\n"
                    + "R4,0,85,m,no,no,yes,no,yes,small,24,no,no,consultant\n"
                    + "R5,1,80-89,male,no,no,1,no,1,small,24,no,no,Senior House Officer\n";

    /** Products of the published ratios by hand, baseline .75 %; the risk with the surgeon's grade. */
    @ParameterizedTest
    @CsvSource({
        "0, 1.0000, 0.750",
        "1, 1.4200, 1.062",
        "2, 5.2966, 3.848",
        "3, 4.2218, 3.092",
        "4, 25.6029, 16.211",
        "5, 95.4988, 41.916"
    })
    void compositeOddsOfThePublishedRows(int index, double ratio, double percent) throws IOException {
        JsonNode json = run("casemix", file("c.csv", CASES), "--odds", "cataract", "--with", "surgeon", "--json")
                .json();
        JsonNode found = json.at("/cases/" + index);
        assertThat(found.at("/odds_ratio").asDouble()).isCloseTo(ratio, within(5e-5));
        assertThat(100 * found.at("/risk").asDouble()).isCloseTo(percent, within(5e-4));
        assertThat(found.at("/assumed_reference")).isEmpty();
        assertThat(json.at("/sentence").asString()).contains("surgeon is counted");
    }

    /** The same without the grade: the trainee's cases R2 and R5 have the risk of R1 and R4. */
    @Test
    void surgeonIsLeftOutUnlessAskedFor() throws IOException {
        String data = file("c.csv", CASES);
        Run run = run("casemix", data, "--odds", "cataract", "--json");
        assertThat(run.code()).as(run.err()).isZero();
        JsonNode json = run.json();
        assertThat(json.at("/left_out/0").asString()).isEqualTo("surgeon");
        assertThat(json.at("/cases/2/risk").asDouble()).isCloseTo(0.0106165578428, within(1e-12));
        assertThat(json.at("/cases/2/risk_all_factors").asDouble()).isCloseTo(0.038484360718, within(1e-12));
        assertThat(json.at("/cases/5/odds_ratio").asDouble()).isCloseTo(25.602896384, within(1e-9));
        assertThat(json.at("/cases/5/risk_all_factors").asDouble()).isCloseTo(0.41916300674, within(1e-11));
        assertThat(json.at("/cases/5/levels/age").asString()).isEqualTo("80-89");
        double expected = 0.0075
                + 2 * 0.0106165578428
                + 2 * 0.162109076745
                + json.at("/cases/3/risk").asDouble();
        assertThat(json.at("/expected").asDouble()).isCloseTo(expected, within(1e-11));
        assertThat(json.at("/calibration/observed").asInt()).isEqualTo(2);
        assertThat(json.at("/c_statistic/estimate").asDouble()).isCloseTo(6.5 / 8, within(1e-12));
        assertThat(json.at("/table/source").asString()).contains("Narendran et al. 2009, Eye 23:31");
        assertThat(json.at("/sentence").asString())
                .contains("surgeon is left out")
                .contains("from memory")
                .contains("credentialing body");
        Run text = run("casemix", data, "--odds", "cataract");
        assertThat(text.out()).contains("41.916 %").contains("0.750 %").contains("expected events 0.37");
    }

    @Test
    void untoldFactorsAreTakenAtTheirReferenceAndSaid() throws IOException {
        String data = file("c.csv", "case,age,pupil\nA,91,\nB,,small\n");
        JsonNode json = run("casemix", data, "--odds", "cataract", "--without", "age", "--json")
                .json();
        assertThat(json.at("/cases/0/odds_ratio").asDouble()).isEqualTo(1);
        assertThat(json.at("/cases/0/assumed_reference").toString()).contains("pupil");
        assertThat(json.at("/cases/1/odds_ratio").asDouble()).isEqualTo(1.45);
        assertThat(json.at("/cases/1/risk_all_factors").isNull()).isTrue();
        assertThat(json.at("/calibration").isNull()).isTrue();
        assertThat(json.at("/warnings/0").asString())
                .startsWith("2 of 2 cases do not tell every factor (no column sex,");
        assertThat(json.at("/sentence").asString()).contains("age is left out of the risk, as asked");
    }

    /** The printed table can be edited and read again. */
    @Test
    void ownTableOfOdds() throws IOException {
        Run shown = run("casemix", "--odds", "cataract", "--json");
        assertThat(shown.code()).isZero();
        String own = file("own.json", shown.out().replace("1.45", "2.0"));
        String data = file("c.csv", "case,pupil\nA,small\n");
        JsonNode json = run("casemix", data, "--odds", own, "--baseline", "0.01", "--json")
                .json();
        // odds 1/99 · 2 = 2/99
        assertThat(json.at("/cases/0/risk").asDouble()).isCloseTo(2.0 / 101, within(1e-14));
        assertThat(json.at("/sentence").asString()).contains("given with --baseline");
        assertThat(run("casemix", "--odds", "cataract").out())
                .contains("senior house officer")
                .contains("3.73");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "{} | there is no list \"factors\"",
                "nothing | this is no JSON",
                "{\"factors\":[]} | there is no text \"title\"",
                "{\"factors\":[{\"name\":\"f\"}]} | there is no list \"levels\"",
                "{\"factors\":[{\"name\":\"f\",\"levels\":[{\"name\":\"a\"}]}]} | there is no number \"odds_ratio\"",
                "{\"factors\":[{\"name\":\"f\",\"levels\":[{\"name\":\"a\",\"odds_ratio\":2}]}]} | no level with odds"
            })
    void brokenTablesAreNamed(String text, String message) throws IOException {
        Run run = run("casemix", "--odds", file("own.json", text));
        assertThat(run.code()).isEqualTo(2);
        assertThat(run.err()).contains(message);
    }

    /** Against R, src/test/oracle/casemix/logistic.R. */
    @Test
    void modelOfOwnCases() {
        Run run = run("casemix", RESOURCES + "birthwt.csv", "--factors", "age,lwt,race,smoke,ptl,ht,ui", "--json");
        assertThat(run.code()).as(run.err()).isZero();
        JsonNode json = run.json();
        assertThat(json.at("/n").asInt()).isEqualTo(189);
        assertThat(json.at("/deviance").asDouble()).isCloseTo(201.426951204, within(1e-8));
        assertThat(json.at("/aic").asDouble()).isCloseTo(219.426951204, within(1e-8));
        assertThat(json.at("/coefficients/3/level").asString()).isEqualTo("b");
        assertThat(json.at("/coefficients/3/estimate").asDouble()).isCloseTo(1.2632193755484, within(1e-9));
        assertThat(json.at("/coefficients/3/profile_lower").asDouble()).isCloseTo(0.234155142643, within(1e-7));
        assertThat(json.at("/calibration/hosmer_lemeshow").asDouble()).isCloseTo(10.3983356008, within(1e-7));
        assertThat(json.at("/calibration/p").asDouble()).isCloseTo(0.238173103469, within(1e-8));
        assertThat(json.at("/c_statistic/estimate").asDouble()).isCloseTo(0.746088657106, within(1e-10));
        assertThat(json.at("/separation").asString()).isEqualTo("none");
        assertThat(json.at("/risks")).hasSize(189);
        JsonNode other = run(
                        "casemix", RESOURCES + "birthwt.csv", "--factors", "race", "--reference", "race=b", "--json")
                .json();
        assertThat(other.at("/coefficients/1/level").asString()).isEqualTo("a");
    }

    /** Heinze & Schemper 2002: refused with the reason, and the penalised estimate 2.929 instead. */
    @Test
    void separationIsNamedAndTheRemedyWorks() {
        Run refused = run("casemix", RESOURCES + "endometrial.csv", "--factors", "nv,pi,eh", "--json");
        assertThat(refused.code()).isEqualTo(1);
        assertThat(refused.json().at("/refused/reason").asString()).isEqualTo("separated");
        assertThat(refused.json().at("/refused/why").asString()).contains("quasi-complete separation: nv");
        Run firth = run("casemix", RESOURCES + "endometrial.csv", "--factors", "nv,pi,eh", "--firth");
        assertThat(firth.code()).isZero();
        assertThat(firth.out()).contains("2.929").contains("Firth").contains("credentialing body");
    }

    @Test
    void rowsWithGapsAreLeftOutAndCounted() throws IOException {
        StringBuilder text = new StringBuilder("failure,x\n,1\n0,\n");
        for (int i = 0; i < 30; i++) {
            text.append(i % 3 == 0 ? 1 : 0).append(',').append(i % 7).append('\n');
        }
        Run run = run("casemix", file("c.csv", text.toString()), "--factors", "x");
        assertThat(run.out()).contains("2 rows lack the outcome or a factor").contains("30 cases, 10 with the event");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "DATA | neither a model nor a table",
                "DATA --factors age --odds cataract | both are asked for",
                "--factors age | no file of cases",
                "DATA --factors none | there is no column none",
                "DATA --factors age,age | named twice",
                "DATA --factors failure | cannot be a factor too",
                "DATA --factors age --reference sex=f | not among the factors",
                "DATA --factors sex --reference sex=x | no case has the level x of sex",
                "DATA --factors sex --outcome age | neither 0 nor 1",
                "DATA --odds nofile.json | no such file",
                "DATA --odds cataract --with moon | the table has no factor moon",
                "DATA --odds cataract --baseline 1 | between 0 and 1",
                "BAD --odds cataract | no level huge of pupil",
                "OTHER --odds cataract | no column is a factor",
                "EMPTY --odds cataract | there are no cases",
                "GAPS --factors x | no row has the outcome"
            })
    void badQuestionsOnCaseMix(String line, String message) throws IOException {
        Map<String, String> files = Map.of(
                "DATA", file("c.csv", CASES),
                "BAD", file("b.csv", "case,pupil\nA,huge\n"),
                "OTHER", file("o.csv", "case,x\nA,1\n"),
                "EMPTY", file("e.csv", "case,pupil\n"),
                "GAPS", file("g.csv", "failure,x\n1,\n"));
        bad("casemix", line, files, message);
    }

    private void bad(String command, String line, Map<String, String> files, String message) {
        List<String> arguments = new java.util.ArrayList<>(List.of(command));
        for (String word : line.strip().split(" ")) {
            arguments.add(files.getOrDefault(word, word));
        }
        Run run = run(arguments.toArray(String[]::new));
        assertThat(run.code()).as(run.out()).isEqualTo(2);
        assertThat(run.err()).contains(message);
    }

    private static final String ANGOFF = angoff();

    private static String angoff() {
        int[][] points = {{3, 3, 4, 3, 4}, {4, 3, 4, 3, 3}, {3, 3, 3, 3, 4}, {4, 4, 4, 3, 4}};
        StringBuilder text = new StringBuilder("judge,item,score\n");
        for (int j = 0; j < 4; j++) {
            for (int i = 0; i < 5; i++) {
                text.append("A")
                        .append(j + 1)
                        .append(",i")
                        .append(i)
                        .append(',')
                        .append(points[j][i])
                        .append('\n');
            }
        }
        return text.toString();
    }

    /** Worked example, own data, by hand: cut 17.25 of 25 = 69.0 %, SE .6292. */
    @Test
    void angoffOfFourJudges() throws IOException {
        String data = file("a.csv", ANGOFF);
        JsonNode json = run("cutscore", data, "--method", "angoff", "--max", "25", "--json")
                .json();
        assertThat(json.at("/cut/estimate").asDouble()).isEqualTo(17.25);
        assertThat(json.at("/cut_share").asDouble()).isCloseTo(0.69, within(1e-12));
        assertThat(json.at("/cut/se").asDouble()).isCloseTo(0.6292, within(5e-5));
        assertThat(json.at("/se_items_sampled").asDouble()).isCloseTo(0.829156197589, within(1e-11));
        assertThat(json.at("/totals/3/total").asDouble()).isEqualTo(19);
        assertThat(json.at("/other_panels/1/se").asDouble()).isCloseTo(0.397911212877, within(1e-11));
        Run text = run("cutscore", data, "--method", "angoff", "--max", "25");
        assertThat(text.out())
                .contains("17.250")
                .contains("69.0 %")
                .contains("only 4 judges")
                .contains("No pass mark is official")
                .contains("credentialing body");
    }

    private static final String GRADED = "subject,score,grade\n"
            + "T1,38,1\nT2,44,1\nT3,51,2\nT4,47,2.0\nT5,55,2\nT6,62,3\nT7,58,3\nT8,66,3\nT9,74,4\nT10,71,4\n"
            + "T11,78,4\nT12,88,5\nT12,84,5\n";

    /** Own data, worked out outside this program: 51.4056 (1.1525), 57.0874 (.9789), 62.7692 (.9138). */
    @Test
    void borderlineRegressionAtThreeGrades() throws IOException {
        Run run = run(
                "cutscore",
                file("g.csv", GRADED),
                "--method",
                "borderline-regression",
                "--borderline",
                "2,2.5,3",
                "--max",
                "100",
                "--json");
        assertThat(run.code()).as(run.err()).isZero();
        JsonNode json = run.json();
        assertThat(json.at("/slope").asDouble()).isCloseTo(11.3636, within(5e-5));
        assertThat(json.at("/intercept").asDouble()).isCloseTo(28.6783, within(5e-5));
        assertThat(json.at("/r2").asDouble()).isCloseTo(0.9597, within(5e-5));
        assertThat(json.at("/residual_sd").asDouble()).isCloseTo(3.2946, within(5e-5));
        double[] cuts = {51.4056, 57.0874, 62.7692};
        double[] errors = {1.1525, 0.9789, 0.9138};
        for (int i = 0; i < 3; i++) {
            assertThat(json.at("/cuts/" + i + "/cut/estimate").asDouble()).isCloseTo(cuts[i], within(5e-5));
            assertThat(json.at("/cuts/" + i + "/cut/se").asDouble()).isCloseTo(errors[i], within(5e-5));
        }
        assertThat(json.at("/cuts/0/cut_share").asDouble()).isCloseTo(0.514056, within(5e-7));
        assertThat(json.at("/warnings").toString()).contains("13 performances come from 12 subjects");
    }

    @Test
    void borderlineGroupOfOneGrade() throws IOException {
        String data = file("g.csv", GRADED);
        JsonNode json = run("cutscore", data, "--method", "borderline-group", "--borderline", "2", "--json")
                .json();
        assertThat(json.at("/cut/estimate").asDouble()).isEqualTo(51);
        assertThat(json.at("/cut/n").asInt()).isEqualTo(3);
        assertThat(json.at("/cut/se").asDouble()).isCloseTo(2.30940107676, within(1e-10));
        assertThat(json.at("/performances").asInt()).isEqualTo(13);
        assertThat(json.at("/cut_share").isNull()).isTrue();
        Run text = run("cutscore", data, "--method", "borderline-group", "--borderline", "2,3");
        assertThat(text.out()).contains("6 of 13 performances").contains("No pass mark is official");
        Run refused = run("cutscore", data, "--method", "borderline-group", "--borderline", "7");
        assertThat(refused.code()).isEqualTo(1);
        assertThat(refused.out()).contains("nobody was graded borderline");
    }

    /** Cuts by the published means and SDs of Saleh et al. 2007, and for the last of Dong et al. 2025. */
    @ParameterizedTest
    @CsvSource({
        "'32,5.3,55,12.6', 41.10, 4.30, 13.50, 0.005",
        "'55,12.6,89,4.7', 78.14, 3.32, 1.04, 0.005",
        "'55,12.6,90,11.1', 73.10, 7.54, 6.40, 0.005",
        "'32,5.3,90,11.1', 51.49, 0.01, 0.03, 0.005",
        "'0.47,0.32,0.89,0.23', 0.6590, 27.74, 15.76, 0.00005"
    })
    void contrastingGroupsByPublishedFigures(
            String summary, double cut, double falsePass, double falseFail, double digit) {
        JsonNode json = run("cutscore", "--method", "contrasting-groups", "--summary", summary, "--json")
                .json();
        assertThat(json.at("/cut/estimate").asDouble()).isCloseTo(cut, within(digit));
        assertThat(100 * json.at("/false_pass_theoretical").asDouble()).isCloseTo(falsePass, within(0.005));
        assertThat(100 * json.at("/false_fail_theoretical").asDouble()).isCloseTo(falseFail, within(0.005));
    }

    /** src/test/oracle/standard/standard.R. */
    @Test
    void contrastingGroupsOfScores() throws IOException {
        StringBuilder text = new StringBuilder("score,group\n");
        for (int s : new int[] {31, 35, 28, 40, 44, 37, 33, 52, 29, 38, 41, 36}) {
            text.append(s).append(",early\n");
        }
        for (int s : new int[] {55, 61, 47, 70, 58, 64, 43, 66, 59, 52}) {
            text.append(s).append(",late\n");
        }
        String data = file("c.csv", text.toString());
        String[] question = {"cutscore", data, "--method", "contrasting-groups", "--groups", "early,late"};
        JsonNode json = run(with(new String[] {"--json"}, question)).json();
        assertThat(json.at("/cut/estimate").asDouble()).isCloseTo(46.7268890787, within(1e-8));
        assertThat(json.at("/cut/lower").asDouble()).isBetween(38.0, 46.7);
        assertThat(json.at("/false_fail_observed/estimate").asDouble()).isEqualTo(0.1);
        assertThat(json.at("/observed_cut/cut").asDouble()).isEqualTo(45.5);
        assertThat(json.at("/weaker/mean").asDouble()).isCloseTo(37, within(1e-12));
        assertThat(run(question).out())
                .contains("false pass")
                .contains("Fewest persons misjudged (1 passed, 1 failed wrongly)")
                .contains("not what is safe");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "GRADED --method guess | there is no method guess",
                "--method angoff | no file is named",
                "GRADED --method angoff | there is no column judge",
                "TWICE --method angoff | has judged i0 already",
                "HOLES --method angoff | judge B has not judged i0",
                "GRADED --method borderline-group | which grade is borderline is not said",
                "GRADED --method borderline-regression | at which grade to read the cut",
                "GRADED --method borderline-regression --borderline two | the grade two is no number",
                "GRADED --method contrasting-groups | there is no column group",
                "GROUPS --method contrasting-groups | which group is the weaker",
                "GROUPS --method contrasting-groups --groups a,c | not two groups of the file: a, c",
                "GROUPS --method contrasting-groups --groups a,a | not two groups of the file: a, a",
                "--method contrasting-groups --summary 1,2,3 | mean and SD of two groups",
                "--method contrasting-groups --summary 1,0,3,1 | mean and SD of two groups",
                "--method contrasting-groups --summary NaN,1,3,1 | mean and SD of two groups",
                "GRADED --method angoff --resamples 50 | 50 resamples are too few",
                "GRADED --method angoff --max 0 | highest score is not above 0",
                "GRADED --method angoff --confidence 2 | not between 0 and 1",
                "EMPTY --method borderline-group | no row has a score"
            })
    void badQuestionsOnCuts(String line, String message) throws IOException {
        Map<String, String> files = Map.of(
                "GRADED", file("g.csv", GRADED),
                "TWICE", file("t.csv", ANGOFF + "A1,i0,3\n"),
                "HOLES", file("h.csv", "judge,item,score\nA,i0,3\nA,i1,3\nB,i1,2\n"),
                "GROUPS", file("gr.csv", "score,group\n1,a\n2,b\n"),
                "EMPTY", file("e.csv", "score,grade\n,2\n"));
        bad("cutscore", line, files, message);
    }
}
