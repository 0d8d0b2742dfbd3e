package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.model.AuditEvent;
import org.sideport.model.Caller;
import org.sideport.model.InputException;
import org.sideport.model.Role;
import org.sideport.model.Standard;
import org.sideport.model.StandardMethod;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;

class StandardsTest {

    private static final Clock CLOCK = Clock.fixed(Instant.parse("2026-07-01T12:00:00Z"), ZoneOffset.UTC);
    private static final LocalDate TODAY = LocalDate.of(2026, 7, 1);

    @TempDir
    Path temp;

    private Workspace workspace;
    private MadeUpMarks marks;
    private Standards standards;
    private StandardRounds rounds;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(temp.resolve("w"));
        marks = new MadeUpMarks(workspace);
        standards = new Standards(workspace, CLOCK);
        rounds = new StandardRounds(workspace, CLOCK);
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private CutProposal cut(String rubric, CutBasis basis) {
        return standards.propose(rubric, null, basis).orElseThrow();
    }

    private Refusal refusal(String rubric, CutBasis basis) {
        return ((Outcome.Refused<CutProposal>) standards.propose(rubric, null, basis)).refusal();
    }

    private CutBasis.Judged closedRound(Map<String, Map<String, Double>> judgements) {
        String id = rounds.open("five", List.copyOf(judgements.keySet()), "")
                .round()
                .id();
        judgements.forEach((judge, points) -> rounds.judge(id, judge, points));
        rounds.close(id, List.of(), "");
        return new CutBasis.Judged(id);
    }

    /**
     * Worked example, own data, by hand: totals 17 17 16 19 of 25, cut 17.25 = 69.0 %, SE .6292 points; limits by Student's
     * t with R's t.test (src/test/oracle/standard).
     */
    @Test
    void judgesOfTheWorkedExampleSetTheCutFromTheStore() {
        CutProposal cut = cut("five", closedRound(MadeUpMarks.angoffExample()));

        assertThat(cut.share()).isCloseTo(0.69, within(1e-12));
        assertThat(cut.standardError()).isCloseTo(0.629152869606 / 25, within(1e-12));
        assertThat(cut.lower()).isCloseTo(15.2477547747 / 25, within(1e-9));
        assertThat(cut.upper()).isCloseTo(19.2522452253 / 25, within(1e-9));
        assertThat(cut.n()).isEqualTo(4);
        CutProposal.Judges detail = (CutProposal.Judges) cut.detail();
        assertThat(detail.totals()).extracting(CutProposal.JudgeTotal::points).containsExactly(17.0, 17.0, 16.0, 19.0);
        // the same panel of 10 judges: .397911212877 points (R, as above)
        assertThat(detail.panels().get(1).standardError()).isCloseTo(0.397911212877 / 25, within(1e-12));
        assertThat(cut.warnings()).anyMatch(w -> w.contains("only 4 judges"));
    }

    /** Own data, worked out with R's lm: 28.6783 + 11.3636 g; 51.4056 (1.1525), 57.0874 (.9789), 62.7692 (.9138) of 100. */
    @ParameterizedTest
    @CsvSource({
        "2, 51.4055944056, 1.152535424594",
        "2.5, 57.0874125874, 0.978928453534",
        "3, 62.7692307692, 0.913758860168"
    })
    void borderlineRegressionOfTheWorkedExampleFromTheStore(double grade, double share, double se) {
        marks.borderlineExample();

        CutProposal cut = cut("scale", new CutBasis.Line(new CutBasis.Grades("grade", null), grade));

        assertThat(cut.share()).isCloseTo(share / 100, within(1e-10));
        assertThat(cut.standardError()).isCloseTo(se / 100, within(1e-11));
        assertThat(cut.n()).isEqualTo(13);
        CutProposal.Line line = (CutProposal.Line) cut.detail();
        assertThat(line.intercept()).isCloseTo(0.286783216783, within(1e-10));
        assertThat(line.slope()).isCloseTo(0.113636363636, within(1e-10));
        assertThat(line.r2()).isCloseTo(0.9596668273, within(1e-9));
    }

