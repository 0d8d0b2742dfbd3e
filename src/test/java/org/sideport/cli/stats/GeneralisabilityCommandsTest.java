package org.sideport.cli.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

class GeneralisabilityCommandsTest extends StatsRun {

    private static final String DATA = "src/test/resources/gtheory/";
    private static final String PUBLISHED =
            "person=77.0,case=0.5,rater=3.2,person:case=2.8,person:rater=2.3,residual=14.2";

    /** lme4's components, see src/test/oracle/gtheory/reml.R. */
    @Test
    void gstudyTellsTheComponentsOfIncompleteData() {
        Run result = run("gstudy", DATA + "pcr-missing.csv", "--json");
        assertThat(result.code()).as(result.err()).isZero();
        JsonNode json = result.json();
        assertThat(json.at("/method").asString()).isEqualTo("REML");
        assertThat(json.at("/design").asString()).isEqualTo("subject × case × rater (crossed)");
        assertThat(json.at("/components/0/variance").asDouble()).isCloseTo(2.1165, within(5e-5));
        assertThat(json.at("/components/1/se").isNull()).isTrue();
        assertThat(json.at("/reml_criterion").asDouble()).isCloseTo(596.95085, within(1e-5));
        assertThat(json.at("/warnings/0").asString()).contains("case is estimated as 0");
    }

    @Test
    void gstudyShowsNegativeComponentsAndSpeaksPlainly() {
        Run result = run("gstudy", DATA + "pcir-balanced.csv");
        assertThat(result.code()).as(result.err()).isZero();
        assertThat(result.out())
                .contains("method: mean squares")
                .containsPattern("subject × item +32 +−0\\.0368 .*negative, counts as 0")
                .contains("lasting difference between persons")
                .contains("8 persons are uncertain");
        assertThat(run("gstudy", DATA + "pcr-balanced.csv", "--method", "reml").out())
                .contains("method: REML");
    }

    @Test
    void gstudyTakesNestedLabels() {
        Run result = run("gstudy", DATA + "pr-balanced.csv", "--nested", "rater=subject");
        assertThat(result.out()).contains("Design found: subject, rater in subject");
        Run wrong = run("gstudy", DATA + "pr-balanced.csv", "--nested", "rater=ward");
        assertThat(wrong.code()).isEqualTo(2);
        assertThat(wrong.err()).contains("--nested rater=ward");
        assertThat(run("gstudy", DATA + "pr-balanced.csv", "--nested", "subject=rater")
                        .code())
                .isEqualTo(2);
    }

    @Test
    void whatCannotBeReadOrAnsweredIsSaid() throws Exception {
        Path file = Files.writeString(folder.resolve("a.csv"), "subject,score\nT1,2\nT2,3\n");
        Run bare = run("gstudy", file.toString());
        assertThat(bare.code()).isEqualTo(2);
        assertThat(bare.err()).contains("no column rater, case or item");

        Files.writeString(file, "subject,rater,score\nT1,A1,2\nT2,A1,3\nT1,A2,2\nT2,A2,\n");
        Run few = run(
                "dstudy",
                Files.writeString(file, "subject,rater,score\nT1,A1,2\nT1,A2,3\n")
                        .toString());
        assertThat(few.code()).isEqualTo(1);
        assertThat(few.out()).contains("No answer: the data hold fewer than two of subject");
    }

    /** Published components: Φ .9064 for 2 cases and 2 raters, the smallest above .90. */
    @Test
    void dstudyFindsTheCheapestSizeFromPublishedComponents() {
        Run result = run("dstudy", "--components", PUBLISHED, "--wish", "0.9", "--max-cases", "3", "--max-raters", "3");
        assertThat(result.code()).as(result.err()).isZero();
        assertThat(result.out())
                .containsPattern("2 cases × 2 raters +0\\.9266 +0\\.9064")
                .contains("To reach Φ 0.90 for a person, the cheapest is 2 cases × 2 raters")
                .contains("60 minutes")
                .contains("promise more than the theatre keeps")
                .contains("Downing 2004");
        Run none = run("dstudy", "--components", PUBLISHED, "--wish", "0.99", "--max-cases", "2", "--max-raters", "1");
        assertThat(none.out()).contains("No size tried reaches Φ 0.99; the best, 2 cases × 1 rater, has 0.84");
        Run g = run(
                "dstudy", "--components", PUBLISHED, "--wish", "0.90", "--coefficient", "g", "--case-minutes", "20");
        assertThat(g.out()).contains("the cheapest is 1 case × 3 raters: G 0.90, 65 minutes");
    }

    /** mvtnorm, see src/test/oracle/gtheory/cutscore.R. */
    @Test
    void dstudyJudgesACutScore() {
        Run result = run(
                "dstudy",
                "--components",
                PUBLISHED,
                "--cut",
                "60",
                "--mean",
                "70",
                "--max-cases",
                "1",
                "--max-raters",
                "1",
                "--json");
        JsonNode option = result.json().at("/options/0");
        assertThat(option.at("/phi").asDouble()).isCloseTo(.77, within(1e-12));
        assertThat(option.at("/phi_lambda").asDouble()).isCloseTo(.885, within(1e-9));
        assertThat(option.at("/decision_consistency").asDouble()).isCloseTo(.869154173, within(1e-8));
        assertThat(option.at("/decision_accuracy").asDouble()).isCloseTo(.907719917, within(1e-8));
        Run without = run("dstudy", "--components", PUBLISHED, "--cut", "60");
        assertThat(without.out()).contains("give the mean of the scores by --mean");
    }

