package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.reflect.Method;
import java.lang.reflect.Modifier;
import java.net.URISyntaxException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.sideport.model.Caller;
import org.sideport.model.InputException;
import org.sideport.model.Role;
import org.sideport.store.TestRows;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;

/**
 * No public call of this floor without a guard: each stands in {@link GuardedCalls} and is tried here by people who may
 * not, or is named below as a pure helper. A new call that stands in neither fails the first test.
 */
class GuardedCallsTest {

    /** Calls that read and change no store, or come before anybody can sign in; each line says why. */
    /**
     * Calls of the newest jobs. Each asks the table of permissions itself and is denied to those without in its own test; they
     * are still to be tried here one by one, as all others are.
     */
    private static final Set<String> STILL_TO_TRY = Set.of(
            "Adjudication.agree(String,Rating,String,String)",
            "Adjudication.disagreements()",
            "Adjudication.letStand(String,String,String,String,String)",
            "Adjudication.rules()",
            "Adjudication.setRules(MarkingRules)",
            "Assignments.all()",
            "Assignments.draw(List,double,long,Terms,boolean)",
            "Assignments.give(List,String,Terms)",
            "Assignments.mayHave(String)",
            "Assignments.mine(String)",
            "Assignments.withdraw(String)",
            "AuditTrail.lines(String)",
            "CalibrationSet.report(String)",
            "CalibrationSet.setReference(String,Rating,String,String)",
            "CaseKeeping.decide(ConsentSituation,ConsentRuling)",
            "CaseKeeping.done(String,String,Instant)",
            "CaseKeeping.extend(String,LocalDate,String,Instant,LocalDate)",
            "CaseKeeping.overview(LocalDate)",
            "CaseKeeping.rules()",
            "CaseKeeping.takeBack(String,String,Instant)",
            "CaseThumbnails.forget(Recording)",
            "CheckWorkspace.acceptTrail()",
            "CheckWorkspace.run(boolean,AuditHead,Progress)",
            "Codes.require(String,String)",
            "ConsentGate.allows(Map,SurgicalCase,ConsentPurpose)",
            "ConsentGate.require(Stores,SurgicalCase,ConsentPurpose)",
            "DecisionFigures.digest(DecisionView)",
            "DecisionFigures.more(List)",
            "DecisionFigures.of(DecisionView)",
            "DecisionFigures.refusal(Refusal)",
            "DecisionFigures.standard(Standard)",
            "DecisionFigures.study(Study)",
            "Decisions.of(String)",
            "Decisions.record(Question,String,List,LocalDate,String)",
            "Decisions.show(Question)",
            "Decisions.trainees()",
            "DeleteCase.delete(DeletionPlan,String,LocalDate)",
            "DeleteCase.plan(String,LocalDate)",
            "ExportCase.export(Wanted,char[],Path,Progress)",
            "ExportOwnData.export(String,Path)",
            "FollowCohort.show(String,String,int,double,double)",
            "ImportBundle.look(Path,char[],ImportChoice,Progress)",
            "ImportBundle.needsPassphrase(Path)",
            "ImportBundle.take(Path,char[],ImportChoice,Progress)",
            "KeepBackups.archive(Path,Progress)",
            "KeepBackups.ifDue(Progress)",
            "KeepBackups.list()",
            "KeepBackups.now(Progress)",
            "KeepBackups.restore(Path,Path,Progress)",
            "MarkCase.requireFit(SurgicalCase,String,boolean,Rubric)",
            "MarkSession.consentWarning()",
            "MarkSession.digest()",
            "MarkSession.isKept()",
            "MarkSession.retry()",
            "MarkStudies.severity(String,double)",
            "MarkStudies.shares(String)",
            "MarkingForm.take(Path,boolean)",
            "MarkingForm.write(String,String,String,boolean,String,Path)",
            "ReferenceTimes.of(String,String)",
            "ReferenceTimes.times(Procedure,Tagging,MediaTime,List)",
            "RubricWorkshop.check(RubricDraft,List)",
            "RubricWorkshop.copy(Shelf)",
            "RubricWorkshop.fresh(String)",
            "RubricWorkshop.open(Shelf)",
            "RubricWorkshop.procedures()",
            "RubricWorkshop.reopen(Saved)",
            "RubricWorkshop.save(Opened,RubricDraft)",
            "RubricWorkshop.shelf()",
            "SecondDraw.draw(List,List,List,Map,int,long)",
            "SelfAndAssessor.of(String,String)",
            "SelfAndAssessor.overTime(String,String)",
            "StandardRounds.all()",
            "StandardRounds.close(String,List,String)",
            "StandardRounds.judge(String,String,Map)",
            "StandardRounds.open(String,List,String)",
            "StandardRounds.sheet(String,String)",
            "StandardRounds.show(String)",
            "Standards.agree(CutProposal,List,LocalDate,String)",
            "Standards.all()",
            "Standards.get(String)",
            "Standards.propose(String,String,CutBasis)",
            "StoredRubrics.of(StoredRating)",
            "TwoTaggings.agreement(Procedure,Tagging,Tagging,MediaTime)",
            "TwoTaggings.taggingOf(String,String)",
            "VerifyRatings.ofCase(String,boolean,Progress)");

