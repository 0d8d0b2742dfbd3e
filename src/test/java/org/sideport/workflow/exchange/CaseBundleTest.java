package org.sideport.workflow.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.CancellationException;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.Assignment;
import org.sideport.model.AuditEvent;
import org.sideport.model.Caller;
import org.sideport.model.CommentThread;
import org.sideport.model.Consent;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.ConsentState;
import org.sideport.model.Cut;
import org.sideport.model.MaskArea;
import org.sideport.model.Measurement;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;
import org.sideport.model.Rating;
import org.sideport.model.RatingState;
import org.sideport.model.Role;
import org.sideport.model.SurgicalCase;
import org.sideport.report.bundle.RatingDigest;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.StoredRating;
import org.sideport.store.TestRows;
import org.sideport.store.Workspace;
import org.sideport.workflow.CaseEdit;
import org.sideport.workflow.EditCase;
import org.sideport.workflow.HideAreas;
import org.sideport.workflow.exchange.ImportPlan.State;
import org.sideport.workflow.exchange.ImportPlan.What;

/** Two hospitals, real stores and real files: what goes out of one is what stands in the other. */
class CaseBundleTest {

    @TempDir
    Path temp;

    private Workspace a;
    private Workspace b;
    private Path bundle;

    @BeforeEach
    void twoHospitals() throws Exception {
        a = FreshWorkspace.in(temp.resolve("a"));
        b = FreshWorkspace.in(temp.resolve("b"));
        Hospital.fill(a, temp.resolve("shelf"));
        bundle = temp.resolve("D-017.sideport-case.zip");
    }

    @AfterEach
    void close() {
        a.close();
        b.close();
    }

    private void export(boolean media) {
        new ExportCase(a).export(new ExportCase.Wanted("D-017", media, false), null, bundle, Progress.NONE);
    }

    private ImportPlan take(ImportChoice choice) {
        return new ImportBundle(b).take(bundle, null, choice, Progress.NONE);
    }

    private static final ImportChoice PLAIN = ImportChoice.plain("B9");

    private static List<StoredRating> ratings(Workspace workspace) {
        return workspace.read(s -> s.ratings().ofCase("D-017"));
    }

    @Test
    void whatEitherSideHidesOfThePictureStaysHidden() {
        MaskArea theirs = new MaskArea(0, 0, 64, 32, MediaTime.ofSeconds(5), MediaTime.ofSeconds(12));
        MaskArea both = new MaskArea(344, 264, 40, 32);
        MaskArea own = new MaskArea(8, 8, 16, 16);
        new HideAreas(a).replace("D-017", List.of(theirs, both));
        export(false);
        take(PLAIN);
        assertThat(new HideAreas(b).of("D-017")).containsExactly(theirs, both);

        new HideAreas(b).replace("D-017", List.of(own, both));
        ImportPlan again = take(PLAIN);
        assertThat(again.conflicts()).isEmpty();
        assertThat(again.lines())
                .filteredOn(line -> line.what() == What.HIDDEN_AREA)
                .extracting(ImportPlan.Line::state)
                .containsExactly(State.NEW, State.SAME);
        assertThat(new HideAreas(b).of("D-017")).containsExactly(own, both, theirs);
    }

    /** Bundles of form 1 know nothing of hidden areas. */
    @Test
    void aBundleOfTheFirstFormIsTakenInToo() throws Exception {
        export(false);
        Path old = Zips.rewritten(bundle, temp.resolve("old.zip"), (name, bytes) -> {
            String text = new String(bytes, StandardCharsets.UTF_8);
            return switch (name) {
                case "manifest.json" ->
                    text.replace("\"version\" : 2", "\"version\" : 1").getBytes(StandardCharsets.UTF_8);
                case "content.json" -> {
                    assertThat(text).containsOnlyOnce("\"hidden_areas\" : [ ],");
                    yield text.replace("\"hidden_areas\" : [ ],", "").getBytes(StandardCharsets.UTF_8);
                }
                default -> bytes;
            };
        });
        ImportPlan plan = new ImportBundle(b).take(old, null, PLAIN, Progress.NONE);
        assertThat(plan.newCase()).isTrue();
        assertThat(new HideAreas(b).of("D-017")).isEmpty();
    }