    /** By hand: those graded 2 scored 51, 47 and 55, mean 51, median 51, SD 4, SE 4/√3. Half grades take both sides. */
    @Test
    void borderlineGroupIsTheMeanOfThoseGradedSo() {
        marks.borderlineExample();

        CutProposal cut = cut("scale", new CutBasis.Borderline(new CutBasis.Grades("grade", "overall"), 2));

        assertThat(cut.share()).isCloseTo(0.51, within(1e-12));
        assertThat(cut.standardError()).isCloseTo(0.04 / Math.sqrt(3), within(1e-12));
        assertThat(((CutProposal.Borderline) cut.detail()).graded()).isEqualTo(13);
        CutProposal both = cut("scale", new CutBasis.Borderline(new CutBasis.Grades("grade", null), 2.5));
        // 51 47 55 62 58 66: mean 56.5
        assertThat(both.share()).isCloseTo(0.565, within(1e-12));
        assertThat(both.n()).isEqualTo(6);
    }

    /**
     * Means and SDs published by Saleh et al. 2007 (Arch Ophthalmol 125:363), cut and rates by Jørgensen et al. 2018's
     * formula worked out outside this program: 41.10, 4.30 %, 13.50 %. Scores m − s, m and m + s have mean m and SD s.
     */
    @Test
    void contrastingGroupsOfPublishedMeansFromTheStore() {
        marks.performances("N", "T01", new int[] {267, 320, 373}, new int[0]);
        marks.performances("E", "T02", new int[] {424, 550, 676}, new int[0]);

        CutProposal cut = cut("scale", new CutBasis.Groups(CutBasis.Members.TRAINEES, List.of("T01"), List.of("T02")));

        assertThat(cut.share()).isCloseTo(0.411011542123, within(1e-9));
        CutProposal.Groups groups = (CutProposal.Groups) cut.detail();
        assertThat(groups.falsePass()).isCloseTo(0.0429714175101, within(1e-9));
        assertThat(groups.falseFail()).isCloseTo(0.134995561534, within(1e-9));
        assertThat(groups.weaker().mean()).isCloseTo(0.32, within(1e-12));
        assertThat(groups.stronger().sd()).isCloseTo(0.126, within(1e-12));
        assertThat(cut.warnings()).anyMatch(w -> w.contains("come from 2 trainees"));
        CutProposal byCase = cut(
                "scale",
                new CutBasis.Groups(
                        CutBasis.Members.CASES, List.of("n-1", "N-2", "N-3"), List.of("E-1", "E-2", "E-3")));
        assertThat(byCase.share()).isEqualTo(cut.share());
    }

    /** A case that two assessors marked counts once, with their mean; neither self-marks nor drafts count. */
    @Test
    void aCaseCountsOnceAndSelfMarksNever() {
        marks.performances("N", "T01", new int[] {200, 300, 400}, new int[0]);
        marks.performances("E", "T02", new int[] {600, 700, 800}, new int[0]);
        marks.mark("N-1", "A2", "scale", true, Map.of("score", 400));
        marks.markOneself("N-2", "T01", "scale", Map.of("score", 1000));

        CutProposal cut = cut("scale", new CutBasis.Groups(CutBasis.Members.TRAINEES, List.of("T01"), List.of("T02")));

        CutProposal.Groups groups = (CutProposal.Groups) cut.detail();
        assertThat(groups.weaker().performances())
                .extracting(CutProposal.Performance::share)
                .usingElementComparator(java.util.Comparator.comparingDouble(share -> Math.round(1e9 * share)))
                .containsExactly(0.3, 0.3, 0.4);
    }

