package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.Caller;
import org.sideport.model.Comment;
import org.sideport.model.CommentReply;
import org.sideport.model.CommentTone;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Role;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import org.sideport.stats.monitoring.SignalKind;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.TestRows;
import org.sideport.store.Workspace;
import org.sideport.workflow.FollowProgress.Question;
import org.sideport.workflow.ProgressView.Block;
import org.sideport.workflow.ProgressView.Change;
import org.sideport.workflow.ProgressView.Curve;
import org.sideport.workflow.ProgressView.Monitoring;
import org.sideport.workflow.ProgressView.TermTimes;

/** Cases with times set by hand; figures behind the curve from NumPy and SciPy (oracle/progress). */
class FollowProgressTest {

    private static final double[] TENTHS = {12.1, 10.4, 9.9, 8.7, 9.2, 8.1, 7.7, 7.9, 7.2, 7.5, 6.6, 6.9};

    @TempDir
    Path temp;

    private Workspace workspace;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(temp.resolve("w"));
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private void rhexis(String trainee, int number, double seconds, Map<String, String> descriptors, String... events) {
        String code = trainee + "-" + number;
        workspace.change(s -> {
            s.cases()
                    .add(new SurgicalCase(
                            code, trainee, LocalDate.of(2026, 1, 1).plusDays(number), "phaco", descriptors, null));
            s.taggings()
                    .save(
                            code,
                            "A1",
                            new Tagging(
                                    TaggingStyle.START_AND_END,
                                    List.of(new PhaseSpan(
                                            "rhexis",
                                            MediaTime.ofSeconds(10),
                                            new MediaTime(10_000_000 + Math.round(seconds * 1e6)),
                                            null)),
                                    java.util.Arrays.stream(events)
                                            .map(e -> new PointEvent(e, MediaTime.ofSeconds(11), null, ""))
                                            .toList()));
        });
    }

    private void twelve(String trainee) {
        for (int i = 0; i < TENTHS.length; i++) {
            rhexis(trainee, i + 1, 10 * TENTHS[i], Map.of());
        }
    }

    private static Workspace as(Workspace workspace, String code, Role... roles) {
        return workspace.as(new Caller.Person(code, Set.of(roles)));
    }

    private static ProgressView show(Workspace workspace, String trainee, boolean complete) {
        return new FollowProgress(workspace).show(new Question(trainee, "phaco", null, 6, complete));
    }

    private static TermTimes term(ProgressView view, String id) {
        return view.times().stream().filter(t -> t.id().equals(id)).findFirst().orElseThrow();
    }

    private static Refusal refusal(Outcome<?> outcome) {
        return ((Outcome.Refused<?>) outcome).refusal();
    }

    @Test
    void theCurveTheFactorPerDoublingAndTheChangeAreThoseOfTheReferenceProgram() {
        twelve("T01");
        TermTimes rhexis = term(show(workspace, "T01", false), "rhexis");

        assertThat(rhexis.own()).hasSize(12);
        assertThat(rhexis.own().get(3).us()).isEqualTo(87_000_000);
        Curve curve = rhexis.curve().orElseThrow();
        assertThat(curve.showsChange()).isTrue();
        Estimate doubling = Objects.requireNonNull(curve.doubling());
        assertThat(doubling.value()).isCloseTo(0.8503263359877594, within(1e-6));
        assertThat(curve.places().get(0).caseNumber()).isEqualTo(1);
        assertThat(curve.places().get(curve.places().size() - 1).caseNumber()).isEqualTo(12);
        assertThat(curve.places()).allMatch(p -> p.lowUs() < p.us() && p.us() < p.highUs());
        Change change = rhexis.change().orElseThrow();
        assertThat(change.recent()).isEqualTo(6);
        assertThat(change.earlier()).isEqualTo(6);
        assertThat(change.recentUs() / 1e7).isCloseTo(7.2859150020370995, within(1e-7));
        assertThat(change.earlierUs() / 1e7).isCloseTo(9.650304132872238, within(1e-7));
        assertThat(Objects.requireNonNull(change.ratio().limits()).lower()).isCloseTo(0.6488645891467086, within(1e-7));
        assertThat(Objects.requireNonNull(change.ratio().limits()).upper()).isCloseTo(0.8784805006213924, within(1e-7));
        // the step alone was tagged, so the whole and its phase took as long
        ProgressView view = show(workspace, "T01", false);
        assertThat(view.times()).extracting(TermTimes::id).containsExactly("total", "capsulotomy", "rhexis");
        assertThat(term(view, "total").own()).isEqualTo(rhexis.own());
    }