    @Test
    void everythingOfTheCaseArrivesAsItWas() throws Exception {
        export(true);
        ImportPlan plan = take(PLAIN);
        assertThat(plan.newCase()).isTrue();
        assertThat(plan.conflicts()).isEmpty();

        SurgicalCase there = a.read(s -> s.cases().get("D-017"));
        SurgicalCase here = b.read(s -> s.cases().get("D-017"));
        assertThat(here.trainee()).isEqualTo("T03");
        assertThat(here.date()).isEqualTo(there.date());
        assertThat(here.descriptors()).isEqualTo(there.descriptors());
        assertThat(here.consent()).isEqualTo(Hospital.CONSENT);
        assertThat(here.reviewBy()).isEqualTo(LocalDate.of(2027, 3, 9));
        for (int i = 0; i < 2; i++) {
            var mine = here.recording().segments().get(i);
            var theirs = there.recording().segments().get(i);
            assertThat(mine.withFile(theirs.file())).isEqualTo(theirs);
            assertThat(mine.file()).isEqualTo(b.dir().resolve("recordings/D-017/" + (i + 1) + ".mp4"));
            assertThat(Files.mismatch(mine.file(), theirs.file())).isEqualTo(-1);
        }
        assertThat(b.<List<Cut>>read(s -> s.cuts().of("D-017")))
                .isEqualTo(a.<List<Cut>>read(s -> s.cuts().of("D-017")));
        assertThat(b.<Object>read(s -> s.taggings().find("D-017", "A1")))
                .isEqualTo(a.<Object>read(s -> s.taggings().find("D-017", "A1")));
        assertThat(b.<Object>read(s -> s.taggings().confirmed("D-017", "A1")))
                .isEqualTo(a.<Object>read(s -> s.taggings().confirmed("D-017", "A1")));
        assertThat(b.<List<CommentThread>>read(s -> s.comments().threads("D-017", "")))
                .isEqualTo(a.<List<CommentThread>>read(s -> s.comments().threads("D-017", "")));
        assertThat(b.<List<Measurement>>read(s -> s.measurements().of("D-017")))
                .isEqualTo(a.<List<Measurement>>read(s -> s.measurements().of("D-017")));
        try (Stream<Path> voices = Files.list(b.dir().resolve("voice"))) {
            assertThat(voices)
                    .hasSize(1)
                    .allSatisfy(v -> assertThat(Files.readString(v)).startsWith("not a real"));
        }
        try (Stream<Path> left = Files.list(b.dir().resolve("recordings"))) {
            assertThat(left).extracting(f -> f.getFileName().toString()).containsExactly("D-017");
        }
    }

    @Test
    void signedRatingsKeepStateMomentReasonAndDigest() {
        export(false);
        take(PLAIN);
        assertThat(ratings(b)).hasSize(4);
        for (int i = 0; i < 4; i++) {
            StoredRating here = ratings(b).get(i);
            StoredRating there = ratings(a).get(i);
            assertThat(here.rating()).isEqualTo(there.rating());
            assertThat(here.state()).isEqualTo(there.state());
            assertThat(here.signedAt()).isEqualTo(there.signedAt());
            assertThat(here.reason()).isEqualTo(there.reason());
            assertThat(digest(here)).isEqualTo(digest(there));
            assertThat(here.amends() == null).isEqualTo(there.amends() == null);
        }
        assertThat(ratings(b))
                .extracting(StoredRating::state)
                .containsExactly(RatingState.SUPERSEDED, RatingState.SIGNED, RatingState.SIGNED, RatingState.DRAFT);
        assertThat(b.<String>read(s -> s.origins().of(ratings(b).get(1).id()))).hasSize(64);
        assertThat(a.<String>read(s -> s.origins().of(ratings(a).get(1).id()))).isEmpty();
    }

    private static String digest(StoredRating r) {
        return RatingDigest.of(
                r.rating(),
                r.rubricJson(),
                r.signedAt() == null ? null : r.signedAt().toString(),
                r.reason());
    }

    @Test
    void twiceIsAsGoodAsOnceAndTheSameHospitalChangesNothing() {
        export(true);
        take(PLAIN);
        Object before = List.of(ratings(b), b.<Object>read(s -> s.comments().threads("D-017", "")));
        ImportPlan again = take(PLAIN);
        assertThat(again.newCase()).isFalse();
        assertThat(again.bringsNothing()).isTrue();
        assertThat(again.conflicts()).isEmpty();
        assertThat(again.lines()).allMatch(l -> l.state() == State.SAME).hasSizeGreaterThan(9);
        assertThat(List.of(ratings(b), b.<Object>read(s -> s.comments().threads("D-017", ""))))
                .isEqualTo(before);

        ImportPlan home = new ImportBundle(a).take(bundle, null, PLAIN, Progress.NONE);
        assertThat(home.bringsNothing()).isTrue();
        assertThat(home.conflicts()).isEmpty();
    }