    /**
     * Simulation with a known cut for each method, 12 times: the 95 % limits hold it as often as 12 drawings should (10 or
     * more with probability .98, binomial).
     */
    @Test
    void aKnownCutComesBackWithinItsLimits() {
        Random random = new Random(20260701);
        int regression = 0;
        int groups = 0;
        int judged = 0;
        for (int run = 0; run < 12; run++) {
            int[] grades = new int[60];
            int[] shares = new int[60];
            for (int i = 0; i < grades.length; i++) {
                grades[i] = 1 + random.nextInt(5);
                shares[i] = thousandths(0.25 + 0.12 * grades[i] + 0.05 * random.nextGaussian());
            }
            String name = "R" + run;
            try (Workspace other = FreshWorkspace.in(temp.resolve(name))) {
                MadeUpMarks made = new MadeUpMarks(other);
                made.performances("P", "", shares, grades);
                int[] weak = new int[30];
                int[] strong = new int[30];
                for (int i = 0; i < 30; i++) {
                    weak[i] = thousandths(0.45 + 0.08 * random.nextGaussian());
                    strong[i] = thousandths(0.70 + 0.08 * random.nextGaussian());
                }
                made.performances("W", "T01", weak, new int[0]);
                made.performances("S", "T02", strong, new int[0]);
                Standards there = new Standards(other, CLOCK);
                // 0.25 + 0.12 × 2.5
                regression += holds(
                        there.propose("scale", null, new CutBasis.Line(new CutBasis.Grades("grade", null), 2.5))
                                .orElseThrow(),
                        0.55);
                // equal SDs: halfway
                groups += holds(
                        there.propose(
                                        "scale",
                                        null,
                                        new CutBasis.Groups(CutBasis.Members.TRAINEES, List.of("T01"), List.of("T02")))
                                .orElseThrow(),
                        0.575);
                // judges around 3 points of 5 for each item, severity SD 0.2, chance SD 0.4: 60 %
                StandardRounds round = new StandardRounds(other, CLOCK);
                Map<String, Map<String, Double>> panel = new LinkedHashMap<>();
                for (int j = 1; j <= 8; j++) {
                    double severity = 0.2 * random.nextGaussian();
                    Map<String, Double> own = new LinkedHashMap<>();
                    for (int i = 1; i <= 5; i++) {
                        own.put("i" + i, 3 + severity + 0.4 * random.nextGaussian());
                    }
                    panel.put("J" + j, own);
                }
                String id = round.open("five", List.copyOf(panel.keySet()), "")
                        .round()
                        .id();
                panel.forEach((judge, points) -> round.judge(id, judge, points));
                round.close(id, List.of(), "");
                judged += holds(
                        there.propose("five", null, new CutBasis.Judged(id)).orElseThrow(), 0.6);
            }
        }
        assertThat(regression).as("regression").isBetween(10, 12);
        assertThat(groups).as("contrasting groups").isBetween(10, 12);
        assertThat(judged).as("judges").isBetween(10, 12);
    }

    private static int thousandths(double share) {
        return (int) Math.round(1000 * Math.max(0, Math.min(1, share)));
    }

    private static int holds(CutProposal cut, double truth) {
        return cut.lower() != null && cut.lower() <= truth && truth <= cut.upper() ? 1 : 0;
    }

    @Test
    void tooLittleIsRefusedInPlainWords() {
        CutBasis.Line line = new CutBasis.Line(new CutBasis.Grades("grade", null), 2);
        assertThat(refusal("scale", line).why()).isEqualTo("there are 0 graded performances");
        marks.performances("N", "T01", new int[] {200, 300}, new int[] {2, 3});
        marks.performances("E", "T02", new int[] {600, 700, 800}, new int[0]);
        assertThat(refusal("scale", line).reason()).isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(refusal("scale", new CutBasis.Groups(CutBasis.Members.TRAINEES, List.of("T01"), List.of("T02")))
                        .why())
                .isEqualTo("the groups have 2 and 3 scores");
        String open = rounds.open("five", List.of("A1", "A2"), "").round().id();
        assertThat(refusal("five", new CutBasis.Judged(open)).why()).isEqualTo("round 1 is still open");
        assertThatThrownBy(() -> standards.propose(
                        "scale", null, new CutBasis.Groups(CutBasis.Members.TRAINEES, List.of("T09"), List.of("T02"))))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("trainee T09 has no signed mark");
        assertThatThrownBy(() -> standards.propose(
                        "scale",
                        null,
                        new CutBasis.Groups(CutBasis.Members.TRAINEES, List.of("T01"), List.of("T01", "T02"))))
                .hasMessageContaining("T01 cannot be in both groups");
        assertThatThrownBy(() ->
                        standards.propose("scale", null, new CutBasis.Line(new CutBasis.Grades("scale", null), 2)))
                .hasMessageContaining("which item of rubric scale is the global grade is not said");
    }

    /** The line reaches 100 % between grades 6 and 7: a cut at 8 is none. */
    @Test
    void aCutBeyondTheScaleIsRefused() {
        marks.borderlineExample();
        assertThat(refusal("scale", new CutBasis.Line(new CutBasis.Grades("grade", null), 8))
                        .why())
                .contains("beyond the scale");
    }