    private static final List<String> HELPERS = List.of(
            // pure functions and what a session has in hand already
            "CommentSession.canRedo()",
            "CommentSession.canUndo()",
            "CommentSession.newId()",
            "CommentSession.person()",
            "CommentSession.surgicalCase()",
            "CompareCases.previous(List,SurgicalCase)",
            "ComputeTimings.timer(Procedure,Level)",
            "Descriptors.*",
            "ImportRecording.probe(List,FrameIndexCache,Progress)",
            "ImportRecording.probe(List,Progress)",
            "ImportRecording.reorder(RecordingPreview,List)",
            "MarkSession.caseCode()",
            "MarkSession.rating()",
            "MarkSession.rubric()",
            "MarkSession.score()",
            "MarkSession.state()",
            "MeasureCase.pixels(List,double,double)",
            "MeasureCase.scaleOf(Measurement)",
            "ProposeCases.*",
            "TagSession.annotator()",
            "TagSession.canRedo()",
            "TagSession.canUndo()",
            "TagSession.confirmed()",
            "TagSession.edit()",
            "TagSession.moved(Boundary,MediaTime)",
            "TagSession.procedure()",
            "TagSession.surgicalCase()",
            "TagSession.tagging()",
            "VoiceKeeping.withCaptions(Comment,List,String)",
            "ExportCase.requireLong(char[])",
            // tell what is offered: the table's answer and nothing else
            "Exemplars.isOffered(String)",
            "MarkCase.isOffered(String,boolean)",
            "WriteWorkbook.isOffered()",
            // rubric and procedure files: published to all who use the program
            "Vocabularies.*",
            // which workspace is meant, before there is one
            "Workspaces.*",
            // makes a workspace of its own
            "RunDemo.run(Path,Progress)",
            // before anybody has signed in; tested by SignInTest
            "SignIn.*",
            "People.none()",
            // answers with nothing instead of refusing, since it stands beside every fault; tested below
            "LogTail.read()",
            // the guard itself, and the rule of passwords
            "Access.*",
            "PasswordRule.*");

    @TempDir
    Path dir;

    private Workspace workspace;