    @Test
    void dstudyPlansFromDataWithOtherDesigns() {
        // Six components of pcr-missing (lme4): 2.116492, 0, .581137, .446185, .148034, .188768, 1.246819.
        double p = 2.116492;
        JsonNode crossed = run("dstudy", DATA + "pcr-missing.csv", "--json").json();
        assertThat(crossed.at("/options").size()).isEqualTo(48);
        JsonNode two = crossed.at("/options/5");
        assertThat(two.at("/counts/case").asInt()).isEqualTo(2);
        assertThat(two.at("/counts/rater").asInt()).isEqualTo(2);
        assertThat(two.at("/g").asDouble()).isCloseTo(p / (p + .446185 / 2 + .148034 / 2 + 1.246819 / 4), within(2e-6));
        JsonNode nested = run("dstudy", DATA + "pcr-missing.csv", "--different", "rater=case", "--json")
                .json();
        assertThat(nested.at("/options/5/g").asDouble())
                .isCloseTo(p / (p + .446185 / 2 + .148034 / 4 + 1.246819 / 4), within(2e-6));
        assertThat(nested.at("/planned_design").asString()).isEqualTo("subject × case, rater in case");
        JsonNode fixed = run("dstudy", DATA + "pcr-missing.csv", "--fixed", "rater", "--number", "rater=2", "--json")
                .json();
        assertThat(fixed.at("/counts_held/rater").asInt()).isEqualTo(2);
        assertThat(fixed.at("/options/1/universe_variance").asDouble()).isCloseTo(p + .148034 / 2, within(2e-6));
    }

    @Test
    void scoresThatLieInOneCellAreRefusedUnlessTheyAreRepeats() throws IOException {
        Path file = Files.writeString(
                folder.resolve("visits.csv"),
                "trainee,visit,assessor,total\nT1,1,A1,3\nT1,2,A1,4\nT1,1,A2,5\nT2,1,A1,2\nT2,1,A2,4\nT2,2,A2,3\n");
        Run refused = run("dstudy", file.toString());
        assertThat(refused.code()).isEqualTo(1);
        assertThat(refused.out())
                .contains("there are 2 scores of subject T1, rater A1; columns not used: visit")
                .contains("--repeats");
        assertThat(run("gstudy", file.toString(), "--repeats").code()).isZero();
    }

    /** Labels op1, op2 of every person look like the same cases. */
    @Test
    void casesThatSeemSharedAreAskedAbout() throws IOException {
        StringBuilder csv = new StringBuilder("subject,operation,rater,score\n");
        for (int t = 1; t <= 5; t++) {
            for (int c = 1; c <= 2; c++) {
                for (int a = 1; a <= 2; a++) {
                    csv.append("T" + t + ",op" + c + ",A" + a + "," + (t * 3 + c * t % 4 + a * (t + c) % 3) + "\n");
                }
            }
        }
        String file =
                Files.writeString(folder.resolve("ops.csv"), csv.toString()).toString();
        assertThat(run("gstudy", file).out()).contains("taken as the same ones for every subject");
        Run nested = run("gstudy", file, "--nested", "case=subject");
        assertThat(nested.out()).doesNotContain("taken as the same ones").contains("case in subject");
        assertThat(run("gstudy", file, "--nested", "ward=subject").err())
                .contains("the facets of this file are subject, case, rater");
    }

    /** Published components: with a rater for each case the person × rater error averages over raters × cases. */
    @Test
    void otherRatersForEachCaseAreOffered() {
        String out = run("dstudy", "--components", PUBLISHED, "--wish", "0.9").out();
        // 77/(77 + .5/3 + 3.2/3 + 2.8/3 + 2.3/3 + 14.2/3) = .9094; with 2 cases .8699
        assertThat(out)
                .contains(
                        "With other raters for each case (--different rater=case) it is 3 cases × 1 rater each: Φ 0.91, 45");
    }

    /** Andersen 2021, Academic Medicine: person variance 44.2 %; .442/(.442 + .558/6) = .826. */
    @Test
    void dstudyTakesNestedPublishedComponents() {
        Run result = run("dstudy", "--components", "person=44.2,residual=55.8", "--nested", "case=person");
        assertThat(result.out()).contains("the cheapest is 6 cases: Φ 0.83, 90 minutes");
    }

    @Test
    void dstudyRefusesBadOptions() {
        assertThat(run("dstudy").code()).isEqualTo(2);
        assertThat(run("dstudy", DATA + "pcr-missing.csv", "--components", PUBLISHED)
                        .code())
                .isEqualTo(2);
        assertThat(run("dstudy", "--components", PUBLISHED, "--wish", "1.2").code())
                .isEqualTo(2);
        assertThat(run("dstudy", "--components", PUBLISHED, "--minutes", "-1").code())
                .isEqualTo(2);
        assertThat(run("dstudy", "--components", PUBLISHED, "--max-cases", "0").code())
                .isEqualTo(2);
        assertThat(run("dstudy", "--components", PUBLISHED, "--fixed", "ward").code())
                .isEqualTo(2);
        assertThat(run("dstudy", "--components", PUBLISHED, "--different", "ward=case")
                        .code())
                .isEqualTo(2);
        assertThat(run("dstudy", "--components", "person=3").code()).isEqualTo(2);
        assertThat(run("dstudy", "--components", "person=0,person:rater=2").code())
                .isEqualTo(1);
    }
}