    @Test
    void fewCasesGiveTheirTimesAndNoVerdict() {
        for (int i = 1; i <= 9; i++) {
            rhexis("T01", i, 100 - i, Map.of());
        }
        TermTimes rhexis = term(show(workspace, "T01", false), "rhexis");
        assertThat(rhexis.own()).hasSize(9);
        // a curve needs ten cases, a comparison five on either side; 9 − 6 = 3
        assertThat(refusal(rhexis.curve()).reason()).isEqualTo(Refusal.Reason.TOO_FEW);
        assertThat(refusal(rhexis.change()).reason()).isEqualTo(Refusal.Reason.TOO_FEW);
    }

    @Test
    void othersAreShownFromFiveOnEachCountedOnceAndNeverByCode() {
        rhexis("T01", 1, 100, Map.of());
        for (int peer = 1; peer <= 4; peer++) {
            rhexis("P" + peer, 1, 20 * peer, Map.of());
        }
        assertThat(term(show(workspace, "T01", false), "rhexis").peers().blocks())
                .isEmpty();
        assertThat(term(show(workspace, "T01", false), "rhexis").peers().masked())
                .isEqualTo(1);

        rhexis("P5", 1, 100, Map.of());
        rhexis("P5", 2, 90, Map.of());
        rhexis("P5", 3, 10, Map.of());
        ProgressView view = show(workspace, "T01", false);
        // 20 40 60 80 100 at case 1: quartiles 40 and 80 (Hyndman & Fan 1996, type 7); cases 2 and 3 are of one person
        // only
        assertThat(term(view, "rhexis").peers().blocks())
                .containsExactly(new Block(1, 1, 5, 40_000_000, 60_000_000, 80_000_000));
        assertThat(term(view, "rhexis").peers().masked()).isEqualTo(1);
        assertThat(view.toString().replace("capsulotomy", ""))
                .doesNotContain("P5")
                .doesNotContain("P1-");

        new FollowProgress(as(workspace, "D1", Role.DIRECTOR)).setFewestPeers(6);
        assertThat(term(show(workspace, "T01", false), "rhexis").peers().blocks())
                .isEmpty();
        assertThatThrownBy(() -> new FollowProgress(workspace).setFewestPeers(2))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("3 or more");
        assertThatThrownBy(() -> new FollowProgress(as(workspace, "T01", Role.TRAINEE)).setFewestPeers(3))
                .hasMessageContaining("you may not");
    }

    @Test
    void aTraineeSeesTheOwnOnlyAnAssessorWhatWasGivenADirectorAll() {
        twelve("T01");
        rhexis("T02", 1, 50, Map.of());
        TestRows.assign(workspace, "T01-2", "A7", "open");

        assertThat(show(as(workspace, "T01", Role.TRAINEE), "T01", false).cases())
                .hasSize(12);
        assertThat(show(as(workspace, "D1", Role.DIRECTOR), "T01", false).cases())
                .hasSize(12);
        assertThatThrownBy(() -> show(as(workspace, "T02", Role.TRAINEE), "T01", false))
                .hasMessageContaining("you may not");
        assertThatThrownBy(() -> show(as(workspace, "A8", Role.ASSESSOR), "T01", false))
                .hasMessageContaining("you may not");
        assertThat(new FollowProgress(as(workspace, "T01", Role.TRAINEE)).subjects())
                .extracting(FollowProgress.Subject::trainee)
                .containsExactly("T01");

        ProgressView given = show(as(workspace, "A7", Role.ASSESSOR), "T01", true);
        assertThat(given.cases()).extracting(ProgressView.OneCase::code).containsExactly("T01-2");
        assertThat(given.hidden()).isEqualTo(11);
        assertThat(given.gap()).isNull();
        // of a selection neither a curve nor a chart of complications
        assertThat(refusal(term(given, "rhexis").curve()).reason()).isEqualTo(Refusal.Reason.SELECTED_SERIES);
        assertThat(refusal(given.monitoring()).reason()).isEqualTo(Refusal.Reason.SELECTED_SERIES);
    }

    @Test
    void complicationsAreChartedOnlyOfALogThatIsStatedAndFoundComplete() {
        for (int i = 1; i <= 28; i++) {
            rhexis("T01", i, 60, Map.of());
        }
        assertThat(refusal(show(workspace, "T01", false).monitoring()).why()).contains("nobody has stated");

        Monitoring monitoring = show(workspace, "T01", true).monitoring().orElseThrow();
        // 5 % against 10 % and h = 1.5: each success adds ln(0.95/0.90) = 0.0540672, so 28 successes reach it, 27 do
        // not
        assertThat(monitoring.failures()).isZero();
        assertThat(Objects.requireNonNull(monitoring.chart().first(SignalKind.ACCEPTED))
                        .caseNumber())
                .isEqualTo(28);
        assertThat(monitoring.chart().points().get(0).statistic()).isCloseTo(0.05406722127, within(1e-10));
        // chances within 100 cases worked out on a lattice by hand for the same parameters: .92 and .46
        assertThat(monitoring.adequate()).isCloseTo(0.92, within(0.01));
        assertThat(monitoring.inadequate()).isCloseTo(0.46, within(0.01));

        workspace.change(s ->
                s.cases().add(new SurgicalCase("T01-x", "T01", LocalDate.of(2026, 1, 3), "phaco", Map.of(), null)));
        ProgressView gap = show(workspace, "T01", true);
        assertThat(refusal(gap.monitoring()).why()).contains("unknown");
        assertThat(gap.untagged()).isEqualTo(1);
    }