    @Test
    void lookingChangesNothing() throws Exception {
        export(true);
        ImportPlan plan = new ImportBundle(b).look(bundle, null, PLAIN, Progress.NONE);
        assertThat(plan.lines()).extracting(ImportPlan.Line::state).containsOnly(State.NEW);
        assertThat(plan.mediaBytes()).isEqualTo(4 * 9000 + 4 * 5000);
        assertThat(b.<Boolean>read(s -> s.cases().exists("D-017"))).isFalse();
        assertThat(b.dir().resolve("recordings")).doesNotExist();
    }

    @Test
    void whatDiffersIsToldLineByLineAndOursStays() {
        export(false);
        take(PLAIN);
        b.change(s -> {
            s.comments().save("D-017", Hospital.comment("c-1", "A1", "Changed here.", null));
            s.taggings().save("D-017", "A1", org.sideport.model.Tagging.EMPTY);
        });
        new EditCase(b)
                .edit(
                        "D-017",
                        new CaseEdit("B9", null, null, Map.of("eye", "right"), null, null, false),
                        Hospital.SIGNED);
        long draft = ratings(b).get(3).id();
        b.change(s -> s.ratings().saveDraft(draft, Hospital.rating("A2", false, 4)));

        ImportPlan kept = take(PLAIN);
        assertThat(kept.conflicts())
                .extracting(ImportPlan.Line::what, ImportPlan.Line::name, ImportPlan.Line::state)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple(What.DESCRIPTOR, "eye", State.KEPT),
                        org.assertj.core.groups.Tuple.tuple(What.TAGGING, "A1", State.KEPT),
                        org.assertj.core.groups.Tuple.tuple(What.COMMENT, "A1 at 0:07.000", State.KEPT),
                        org.assertj.core.groups.Tuple.tuple(
                                What.RATING, "A2, " + Hospital.RUBRIC.id() + " 1.0.0, draft", State.KEPT));
        assertThat(kept.conflicts().get(0).detail()).isEqualTo("here right, in the bundle left");
        assertThat(b.<SurgicalCase>read(s -> s.cases().get("D-017")).descriptors())
                .containsEntry("eye", "right");
        assertThat(ratings(b).get(3).rating()).isEqualTo(Hospital.rating("A2", false, 4));