    @Test
    void anAgreedStandardIsKeptNumberedAndSupersededByTheNext() {
        marks.borderlineExample();
        CutProposal cut = cut("scale", new CutBasis.Line(new CutBasis.Grades("grade", null), 2.5));
        Standard first = standards.agree(cut, List.of("A1", "A2", "A1"), TODAY, " after a long evening ");
        Standard second = standards.agree(cut("scale", new CutBasis.Given(0.6)), List.of("A1"), TODAY.minusDays(1), "");

        assertThat(standards.all()).hasSize(2);
        Standard kept = standards.get(first.id().substring(0, 8));
        assertThat(kept.supersededBy()).isEqualTo(second.id());
        assertThat(kept.number()).isEqualTo(1);
        assertThat(kept.agreedBy()).containsExactly("A1", "A2");
        assertThat(kept.note()).isEqualTo("after a long evening");
        assertThat(kept.method()).isEqualTo(StandardMethod.BORDERLINE_REGRESSION);
        assertThat(kept.share()).isEqualTo(cut.share());
        assertThat(kept.standardError()).isEqualTo(cut.standardError());
        assertThat(kept.lower()).isEqualTo(cut.lower());
        assertThat(kept.basis()).containsEntry("grade_rubric", "grade").containsEntry("borderline", "2.5");
        assertThat(kept.warnings()).isEqualTo(cut.warnings());
        assertThat(kept.dataDigest()).hasSize(64);
        assertThat(standards.get(second.id()).inForce()).isTrue();
        assertThat(standards.get(second.id()).n()).isNull();
        List<AuditEvent> trail = workspace.<List<AuditEvent>>read(s -> s.audit().all()).stream()
                .filter(e -> e.deed().startsWith("standard."))
                .toList();
        assertThat(trail).extracting(AuditEvent::deed).containsExactly("standard.agree", "standard.agree");
        assertThat(trail.get(1).subject()).isEqualTo("scale 1.0.0");
        assertThat(trail.get(1).before()).startsWith("no 1 borderline_regression 0.570874");
        assertThat(trail.get(1).after()).startsWith("no 2 agreed 0.600000");
    }

    @Test
    void aProposalThatIsOldIsNotAgreed() {
        marks.borderlineExample();
        CutProposal cut = cut("scale", new CutBasis.Line(new CutBasis.Grades("grade", null), 2.5));
        marks.performances("M", "T01", new int[] {500}, new int[] {3});

        assertThatThrownBy(() -> standards.agree(cut, List.of("A1"), TODAY, ""))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("the marks have changed");
        assertThatThrownBy(() -> standards.agree(cut, List.of(), TODAY, ""))
                .hasMessageContaining("who agreed is not said");
        assertThatThrownBy(() -> standards.agree(cut, List.of("A1"), TODAY.plusDays(1), ""))
                .hasMessageContaining("lies ahead");
        assertThat(standards.all()).isEmpty();
    }

    @Test
    void onlyADirectorSetsAndOnlyJudgesAndDirectorsLook() {
        Workspace assessor = workspace.as(new Caller.Person("A1", Set.of(Role.ASSESSOR)));
        Workspace trainee = workspace.as(new Caller.Person("T01", Set.of(Role.TRAINEE)));
        Workspace director = workspace.as(new Caller.Person("D1", Set.of(Role.DIRECTOR)));
        CutBasis given = new CutBasis.Given(0.6);

        assertThat(new Standards(assessor, CLOCK).all()).isEmpty();
        assertThatThrownBy(() -> new Standards(assessor, CLOCK).propose("five", null, given))
                .hasMessageContaining("set standard");
        assertThatThrownBy(() -> new Standards(trainee, CLOCK).all()).hasMessageContaining("judge standard");
        Standards theirs = new Standards(director, CLOCK);
        CutProposal cut = theirs.propose("five", null, given).orElseThrow();
        assertThatThrownBy(() -> new Standards(assessor, CLOCK).agree(cut, List.of("A1"), TODAY, ""))
                .hasMessageContaining("set standard");
        assertThat(theirs.agree(cut, List.of("A1"), TODAY, "").setBy()).isEqualTo("D1");
    }
}
