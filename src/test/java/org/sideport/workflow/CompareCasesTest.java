package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
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
import org.sideport.model.CommentTone;
import org.sideport.model.Exemplar;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Role;
import org.sideport.model.SeenEvent;
import org.sideport.model.SeenTrack;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Voice;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.timing.PublishedDurations;
import org.sideport.timing.TimeMap;
import org.sideport.workflow.CompareCases.Candidate;
import org.sideport.workflow.CompareCases.Choice;
import org.sideport.workflow.Comparison.Row;
import org.sideport.workflow.Comparison.Standing;
import org.sideport.workflow.ComputeTimings.Level;

/**
 * Two operations by hand, in seconds; differences are the left one's (C-01) less the right one's (C-02).
 *
 * <pre>
 *                  C-01        C-02
 * side_port        10 to 20    5 to 9
 * rhexis           30 to 90    20 to 50
 * rhexis again     100 to 110
 * capsule_dye                  12 to 15
 * sculpting        150 to 200  60 to 100
 * recording ends   300         200
 * </pre>
 */
class CompareCasesTest {

    private static final Clock NOON = Clock.fixed(Instant.parse("2026-05-04T12:00:00Z"), ZoneOffset.UTC);

    @TempDir
    Path temp;

    private Workspace workspace;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(temp.resolve("w"));
        Unit.addCase(workspace, "C-01", 300);
        Unit.addCase(workspace, "C-02", 200);
        tags("C-01", "A1", "side_port,10,20", "rhexis,30,90", "rhexis,100,110", "sculpting,150,200");
        tags("C-02", "A1", "side_port,5,9", "capsule_dye,12,15", "rhexis,20,50", "sculpting,60,100");
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private void tags(String code, String annotator, String... spans) {
        String[] lines = new String[spans.length + 1];
        lines[0] = "case,annotator,phase,start,end,operator";
        for (int i = 0; i < spans.length; i++) {
            lines[i + 1] = code + "," + annotator + "," + spans[i] + ",";
        }
        new TagExchange(workspace).importCsv(Unit.csv(temp, lines), null, false);
    }

    /** A case without a recording that did one rhexis of so many seconds. */
    private void rhexis(String code, String trainee, LocalDate date, int seconds) {
        workspace.change(s -> s.cases().add(new SurgicalCase(code, trainee, date, "phaco", Map.of(), null)));
        tags(code, "A1", "rhexis,10," + (10 + seconds));
    }

    private Comparison compare(Level level) {
        return new CompareCases(workspace).compare(new Choice("C-01", null), new Choice("C-02", null), null, level);
    }

    private static Row row(Comparison found, String id) {
        return found.rows().stream().filter(r -> r.id().equals(id)).findFirst().orElseThrow();
    }

    @Test
    void differencesAreLeftLessRight() {
        Comparison found = compare(Level.STEP);

        assertThat(found.rows()).extracting(Row::id).containsExactly("side_port", "capsule_dye", "rhexis", "sculpting");
        // 10 - 4; 60 + 10 - 30; 50 - 40
        assertThat(row(found, "side_port").differenceUs()).isEqualTo(6_000_000);
        assertThat(row(found, "rhexis").differenceUs()).isEqualTo(40_000_000);
        assertThat(row(found, "sculpting").differenceUs()).isEqualTo(10_000_000);
        assertThat(Objects.requireNonNull(row(found, "rhexis").ratio())).isEqualTo(70.0 / 30, within(1e-12));
        assertThat(Objects.requireNonNull(row(found, "rhexis").left()).episodes())
                .isEqualTo(2);
        // what one side lacks has no difference: unknown, not 0
        assertThat(row(found, "capsule_dye").left()).isNull();
        assertThat(row(found, "capsule_dye").differenceUs()).isNull();
        assertThat(row(found, "capsule_dye").ratio()).isNull();
        // 10 to 200 less 5 to 100; 130 less 77; 60 less 18
        assertThat(found.totals()).extracting(Row::differenceUs).containsExactly(95_000_000L, 53_000_000L, 42_000_000L);
    }

    @Test
    void thePhasesAreLaidOntoEachOther() {
        Comparison found = compare(Level.STEP);

        // 30 into 60 of rhexis is half: 15 into 30
        assertThat(found.aligned().toRight(MediaTime.ofSeconds(60)).time()).isEqualTo(MediaTime.ofSeconds(35));
        assertThat(found.aligned().toRight(MediaTime.ofSeconds(105)).piece().kind())
                .isEqualTo(TimeMap.Kind.LEFT_ONLY);
        assertThat(found.aligned().toRight(MediaTime.ofSeconds(150)).time()).isEqualTo(MediaTime.ofSeconds(60));
        assertThat(found.sameClock().toRight(MediaTime.ofSeconds(60)).time()).isEqualTo(MediaTime.ofSeconds(60));
    }