        ImportPlan taken = take(new ImportChoice(null, null, Map.of(), true, "B9"));
        assertThat(taken.conflicts()).extracting(ImportPlan.Line::state).containsOnly(State.REPLACED);
        assertThat(b.<SurgicalCase>read(s -> s.cases().get("D-017")).descriptors())
                .containsEntry("eye", "left");
        assertThat(ratings(b)).extracting(StoredRating::rating).contains(Hospital.rating("A2", false, 1));
        assertThat(new EditCase(b).open("D-017").changes())
                .extracting("by", "before", "after")
                .contains(org.assertj.core.groups.Tuple.tuple("B9", "right", "left"));
        assertThat(take(PLAIN).bringsNothing()).isTrue();
    }

    @Test
    void signedMarksAreNeverReplacedNotEvenWhenTheirsIsPreferred() {
        export(false);
        // in hospital B A1 signed other marks for the same case and rubric before
        b.change(s -> {
            s.cases().add(a.<SurgicalCase>read(t -> t.cases().get("D-017")));
            s.ratings().keepRubric(Hospital.RUBRIC.id(), Hospital.RUBRIC.version(), Hospital.RUBRIC_TEXT);
            long signed = s.ratings().addDraft("D-017", Hospital.rating("A1", false, 1), null, null);
            s.ratings().sign(signed, Hospital.SIGNED.minusSeconds(5));
        });
        StoredRating before = ratings(b).get(0);
        ImportPlan plan = take(new ImportChoice(null, null, Map.of(), true, "B9"));
        assertThat(plan.conflicts())
                .extracting(ImportPlan.Line::what, ImportPlan.Line::state, ImportPlan.Line::detail)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple(
                                What.RATING, State.KEPT, "signed here with other marks, which never change"),
                        org.assertj.core.groups.Tuple.tuple(
                                What.RATING, State.KEPT, "what it amends is not signed here, or was amended here too"));
        assertThat(ratings(b).get(0)).isEqualTo(before);
        assertThat(ratings(b)).extracting(r -> r.rating().assessor()).containsExactly("A1", "T03", "A2");
    }

    @Test
    void anAmendmentMadeElsewhereSupersedesTheVeryRatingThatIsHere() {
        b.change(s -> {
            s.cases().add(a.<SurgicalCase>read(t -> t.cases().get("D-017")));
            s.ratings().keepRubric(Hospital.RUBRIC.id(), Hospital.RUBRIC.version(), Hospital.RUBRIC_TEXT);
            long signed = s.ratings().addDraft("D-017", Hospital.rating("A1", false, 2), null, null);
            s.ratings().sign(signed, Hospital.SIGNED);
        });
        export(false);
        take(PLAIN);
        List<StoredRating> now = ratings(b);
        assertThat(now.get(0).state()).isEqualTo(RatingState.SUPERSEDED);
        assertThat(now.get(1).state()).isEqualTo(RatingState.SIGNED);
        assertThat(now.get(1).amends()).isEqualTo(now.get(0).id());
        assertThat(now.get(1).reason()).isEqualTo("saw it again at full size");
    }

    /** Marked at another hospital's computer: nobody here needs to be reminded of it. */
    @Test
    void aSignatureThatArrivesClosesTheAssignmentThatAskedForIt() {
        b.change(s -> s.cases().add(a.<SurgicalCase>read(t -> t.cases().get("D-017"))));
        TestRows.assign(b, "D-017", "A1", "open");
        TestRows.assign(b, "D-017", "A2", "open");
        export(false);
        take(PLAIN);
        List<Assignment> assignments = b.read(s -> s.assignments().ofCase("D-017"));
        assertThat(assignments)
                .filteredOn(one -> one.assessor().equals("A1"))
                .singleElement()
                .satisfies(one -> {
                    assertThat(one.state()).isEqualTo(Assignment.State.DONE);
                    assertThat(one.doneAt()).isEqualTo(Hospital.SIGNED);
                });
        // a draft closes nothing
        assertThat(assignments)
                .filteredOn(one -> one.assessor().equals("A2"))
                .extracting(Assignment::state)
                .containsExactly(Assignment.State.OPEN);
    }

    @Test
    void aTraineesCodeThatIsInUseHereIsAskedAboutBeforeAnythingComesIn() {
        b.change(s -> s.cases().add(new SurgicalCase("B-1", "T03", LocalDate.of(2026, 1, 5), "phaco", Map.of(), null)));
        export(false);
        assertThat(new ImportBundle(b).look(bundle, null, PLAIN, Progress.NONE).questions())
                .singleElement()
                .asString()
                .contains("Is trainee T03 of the bundle the T03 who has 1 case here?", "--trainee-as");
        assertThatThrownBy(() -> take(PLAIN)).hasMessageContaining("--trainee-as");
        assertThat(b.<Boolean>read(s -> s.cases().exists("D-017"))).isFalse();

        take(new ImportChoice(null, "T09", Map.of("A1", "X1"), false, "B9"));
        assertThat(b.<SurgicalCase>read(s -> s.cases().get("D-017")).trainee()).isEqualTo("T09");
        assertThat(ratings(b)).extracting(r -> r.rating().assessor()).containsExactly("X1", "X1", "T09", "A2");
        assertThat(b.<List<String>>read(s -> s.taggings().annotators("D-017"))).containsExactly("X1");
        assertThat(b.<List<CommentThread>>read(s -> s.comments().threads("D-017", ""))
                        .get(0)
                        .replies())
                .extracting("author")
                .containsExactly("T09");
        assertThat(take(new ImportChoice(null, "T09", Map.of("A1", "X1"), false, "B9"))
                        .bringsNothing())
                .isTrue();
        assertThatThrownBy(() -> take(new ImportChoice(null, "T09", Map.of("A1", "T09"), false, "B9")))
                .hasMessageContaining("would both become T09");
    }

    @Test
    void whoWasGivenAnotherCodeBeforeIsAskedForWhenTheBundleComesAgain() {
        export(false);
        take(new ImportChoice(null, "T08", Map.of(), false, "B9"));
        assertThatThrownBy(() -> take(PLAIN))
                .hasMessageContaining("The case D-017 here is of T08")
                .hasMessageContaining("--trainee-as T08")
                .hasMessageContaining("--case-as");
        assertThat(take(new ImportChoice(null, "T08", Map.of(), false, "B9")).bringsNothing())
                .isTrue();
        assertThatThrownBy(() -> take(new ImportChoice(null, "T04", Map.of(), false, "B9")))
                .hasMessageContaining("the case D-017 here is another one: trainee T08, not T04");
    }

    @Test
    void anotherCaseUnderTheSameCodeIsNeverMixedUp() {
        b.change(s ->
                s.cases().add(new SurgicalCase("D-017", "T08", LocalDate.of(2026, 1, 5), "phaco", Map.of(), null)));
        export(false);
        assertThatThrownBy(() -> take(PLAIN))
                .hasMessageContaining("the case D-017 here is another one: trainee T08, not T03")
                .hasMessageContaining("--case-as");
        take(new ImportChoice("B-D-017", null, Map.of(), false, "B9"));
        assertThat(b.<List<SurgicalCase>>read(s -> s.cases().all()))
                .extracting(SurgicalCase::code)
                .containsExactlyInAnyOrder("D-017", "B-D-017");
        assertThat(take(new ImportChoice("B-D-017", null, Map.of(), false, "B9"))
                        .bringsNothing())
                .isTrue();
        assertThatThrownBy(() -> take(new ImportChoice("B-2", null, Map.of(), false, "B9")))
                .hasMessageContaining("under another code");
    }

    @Test
    void aRubricWithTheSameVersionAndAnotherTextKeepsItsRatingsOut() {
        b.change(s ->
                s.ratings().keepRubric(Hospital.RUBRIC.id(), Hospital.RUBRIC.version(), Hospital.RUBRIC_TEXT + " "));
        export(false);
        ImportPlan plan = take(PLAIN);
        assertThat(plan.conflicts())
                .hasSize(4)
                .allMatch(l -> l.what() == What.RATING && l.state() == State.KEPT)
                .allMatch(l -> l.detail().contains("another text"));
        assertThat(ratings(b)).isEmpty();
        assertThat(b.<Object>read(s -> s.taggings().annotators("D-017"))).isEqualTo(List.of("A1"));
    }

    @Test
    void withoutConsentNothingGoesOutAndWithdrawnCasesAreNotThere() {
        consent(ConsentState.REFUSED);
        assertThatThrownBy(() -> export(false)).hasMessageContaining("was refused");
        assertThat(bundle).doesNotExist();
        consent(ConsentState.UNKNOWN);
        assertThat(new ExportCase(a)
                        .export(new ExportCase.Wanted("D-017", false, false), null, bundle, Progress.NONE)
                        .warnings())
                .anyMatch(w -> w.contains("nothing is recorded of a consent"))
                .anyMatch(w -> w.contains("Anyone can read the file"))
                .anyMatch(w -> w.contains("voices"));
        consent(ConsentState.WITHDRAWN);
        assertThatThrownBy(() -> export(false)).hasMessageContaining("consent was withdrawn");
        assertThatThrownBy(() -> new ImportBundle(a).take(bundle, null, PLAIN, Progress.NONE))
                .hasMessageContaining("consent was withdrawn");
    }

    private void consent(ConsentState state) {
        Consent now = state == ConsentState.UNKNOWN
                ? Consent.UNKNOWN
                : new Consent(state, Set.of(ConsentPurpose.ASSESSMENT), "A1", LocalDate.of(2026, 4, 1));
        new EditCase(a).edit("D-017", new CaseEdit("A1", null, null, Map.of(), now, null, false), Hospital.SIGNED);
    }

    @Test
    void aTraineeTakesOnlyTheOwnMarksOutAndMayTakeNothingIn() {
        Workspace trainee = a.as(new Caller.Person("T03", Set.of(Role.TRAINEE)));
        new ExportCase(trainee).export(new ExportCase.Wanted("D-017", false, false), null, bundle, Progress.NONE);
        take(PLAIN);
        assertThat(ratings(b)).extracting(StoredRating::rating).containsExactly(Hospital.rating("T03", true, 4));
        Workspace other = a.as(new Caller.Person("T04", Set.of(Role.TRAINEE)));
        assertThatThrownBy(() -> new ExportCase(other)
                        .export(new ExportCase.Wanted("D-017", false, false), null, bundle, Progress.NONE))
                .hasMessageContaining("you may not");
        assertThatThrownBy(() -> new ImportBundle(trainee).take(bundle, null, PLAIN, Progress.NONE))
                .hasMessageContaining("you may not");
    }

    @Test
    void exportAndImportAreInTheAuditTrail() {
        export(true);
        take(PLAIN);
        AuditEvent out = last(a);
        AuditEvent in = last(b);
        assertThat(out.deed()).isEqualTo("case.export_with_recording");
        assertThat(in.deed()).isEqualTo("bundle.import");
        assertThat(in.subject()).isEqualTo("D-017");
        assertThat(in.after()).isEqualTo(out.after()).hasSize(64);
    }

    private static AuditEvent last(Workspace workspace) {
        List<AuditEvent> all = workspace.read(s -> s.audit().all());
        return all.get(all.size() - 1);
    }

    @Test
    void whenCancelledNothingIsLeftOnEitherSide() throws Exception {
        export(true);
        Path other = temp.resolve("other.zip");
        assertThatThrownBy(() -> new ExportCase(a)
                        .export(new ExportCase.Wanted("D-017", true, false), null, other, new CancelAt(0.5)))
                .isInstanceOf(CancellationException.class);
        assertThat(other).doesNotExist();
        for (double share : new double[] {0.05, 0.3, 0.5, 0.7, 0.9}) {
            assertThatThrownBy(() -> new ImportBundle(b).take(bundle, null, PLAIN, new CancelAt(share)))
                    .as("at %s", share)
                    .isInstanceOf(CancellationException.class);
            assertThat(b.<Boolean>read(s -> s.cases().exists("D-017"))).isFalse();
            if (Files.isDirectory(b.dir().resolve("recordings"))) {
                assertThat(b.dir().resolve("recordings")).isEmptyDirectory();
            }
        }
        try (Stream<Path> left = Files.list(temp)) {
            assertThat(left).extracting(f -> f.getFileName().toString()).noneMatch(n -> n.contains(".part"));
        }
    }

    /** Asks to stop from a share of the work on. */
    private static final class CancelAt implements Progress {
        private final double share;
        private boolean reached;

        CancelAt(double share) {
            this.share = share;
        }

        @Override
        public void report(double fraction, String message) {
            reached |= fraction >= share;
        }

        @Override
        public boolean isCancelled() {
            return reached;
        }
    }

    @Test
    void aRecordingThatChangedSinceItWasTakenInDoesNotGoOut() throws Exception {
        Path first = a.<SurgicalCase>read(s -> s.cases().get("D-017"))
                .recording()
                .segments()
                .get(0)
                .file();
        Files.writeString(first, "eno ".repeat(9000));
        assertThatThrownBy(() -> export(true)).isInstanceOf(org.sideport.model.InputException.class);
        assertThat(bundle).doesNotExist();
    }

    @Test
    void marksThatWereAlteredOnTheWayAreFoundByTheirDigest() throws Exception {
        export(false);
        Path altered = Zips.rewritten(
                bundle,
                temp.resolve("altered.zip"),
                (name, bytes) -> name.equals("content.json")
                        ? new String(bytes, java.nio.charset.StandardCharsets.UTF_8)
                                .replaceFirst("\"points\" : 3", "\"points\" : 4")
                                .getBytes(java.nio.charset.StandardCharsets.UTF_8)
                        : bytes);
        assertThatThrownBy(() -> new ImportBundle(b).take(altered, null, PLAIN, Progress.NONE))
                .hasMessageContaining("the marks are not what their digest says");
        assertThat(b.<Boolean>read(s -> s.cases().exists("D-017"))).isFalse();
    }

    @Test
    void ratingsKnowNothingOfTheOtherHospitalsNumbers() {
        b.change(s -> {
            s.cases().add(new SurgicalCase("B-1", "T08", LocalDate.of(2026, 1, 5), "phaco", Map.of(), null));
            s.ratings().keepRubric(Hospital.RUBRIC.id(), Hospital.RUBRIC.version(), Hospital.RUBRIC_TEXT);
            for (String assessor : List.of("B1", "B2", "B3")) {
                s.ratings().addDraft("B-1", Hospital.rating(assessor, false, 1), null, null);
            }
        });
        export(false);
        take(PLAIN);
        assertThat(ratings(b).get(1).amends()).isEqualTo(ratings(b).get(0).id());
        assertThat(b.<List<StoredRating>>read(s -> s.ratings().ofCase("B-1")))
                .extracting(StoredRating::rating)
                .extracting(Rating::assessor)
                .containsExactly("B1", "B2", "B3");
    }
}
