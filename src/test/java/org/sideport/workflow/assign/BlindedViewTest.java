package org.sideport.workflow.assign;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowable;
import static org.assertj.core.api.Assertions.fail;

import java.io.IOException;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.media.FileDigest;
import org.sideport.model.Assignment;
import org.sideport.model.Assignment.Purpose;
import org.sideport.model.Caller;
import org.sideport.model.Comment;
import org.sideport.model.CommentTone;
import org.sideport.model.Cut;
import org.sideport.model.CutKind;
import org.sideport.model.CutState;
import org.sideport.model.Exemplar;
import org.sideport.model.Hidden;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Progress;
import org.sideport.model.Rating;
import org.sideport.model.RatingState;
import org.sideport.model.Recording;
import org.sideport.model.Role;
import org.sideport.model.Rubric;
import org.sideport.model.Segment;
import org.sideport.model.Severity;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.rubric.ShippedRubrics;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.TestRows;
import org.sideport.store.Workspace;
import org.sideport.timing.TagTable;
import org.sideport.workflow.CaseList;
import org.sideport.workflow.CommentCase;
import org.sideport.workflow.CompareCases;
import org.sideport.workflow.ComputeTimings;
import org.sideport.workflow.EditCase;
import org.sideport.workflow.Exemplars;
import org.sideport.workflow.MarkCase;
import org.sideport.workflow.MarkSession;
import org.sideport.workflow.MeasureCase;
import org.sideport.workflow.OpenRecording;
import org.sideport.workflow.RecordingCuts;
import org.sideport.workflow.TagExchange;
import org.sideport.workflow.TagRecording;
import org.sideport.workflow.WriteWorkbook;

/**
 * An assessor with a blinded assignment finds the case nowhere by its own code, and learns nothing of what is hidden from
 * any job. What must be hidden: surgeon, date, sequence number, earlier scores, stage of training, complication code (and
 * sound and file names); common practice in validation studies (Saleh 2007; Casswell 2016; Gauba 2008; Paley 2021).
 */
class BlindedViewTest {

    private static final String CODE = "UNIT-0417";
    private static final String TRAINEE = "T19";
    private static final LocalDate DAY = LocalDate.of(2026, 3, 9);
    private static final Rubric RUBRIC = ShippedRubrics.phacoCompetency();
    private static final Clock CLOCK = Clock.fixed(Instant.parse("2026-05-01T08:00:00Z"), ZoneOffset.UTC);

    private static final List<String> TELLING = List.of(
            CODE,
            CODE.toLowerCase(Locale.ROOT),
            TRAINEE,
            TRAINEE.toLowerCase(Locale.ROOT),
            "2026-03-09",
            "09.03.2026",
            "T19_0903",
            "cataract.mp4",
            "lists",
            "third year",
            "capsule_tear_posterior",
            "77.7",
            "A1",
            "10:11:12");

    @TempDir
    Path dir;

    private Workspace workspace;
    private Workspace director;
    private Workspace blind;
    private Path file;
    private String label;