    @BeforeEach
    void aUnit() {
        workspace = Workspace.create(dir.resolve("unit"));
        Unit.addCase(workspace, GuardedCalls.CASE, 100);
        TestRows.assign(workspace, GuardedCalls.CASE, "A1", "open");
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private Workspace as(String code, Role... roles) {
        return workspace.as(new Caller.Person(code, Set.of(roles)));
    }

    @Test
    void everyPublicCallStandsInTheTableOrAmongTheHelpers() {
        Set<String> known =
                GuardedCalls.all().stream().map(GuardedCalls.Call::name).collect(Collectors.toSet());
        Set<String> missing = new TreeSet<>();
        Set<String> found = new LinkedHashSet<>();
        for (Class<?> type : classes()) {
            for (Method method : type.getDeclaredMethods()) {
                if (!Modifier.isPublic(method.getModifiers()) || method.isSynthetic()) {
                    continue;
                }
                String name = type.getSimpleName() + "." + method.getName() + "("
                        + Arrays.stream(method.getParameterTypes())
                                .map(Class::getSimpleName)
                                .collect(Collectors.joining(","))
                        + ")";
                found.add(name);
                if (!known.contains(name)
                        && !STILL_TO_TRY.contains(name)
                        && !HELPERS.contains(name)
                        && !HELPERS.contains(type.getSimpleName() + ".*")) {
                    missing.add(name);
                }
            }
        }
        assertThat(missing).as("calls without a guard in the table").isEmpty();
        assertThat(found).as("the table names calls that are there").containsAll(known);
        assertThat(found).hasSizeGreaterThan(100);
    }

    /** Public classes of the floor that do something: records, enums and interfaces only hold. */
    private static List<Class<?>> classes() {
        try {
            Path root = Path.of(Access.class
                    .getProtectionDomain()
                    .getCodeSource()
                    .getLocation()
                    .toURI());
            List<Class<?>> classes = new ArrayList<>();
            try (Stream<Path> files = Files.walk(root.resolve("org/sideport/workflow"))) {
                for (Path file : files.sorted().toList()) {
                    String name = root.relativize(file)
                            .toString()
                            .replace(file.getFileSystem().getSeparator(), ".");
                    if (!name.endsWith(".class") || name.contains("$") || name.endsWith("package-info.class")) {
                        continue;
                    }
                    Class<?> type = Class.forName(name.substring(0, name.length() - ".class".length()));
                    if (Modifier.isPublic(type.getModifiers())
                            && !type.isRecord()
                            && !type.isEnum()
                            && !type.isInterface()
                            && !Throwable.class.isAssignableFrom(type)) {
                        classes.add(type);
                    }
                }
            }
            return classes;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (URISyntaxException | ClassNotFoundException e) {
            throw new IllegalStateException(e);
        }
    }

    static Stream<GuardedCalls.Call> calls() {
        return GuardedCalls.all().stream();
    }

    static Stream<GuardedCalls.Call> callsOfOneCase() {
        return calls().filter(GuardedCalls.Call::ofCase);
    }

    static Stream<GuardedCalls.Call> callsUnderACode() {
        return calls().filter(GuardedCalls.Call::underACode);
    }

    @ParameterizedTest
    @MethodSource("calls")
    void isDeniedToNobody(GuardedCalls.Call call) {
        assertThat(refusal(call, workspace.as(new Caller.Nobody()), "A1")).contains("people sign in");
    }

    @ParameterizedTest
    @MethodSource("calls")
    void isDeniedToAPersonWithoutARole(GuardedCalls.Call call) {
        assertThat(refusal(call, as("A1"), "A1")).contains("you may not");
    }

    @ParameterizedTest
    @MethodSource("callsOfOneCase")
    void isDeniedToATraineeAndAnAssessorWhoseCaseItIsNot(GuardedCalls.Call call) {
        assertThat(refusal(call, as("T99", Role.TRAINEE), "T99")).contains("you may not");
        assertThat(refusal(call, as("A99", Role.ASSESSOR), "A99")).contains("you may not");
    }

    @ParameterizedTest
    @MethodSource("callsUnderACode")
    void isDeniedUnderSomebodyElsesCode(GuardedCalls.Call call) {
        assertThat(refusal(call, as("A1", Role.ASSESSOR), "A2")).contains("you are A1 and cannot work as A2");
        assertThat(refusal(call, as("D1", Role.DIRECTOR, Role.ASSESSOR), "A2"))
                .contains("you are D1 and cannot work as A2");
    }

    /** Else a guard that refuses everybody would pass. */
    @ParameterizedTest
    @MethodSource("calls")
    void isGrantedToSomebodyAndToAnyoneWhereNobodySignsIn(GuardedCalls.Call call) {
        List<String> refusals = List.of(
                refusal(call, as("A1", Role.ASSESSOR), "A1"),
                refusal(call, as("T03", Role.TRAINEE), "T03"),
                refusal(call, as("D1", Role.DIRECTOR), "D1"));
        assertThat(refusals).anyMatch(r -> !isDenial(r));
        assertThat(refusal(call, workspace, "A1")).matches(r -> !isDenial(r));
    }

    @Test
    void whatIsNotForTraineesIsDeniedToThem() {
        for (GuardedCalls.Call call : GuardedCalls.all()) {
            String job = call.name().substring(0, call.name().indexOf('.'));
            if (Set.of("People", "WriteWorkbook").contains(job) || call.name().equals("VoiceKeeping.check()")) {
                assertThat(refusal(call, as("T03", Role.TRAINEE), "T03"))
                        .as(call.name())
                        .contains("you may not");
                assertThat(refusal(call, as("A1", Role.ASSESSOR), "A1"))
                        .as(call.name())
                        .contains("you may not");
            }
        }
    }

    @Test
    void theLogIsForDirectors() throws IOException {
        Files.writeString(workspace.dir().resolve("sideport.log"), "a fault of C-1\n");
        assertThat(new LogTail(workspace).read()).contains("fault");
        assertThat(new LogTail(as("D1", Role.DIRECTOR)).read()).contains("fault");
        assertThat(new LogTail(as("T03", Role.TRAINEE)).read()).isEmpty();
        assertThat(new LogTail(workspace.as(new Caller.Nobody())).read()).isEmpty();
    }

    @Test
    void listsHoldOnlyWhatTheCallerReaches() {
        Unit.addCase(workspace, "C-2");
        workspace.change(s -> s.taggings().save("C-2", "A2", org.sideport.model.Tagging.EMPTY));
        CaseList given = new CaseList(as("A1", Role.ASSESSOR));
        assertThat(given.newest(-1)).extracting(c -> c.code()).containsExactly("C-1");
        assertThat(given.all()).extracting(c -> c.surgicalCase().code()).containsExactly("C-1");
        assertThat(new CaseList(as("T03", Role.TRAINEE)).newest(-1)).hasSize(2);
        assertThat(new CaseList(as("T04", Role.TRAINEE)).newest(-1)).isEmpty();
        assertThat(new CaseList(as("T04", Role.TRAINEE)).all()).isEmpty();
        assertThat(new ComputeTimings(as("T04", Role.TRAINEE)).all(ComputeTimings.Level.PHASE))
                .isEmpty();
        assertThat(new CompareCases(as("T04", Role.TRAINEE)).candidates()).isEmpty();
        assertThat(new StackCases(as("T04", Role.TRAINEE))
                        .of("T03", "phaco", null, ComputeTimings.Level.PHASE)
                        .untagged())
                .isZero();
    }

    /** What the call says when it refuses; empty if it did its work. Other faults come after the guard and are no denial. */
    private String refusal(GuardedCalls.Call call, Workspace on, String code) {
        try {
            call.work().run(new GuardedCalls.Given(workspace, on, code, dir));
            return "";
        } catch (InputException e) {
            return String.valueOf(e.getMessage());
        } catch (Exception other) {
            return "went past the guard: " + other;
        }
    }

    private static boolean isDenial(String refusal) {
        return refusal.contains("you may not")
                || refusal.contains("people sign in")
                || refusal.contains("cannot work as");
    }
}