    @Test
    void aTornCapsuleTakesTheEvidenceBackToNothing() {
        for (int i = 1; i <= 6; i++) {
            rhexis(
                    "T01",
                    i,
                    60,
                    Map.of(),
                    i == 5 ? new String[] {"capsule_tear_posterior"} : new String[] {"iris_prolapse"});
        }
        Monitoring monitoring = show(workspace, "T01", true).monitoring().orElseThrow();
        // ln(0.05/0.10) = −0.693147 from 4 · 0.054067: held at 0
        assertThat(monitoring.failures()).isEqualTo(1);
        assertThat(monitoring.chart().points().get(4).statistic()).isZero();
        assertThat(monitoring.chart().points().get(3).statistic()).isCloseTo(4 * Math.log(0.95 / 0.90), within(1e-12));
    }

    @Test
    void theMixOfCasesIsToldFromTheirDescriptors() {
        rhexis("T01", 1, 60, Map.of("nuclear_grade", "2", "pupil", "large"));
        rhexis("T01", 2, 60, Map.of("nuclear_grade", "3"));
        rhexis("T01", 3, 60, Map.of("pupil", "small", "risk_factors", "glaucoma"));
        rhexis("T01", 4, 60, Map.of("eye", "left"));
        rhexis("T01", 5, 60, Map.of("risk_factors", "none of these"));
        assertThat(show(workspace, "T01", false).cases())
                .extracting(c -> c.mix().kind())
                .containsExactly(
                        CaseMix.Kind.USUAL,
                        CaseMix.Kind.HARDER,
                        CaseMix.Kind.HARDER,
                        CaseMix.Kind.UNKNOWN,
                        CaseMix.Kind.USUAL);
    }

    @Test
    void commentsOfOthersWaitUntilTheTraineeAnswersAndPraiseDoesNotWait() {
        rhexis("T01", 1, 60, Map.of());
        rhexis("T01", 2, 60, Map.of());
        workspace.change(s -> {
            comment(s, "c1", "T01-1", "A1", CommentTone.IMPROVE);
            comment(s, "c2", "T01-2", "A2", CommentTone.QUESTION);
            comment(s, "c3", "T01-2", "A2", CommentTone.PRAISE);
            comment(s, "c4", "T01-2", "T01", CommentTone.IMPROVE);
            s.comments().save("T01-1", new CommentReply("r1", "c1", "T01", "done"));
        });
        assertThat(show(workspace, "T01", false).comments())
                .extracting(ProgressView.Said::comment, ProgressView.Said::answered)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple("c2", false),
                        org.assertj.core.groups.Tuple.tuple("c1", true));
    }

    private static void comment(
            org.sideport.store.Stores stores, String id, String caseCode, String author, CommentTone tone) {
        stores.comments()
                .save(
                        caseCode,
                        new Comment(id, author, tone, "look here", null, MediaTime.ofSeconds(12), null, List.of()));
    }

    @Test
    void marksAndOwnMarksStandOverTheCasesOnTheirNumbers() {
        MadeUpMarks marks = new MadeUpMarks(workspace);
        for (int i = 1; i <= 3; i++) {
            rhexis("T01", i, 60, Map.of());
            marks.mark("T01-" + i, "A1", "five", false, Map.of("i1", i, "i2", 5));
            marks.mark("T01-" + i, "A2", "five", false, Map.of("i1", i + 1, "i2", 5));
            marks.markOneself("T01-" + i, "T01", "five", Map.of("i1", 5, "i2", 5));
        }
        ProgressView view = show(workspace, "T01", false);
        ProgressView.Marks found = Objects.requireNonNull(view.marks());
        assertThat(found.rubric().id()).isEqualTo("five");
        assertThat(found.items()).extracting(ProgressView.ItemMarks::item).containsExactly("i1", "i2");
        assertThat(found.items().get(0).points())
                .extracting(ProgressView.CasePoints::points)
                .containsExactly(1.5, 2.5, 3.5);
        assertThat(found.items().get(0).most()).isEqualTo(5);
        // (1 + 5) and (2 + 5) of 10 points
        assertThat(found.shares().get(0).share()).isCloseTo(0.65, within(1e-12));
        assertThat(found.shares().get(0).assessors()).isEqualTo(2);
        assertThat(Objects.requireNonNull(view.gap()).cases().get(0).gap()).isCloseTo(0.35, within(1e-12));
    }
}