    @BeforeEach
    void anotherUnitsCase() throws IOException {
        workspace = FreshWorkspace.in(dir.resolve("unit"));
        director = workspace.as(new Caller.Person("P1", Set.of(Role.DIRECTOR)));
        blind = workspace.as(new Caller.Person("A2", Set.of(Role.ASSESSOR)));
        file = Files.write(
                Files.createDirectories(dir.resolve("lists")).resolve("T19_0903_cataract.mp4"), new byte[] {1, 2, 3});
        Segment segment = new Segment(
                file,
                FileDigest.sha256(file, Progress.NONE),
                3,
                600_000_000,
                15_000,
                0,
                25,
                1,
                false,
                "h264",
                640,
                480,
                "1:1",
                0,
                false,
                true,
                List.of("creation_time=2026-03-09T10:11:12Z"));
        Tagging tagging = new Tagging(
                TaggingStyle.START_AND_END,
                List.of(new PhaseSpan("capsulorhexis", MediaTime.ofMicros(1), MediaTime.ofMicros(90_000_000), null)),
                List.of(new PointEvent(
                        "capsule_tear_posterior",
                        MediaTime.ofMicros(5_000_000),
                        Severity.MAJOR,
                        "torn in the third year")));
        workspace.change(stores -> {
            stores.cases()
                    .add(new SurgicalCase(
                            CODE,
                            TRAINEE,
                            DAY,
                            "phaco",
                            Map.of("eye", "left", "other_risks", "third year", "ultrasound_time", "77.7"),
                            new Recording(List.of(segment))));
            stores.taggings().save(CODE, TRAINEE, tagging);
            stores.comments()
                    .save(
                            CODE,
                            new Comment(
                                    "c-1",
                                    TRAINEE,
                                    CommentTone.values()[0],
                                    "my third year",
                                    null,
                                    MediaTime.ofMicros(1),
                                    null,
                                    List.of(),
                                    null));
            stores.cuts()
                    .save(
                            CODE,
                            new Cut(
                                    MediaTime.ofMicros(1),
                                    MediaTime.ofMicros(2),
                                    CutKind.values()[0],
                                    CutState.ACCEPTED,
                                    "clock of T19_0903_cataract.mp4 at 2026-03-09",
                                    TRAINEE));
            stores.exemplars()
                    .save(new Exemplar(CODE, TRAINEE, "phaco", "third year", "", "A1", CLOCK.instant(), true));
        });
        MarkCase marking = new MarkCase(workspace);
        marking.rate(CODE, rating(TRAINEE, true, 4));
        marking.sign(CODE, RUBRIC.id(), TRAINEE, true);
        marking.rate(CODE, rating("A1", false, 2));
        marking.sign(CODE, RUBRIC.id(), "A1", false);
        label = new Assignments(director, CLOCK)
                .give(List.of(CODE), "A2", new Assignments.Terms(Purpose.SECOND, Hidden.ALL, DAY.plusDays(90)))
                .get(0)
                .label();
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private static Rating rating(String assessor, boolean self, int points) {
        return new Rating(
                RUBRIC.id(),
                RUBRIC.version(),
                assessor,
                self,
                false,
                RUBRIC.items().stream()
                        .map(i -> (ItemScore) new ItemScore.Marked(i.id(), points, "third year"))
                        .toList(),
                "third year");
    }

    private List<org.sideport.store.StoredRating> ratings() {
        return workspace.read(stores -> stores.ratings().ofCase(CODE));
    }

    private java.util.Optional<Tagging> tagging() {
        return workspace.read(stores -> stores.taggings().find(CODE, TRAINEE));
    }

    /** All that could tell: also in lower case, and the date in parts that only it has. */
    private void tellsNothing(Object... values) {
        String text = Everything.of(values);
        for (String telling : TELLING) {
            int at = text.indexOf(telling);
            if (at >= 0) {
                fail(telling + " can be read in: "
                        + text.substring(Math.max(0, at - 150), Math.min(text.length(), at + 80)));
            }
        }
    }

    @Test
    void noJobTellsABlindedAssessorWhatIsHidden() throws IOException {
        CaseList list = new CaseList(blind);
        assertThat(list.newest(-1))
                .singleElement()
                .satisfies(line -> assertThat(line.code()).isEqualTo(label));
        tellsNothing(list.newest(-1), list.all(), list.one(label));
        assertThat(list.one(label).surgicalCase().descriptors()).containsEntry("eye", "left");
        assertThat(list.one(label).mediaFound()).isTrue();
        EditCase.Sheet sheet = new EditCase(blind).open(label);
        tellsNothing(sheet.surgicalCase(), sheet.changes());
        SurgicalCase seen = list.one(label).surgicalCase();
        Recording recording = new OpenRecording(blind).locate(seen);
        tellsNothing(recording);
        assertThat(recording.segments().get(0).file()).hasSameBinaryContentAs(file);
        assertThat(recording.segments().get(0).audio()).isFalse();
        List<String> annotators = list.one(label).annotators();
        assertThat(annotators).hasSize(1);
        var session = new TagRecording(blind).look(label, annotators.get(0));
        tellsNothing(session.tagging(), session.surgicalCase(), annotators);
        assertThat(session.tagging().spans()).hasSize(1);
        tellsNothing(
                new CommentCase(blind).of(label),
                new CommentCase(blind).open(label, "A2").threads());
        tellsNothing(new MeasureCase(blind).of(label));
        List<Cut> cuts = new RecordingCuts(blind).of(label);
        assertThat(cuts).hasSize(1);
        tellsNothing(cuts);
        tellsNothing(new ComputeTimings(blind).all(ComputeTimings.Level.PHASE));
        tellsNothing(new CompareCases(blind).candidates(), new Exemplars(blind, CLOCK).all());
        tellsNothing(new SelfAndAssessor(blind).of(label, RUBRIC.id()));
        tellsNothing(new Assignments(blind, CLOCK).mine("A2"));
        tellsNothing(new CalibrationSet(blind, CLOCK).report(RUBRIC.id()));
        StringWriter csv = new StringWriter();
        TagExchange exchange = new TagExchange(blind);
        TagExchange.Exported exported = exchange.find(label, annotators.get(0));
        exchange.exportCsv(exported, TagTable.Kind.PHASES, csv);
        exchange.exportCsv(exported, TagTable.Kind.EVENTS, csv);
        tellsNothing(exported, csv);
    }

    @Test
    void noExportTellsWhatIsHidden() {
        Path book = dir.resolve("book.xlsx");
        // the workbook of all cases is the director's
        assertThatThrownBy(() -> new WriteWorkbook(blind).write(book, Progress.NONE))
                .isInstanceOf(InputException.class);
        assertThat(book).doesNotExist();
    }

    @Test
    void marksMadeUnderTheLabelAreThoseOfTheCaseAndBlind() {
        MarkSession session = new MarkCase(blind).open(label, "A2", false, RUBRIC);
        tellsNothing(session.caseCode(), session.rating(), session.score());
        RUBRIC.items().forEach(item -> session.mark(item.id(), 3));
        tellsNothing(new CaseList(blind).all(), new CaseList(blind).one(label));
        session.sign();
        assertThat(ratings())
                .filteredOn(r -> r.rating().assessor().equals("A2"))
                .singleElement()
                .satisfies(r -> {
                    assertThat(r.rating().blind()).isTrue();
                    assertThat(r.state()).isEqualTo(RatingState.SIGNED);
                });
        assertThat(new Assignments(director, CLOCK).all())
                .singleElement()
                .satisfies(a -> assertThat(a.state()).isEqualTo(Assignment.State.DONE));
        // the blind may see once nothing can be changed
        assertThat(new CaseList(blind).one(CODE).surgicalCase().trainee()).isEqualTo(TRAINEE);
        // and the label goes on hiding, for who still has it open
        tellsNothing(new CaseList(blind).one(label));
    }

    @Test
    void anErrorTellsNothingEither() throws IOException {
        SurgicalCase seen = new CaseList(blind).one(label).surgicalCase();
        Files.delete(file);
        tellsNothing(catchThrowable(() -> new OpenRecording(blind).locate(seen)));
        assertThat(new CaseList(blind).one(label).mediaFound()).isFalse();
        MarkCase marking = new MarkCase(blind);
        tellsNothing(catchThrowable(() -> marking.sign(label, RUBRIC.id(), "A2", false)));
        marking.rate(label, rating("A2", false, 3).withComment("").withScores(List.of()));
        tellsNothing(catchThrowable(() -> marking.sign(label, RUBRIC.id(), "A2", false)));
        tellsNothing(catchThrowable(() -> marking.open(label, "A2", true, RUBRIC)));
        tellsNothing(catchThrowable(() -> new ComputeTimings(blind).ofCase(label, "A9", ComputeTimings.Level.PHASE)));
    }

    @Test
    void theCaseItselfIsNotThereForABlindedAssessor() {
        for (Runnable job : List.<Runnable>of(
                () -> new CaseList(blind).one(CODE),
                () -> new EditCase(blind).open(CODE),
                () -> new TagRecording(blind).open(CODE, "A2"),
                () -> new CommentCase(blind).of(CODE),
                () -> new MarkCase(blind).open(CODE, "A2", false, RUBRIC),
                () -> new MarkCase(blind).rate(CODE, rating("A2", false, 3)),
                () -> new SelfAndAssessor(blind).of(CODE, RUBRIC.id()))) {
            assertThatThrownBy(job::run).isInstanceOf(InputException.class);
        }
        assertThat(ratings()).hasSize(2);
    }

    @Test
    void aMovedRecordingIsFoundAndKeepsItsNeutralName() throws IOException {
        SurgicalCase seen = new CaseList(blind).one(label).surgicalCase();
        Path elsewhere = Files.move(file, workspace.dir().resolve("T19 found again.mp4"));
        Recording recording = new OpenRecording(blind).locate(seen);
        tellsNothing(recording);
        assertThat(recording.segments().get(0).file()).hasSameBinaryContentAs(elsewhere);
        assertThat(workspace
                        .read(stores -> stores.cases().get(CODE))
                        .recording()
                        .segments()
                        .get(0)
                        .file())
                .isEqualTo(elsewhere);
    }

    @Test
    void readingMakesNoLinksAndOpeningMakesThemAgain() throws IOException {
        Path names = workspace.dir().resolve("blind").resolve(label);
        assertThat(names.resolve("0.mp4")).as("made when the case was given").hasSameBinaryContentAs(file);
        Files.delete(names.resolve("0.mp4"));
        Files.delete(names);
        SurgicalCase seen = new CaseList(blind).one(label).surgicalCase();
        new CaseList(blind).all();
        assertThat(names).doesNotExist();
        // as after a backup was restored, which holds no links
        assertThat(new OpenRecording(blind).locate(seen).segments().get(0).file())
                .isEqualTo(names.resolve("0.mp4"))
                .hasSameBinaryContentAs(file);
    }

    @Test
    void aDraftIsNamedByTheLabelThatHoldsAndNotByAnEarlierOne() {
        new MarkCase(blind).rate(label, rating("A2", false, 3));
        // the first of all labels, were they looked through by letter
        TestRows.assignBlind(workspace, CODE, "A2", "withdrawn", "A-0");
        long draft = workspace.read(stores -> stores.ratings().ofCase(CODE).stream()
                .filter(r -> r.rating().assessor().equals("A2"))
                .findFirst()
                .orElseThrow()
                .id());
        assertThat(blind.<String>read(
                        stores -> stores.ratings().find(draft).orElseThrow().caseCode()))
                .isEqualTo(label);
    }

    @Test
    void underALabelOnlyItsAssessorWritesAndNothingOfTheCaseChanges() {
        Workspace other = workspace.as(new Caller.Person("A3", Set.of(Role.ASSESSOR)));
        assertThatThrownBy(() -> new CaseList(other).one(label)).isInstanceOf(InputException.class);
        // where nobody signs in, the code that is typed must be the one it was given to
        assertThatThrownBy(() -> new MarkCase(workspace).rate(label, rating("A3", false, 3)))
                .hasMessageContaining("another assessor");
        assertThatThrownBy(() -> workspace.change(stores -> stores.taggings().save(label, TRAINEE, Tagging.EMPTY)))
                .hasMessageContaining("another assessor");
        assertThatThrownBy(() -> workspace.change(
                        stores -> stores.cases().update(stores.cases().get(label), List.of())))
                .hasMessageContaining("blind");
        assertThat(tagging()).hasValueSatisfying(t -> assertThat(t.events()).hasSize(1));
    }

    @Test
    void onlyWhatAnAssignmentNamesIsHidden() {
        new Assignments(director, CLOCK).withdraw(label);
        assertThatThrownBy(() -> new CaseList(workspace).one(label)).isInstanceOf(InputException.class);
        String some = new Assignments(director, CLOCK)
                .give(
                        List.of(CODE),
                        "A2",
                        new Assignments.Terms(Purpose.SECOND, EnumSet.of(Hidden.TRAINEE, Hidden.EARLIER_MARKS), null))
                .get(0)
                .label();
        assertThat(some).isNotEqualTo(label);
        SurgicalCase seen = new CaseList(blind).one(some).surgicalCase();
        assertThat(seen.trainee()).isEmpty();
        assertThat(seen.date()).isEqualTo(DAY);
        assertThat(seen.recording().segments().get(0).file()).isEqualTo(file);
        assertThat(seen.recording().segments().get(0).audio()).isTrue();
    }

    @Test
    void labelsFollowNoOrder() {
        List<String> labels = new ArrayList<>();
        for (int i = 0; i < 40; i++) {
            String code = "N-" + (100 + i);
            workspace.change(stores -> stores.cases().add(new SurgicalCase(code, "T01", DAY, "phaco", Map.of(), null)));
            labels.add(new Assignments(director, CLOCK)
                    .give(List.of(code), "A2", new Assignments.Terms(Purpose.FIRST, Hidden.ALL, null))
                    .get(0)
                    .label());
        }
        assertThat(labels).doesNotHaveDuplicates();
        // 40 labels drawn at random are in order with a chance of 1 in 40!
        assertThat(labels).isNotEqualTo(labels.stream().sorted().toList());
        assertThat(new Assignments(blind, CLOCK).mine("A2"))
                .extracting(Assignments.Work::code)
                .hasSize(41)
                .isSorted()
                .allMatch(code -> code.startsWith("M-"));
    }
}