    @Test
    void whereOneSideHasOnlyThePhaseStepsAreAddedUp() {
        tags("C-02", "A2", "incision,5,9", "capsulotomy,12,50", "sculpting,60,100");
        Comparison found = new CompareCases(workspace)
                .compare(new Choice("C-01", "A1"), new Choice("C-02", "A2"), null, Level.STEP);

        assertThat(found.rows()).extracting(Row::id).containsExactly("incision", "capsulotomy", "sculpting");
        // 60 + 10 - 38
        assertThat(row(found, "capsulotomy").differenceUs()).isEqualTo(32_000_000);
        assertThat(found.aligned().matched()).isEqualTo(3);
    }

    @Test
    void tagsAreThoseAskedForElseOnesOwnElseOfOneWhoTaggedBoth() {
        tags("C-01", "A2", "side_port,1,2", "rhexis,3,4", "rhexis,5,6", "sculpting,7,8", "division,8,9");
        CompareCases job = new CompareCases(workspace);
        Choice one = new Choice("C-01", null);
        Choice other = new Choice("C-02", null);

        // A2 tagged more of C-01, but only A1 tagged both
        assertThat(job.compare(one, other, null, Level.STEP).left().annotator()).isEqualTo("A1");
        assertThat(job.compare(one, other, "A2", Level.STEP).left().annotator()).isEqualTo("A2");
        assertThat(job.compare(one, other, "A2", Level.STEP).right().annotator())
                .isEqualTo("A1");
        assertThat(job.compare(new Choice("C-01", "A1"), other, "A2", Level.STEP)
                        .left()
                        .annotator())
                .isEqualTo("A1");
        assertThatThrownBy(() -> job.compare(new Choice("C-01", "A9"), other, null, Level.STEP))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("name one of A1, A2");
    }

    @Test
    void aCutMakesTheTimeUnsureAndKeepsItOutOfTheReference() {
        new RecordingCuts(workspace).add("C-01", MediaTime.ofSeconds(60), "paused", "A1");
        new Exemplars(workspace, NOON).name("C-02", null, "Quiet rhexis", "", "A1", false);
        Comparison found = compare(Level.STEP);

        assertThat(row(found, "rhexis").unsure()).isTrue();
        assertThat(row(found, "rhexis").standing()).isNull();
        assertThat(row(found, "side_port").unsure()).isFalse();
        assertThat(row(found, "side_port").standing()).isNotNull();
    }

    @Test
    void aTimeStandsAmongThoseOfTheExemplars() {
        rhexis("E-1", "T09", LocalDate.of(2026, 1, 1), 40);
        rhexis("E-2", "T09", LocalDate.of(2026, 1, 2), 60);
        rhexis("E-3", "T09", LocalDate.of(2026, 1, 3), 100);
        Exemplars exemplars = new Exemplars(workspace, NOON);
        exemplars.name("E-1", "A1", "one", "", "A1", false);
        exemplars.name("E-2", "A1", "two", "", "A1", false);
        exemplars.name("E-3", "A1", "three", "", "A1", false);
        exemplars.name("C-01", "A1", "the case itself is no reference for itself", "", "A1", false);

        // 70 s: two were shorter, one took longer; two thirds lie below
        Standing standing =
                Objects.requireNonNull(row(compare(Level.STEP), "rhexis").standing());
        assertThat(standing.n()).isEqualTo(3);
        assertThat(standing.shorter()).isEqualTo(2);
        assertThat(standing.longer()).isEqualTo(1);
        assertThat(standing.rank().value()).isEqualTo(2.0 / 3, within(1e-12));
        assertThat(standing.rank().warnings()).isNotEmpty();
    }

    @Test
    void publishedTimesAreForOrientation() {
        // 70 s of rhexis: published for little experience: median 65.1, third quartile 85.9 (Cataract-101)
        var little = row(compare(Level.STEP), "rhexis").orientation().stream()
                .filter(o -> o.group().id().equals("published_little_experience"))
                .findFirst()
                .orElseThrow();
        assertThat(little.place()).isEqualTo(new PublishedDurations.Place(50, 75));
    }

    @Test
    void theFirstExemplarIsTheUsualOneUntilAnotherIsOrItIsTakenAway() {
        rhexis("E-1", "T09", LocalDate.of(2026, 1, 1), 40);
        Exemplars exemplars = new Exemplars(workspace, NOON);
        exemplars.name("C-02", null, "first", "slow and safe", "A1", false);
        exemplars.name("E-1", null, "second", "", "A2", false);
        assertThat(exemplars.usual("phaco").map(Exemplar::caseCode)).contains("C-02");

        exemplars.name("E-1", null, "second", "", "A2", true);
        assertThat(exemplars.all()).extracting(Exemplar::caseCode).containsExactly("E-1", "C-02");
        assertThat(exemplars.all()).extracting(Exemplar::usual).containsExactly(true, false);

        exemplars.remove("e-1", null);
        assertThat(exemplars.all())
                .containsExactly(new Exemplar(
                        "C-02",
                        "A1",
                        "phaco",
                        "first",
                        "slow and safe",
                        "A1",
                        Instant.parse("2026-05-04T12:00:00Z"),
                        true));
        assertThatThrownBy(() -> exemplars.remove("E-1", null)).isInstanceOf(InputException.class);
        assertThatThrownBy(() -> exemplars.name("C-02", null, " ", "", "A1", false))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("title");
    }

    @Test
    void thePreviousCaseIsTheSameTraineesLastOneBefore() {
        rhexis("P-1", "T03", LocalDate.of(2026, 2, 1), 40);
        rhexis("P-2", "T03", LocalDate.of(2026, 2, 8), 40);
        rhexis("Q-1", "T04", LocalDate.of(2026, 2, 9), 40);
        rhexis("P-3", "T03", LocalDate.of(2026, 4, 1), 40);
        List<Candidate> candidates = new CompareCases(workspace).candidates();
        SurgicalCase mine = workspace.read(s -> s.cases().get("C-01"));

        assertThat(candidates.get(0).surgicalCase().code()).as("newest first").isEqualTo("P-3");
        // C-01 and C-02 are of 9 March
        assertThat(CompareCases.previous(candidates, mine))
                .map(c -> c.surgicalCase().code())
                .contains("P-2");
        SurgicalCase first = workspace.read(s -> s.cases().get("P-1"));
        assertThat(CompareCases.previous(candidates, first)).isEmpty();
    }

    @Test
    void casesWithoutTagsOrOfAnotherProcedureAreRefused() {
        Unit.addCase(workspace, "C-03");
        CompareCases job = new CompareCases(workspace);
        assertThatThrownBy(() -> job.compare(new Choice("C-01", null), new Choice("C-03", null), null, Level.STEP))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("nobody has tagged phases of case C-03");
        workspace.change(
                s -> s.cases().add(new SurgicalCase("M-1", "T03", LocalDate.of(2026, 3, 9), "msics", Map.of(), null)));
        workspace.change(s ->
                s.taggings().save("M-1", "A1", s.taggings().find("C-02", "A1").orElseThrow()));
        assertThatThrownBy(() -> job.compare(new Choice("C-01", null), new Choice("M-1", null), null, Level.STEP))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("different procedures");
    }

    @Test
    void aTraineesCasesAreStackedByDateAndTheUntaggedCounted() {
        rhexis("P-1", "T03", LocalDate.of(2026, 2, 1), 40);
        Unit.addCase(workspace, "C-03");
        StackCases.Stack stack = new StackCases(workspace).of("T03", "phaco", null, Level.STEP);

        assertThat(stack.bars()).extracting(b -> b.surgicalCase().code()).containsExactly("P-1", "C-01", "C-02");
        assertThat(stack.untagged()).isEqualTo(1);
        assertThat(stack.bars())
                .extracting(b -> b.startOf("rhexis"))
                .containsExactly(10_000_000L, 30_000_000L, 20_000_000L);
        assertThat(stack.bars().get(0).startOf("sculpting")).isNull();
        assertThat(stack.terms())
                .extracting(t -> t.id())
                .containsExactly("side_port", "capsule_dye", "rhexis", "sculpting");
    }

    /** Who named a case as an exemplar speaks to all; what others said to its trainee stays with them. */
    @Test
    void whoSeesACaseAsAnExemplarOnlyHearsWhoNamedIt() {
        new Exemplars(workspace, NOON).name("C-02", "A1", "small pupil", "", "A9", true);
        spoken("k-1", "A9", 20);
        spoken("k-2", "A1", 30);
        workspace.change(s -> s.comments()
                .save(
                        "C-02",
                        new Comment(
                                "k-3",
                                "A9",
                                CommentTone.IMPROVE,
                                "written to the trainee",
                                null,
                                MediaTime.ofSeconds(5),
                                null,
                                List.of())));
        workspace.change(
                s -> s.cases().add(new SurgicalCase("C-09", "T05", LocalDate.of(2026, 3, 9), "phaco", Map.of(), null)));
        tags("C-09", "A1", "rhexis,10,50");

        Comparison all = new CompareCases(workspace)
                .compare(new Choice("C-09", null), new Choice("C-02", null), null, Level.STEP);
        assertThat(all.right().narration()).extracting(n -> n.comment().id()).containsExactly("k-1", "k-2");
        Comparison own = new CompareCases(workspace.as(new Caller.Person("T05", Set.of(Role.TRAINEE))))
                .compare(new Choice("C-09", null), new Choice("C-02", null), null, Level.STEP);
        assertThat(own.right().narration()).extracting(n -> n.comment().id()).containsExactly("k-1");
    }

    private void spoken(String id, String author, int second) {
        Voice voice = new Voice(
                "ab".repeat(32),
                2_000_000,
                new SeenTrack(List.of(new SeenEvent.Stand(0, MediaTime.ofSeconds(second)))),
                List.of());
        workspace.change(s -> s.comments()
                .save(
                        "C-02",
                        new Comment(
                                id,
                                author,
                                CommentTone.PRAISE,
                                "",
                                null,
                                MediaTime.ofSeconds(second),
                                null,
                                List.of(),
                                voice)));
    }
}
