package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.reflect.Method;
import java.lang.reflect.Modifier;
import java.net.URISyntaxException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.sideport.model.Caller;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.model.Role;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.TestRows;
import org.sideport.store.Workspace;
import org.sideport.workflow.GuardedCalls.Who;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.upkeep.KeepBackups;

/**
 * No public call of this floor without a guard: each stands in {@link GuardedCalls} with the permissions it asks for, and is
 * tried here as each role, with the own or given case and with others', against the one table {@link
 * org.sideport.workflow.access.Permission} (which is itself held against a second writing of it in {@code
 * PermissionTableTest}). What stands in neither that list nor in {@link Unguarded}, whose
 * entries are each held by a check too, fails the first test.
 */
class GuardedCallsTest {

    @TempDir
    static Path shared;

    @TempDir
    Path dir;

    private Workspace workspace;

    /** Made once and copied for each test: what one call leaves behind is nothing to the next. */
    @BeforeAll
    static void aUnit() {
        try (Workspace made = FreshWorkspace.in(shared.resolve("unit"))) {
            Unit.addCase(made, GuardedCalls.CASE, 100);
            TestRows.assign(made, GuardedCalls.CASE, Who.ASSESSOR.code, "open");
        }
    }

    @BeforeEach
    void copy() throws IOException {
        Path from = shared.resolve("unit");
        Path to = dir.resolve("unit");
        try (Stream<Path> files = Files.walk(from)) {
            for (Path file : files.toList()) {
                Files.copy(file, to.resolve(from.relativize(file).toString()));
            }
        }
        workspace = Workspace.open(to);
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
                if (!known.contains(name) && !Unguarded.isNamed(type.getSimpleName(), name)) {
                    missing.add(name);
                }
            }
        }
        assertThat(missing).as("calls without a guard in the table").isEmpty();
        assertThat(found).as("the table names calls that are there").containsAll(known);
        assertThat(Unguarded.all())
                .as("so does the list of those without a guard")
                .allMatch(entry -> entry.endsWith(".*")
                        ? found.stream().anyMatch(name -> name.startsWith(entry.substring(0, entry.length() - 1)))
                        : found.contains(entry));
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

    /**
     * Each cell of the table that the call stands for: every role, with the own or given case and with others', and the
     * three who have no role. Refusals come first, since what is granted may change what is there.
     */
    @ParameterizedTest
    @MethodSource("calls")
    void isForWhomTheTableSays(GuardedCalls.Call call) {
        assertThat(refusal(call, workspace.as(new Caller.Nobody()), "A1"))
                .as("nobody signed in")
                .contains("people sign in");
        assertThat(refusal(call, as("A1"), "A1")).as("without a role").contains("you may not");
        List<Who> granted = new ArrayList<>();
        for (Who who : Who.values()) {
            if (call.isFor(who)) {
                granted.add(who);
            } else {
                assertThat(refusal(call, as(who.code, who.role), who.code))
                        .as(who + " may not")
                        .matches(GuardedCallsTest::isDenial, "is a denial");
            }
        }
        if (call.underACode()) {
            isDeniedUnderSomebodyElsesCode(call, granted);
        }
        assertThat(granted).as("somebody may").isNotEmpty();
        List<String> answers = new ArrayList<>();
        for (Who who : granted) {
            String answer = refusal(call, as(who.code, who.role), who.code);
            assertThat(isDenial(answer)).as(who + " may: " + answer).isFalse();
            answers.add(answer);
        }
        // else arguments that no guard ever sees, since something else refuses them, would pass for a grant
        assertThat(answers).as("does its work").anyMatch(a -> a.isEmpty() || wantsAFile(call, a));
        assertThat(refusal(call, workspace, "A1"))
                .as("where nobody signs in")
                .matches(answer -> !isDenial(answer), "is no denial");
    }

    private void isDeniedUnderSomebodyElsesCode(GuardedCalls.Call call, List<Who> granted) {
        for (Who who : granted) {
            assertThat(refusal(call, as(who.code, who.role), "A2"))
                    .as(who + " as A2")
                    .matches(GuardedCallsTest::isDenial, "is a denial");
        }
        assertThat(refusal(call, as("D1", Role.DIRECTOR, Role.ASSESSOR), "A2"))
                .as("a director who assesses, as A2")
                .matches(GuardedCallsTest::isDenial, "is a denial");
    }

    /** These would read a recording or a sound, which is not there: that they looked for it comes after the guard. */
    private static boolean wantsAFile(GuardedCalls.Call call, String answer) {
        return switch (call.name()) {
            case "HideAreas.findWriting(String,Progress)",
                    "HideAreas.picture(String,MediaTime,Progress)",
                    "OpenRecording.locate(SurgicalCase,List,Progress)",
                    "OpenRecording.locate(SurgicalCase)",
                    "RecordingCuts.find(String,Progress)" -> answer.contains("is not where it was");
            case "RecordingTraces.of(Recording,Progress)" -> answer.contains("no such file");
            case "VoiceKeeping.finish(Path,String,String,SeenTrack,MediaTime)" ->
                answer.contains("this is no sound of a comment");
            default -> false;
        };
    }

    @Test
    void aCopyThatIsDueIsMadeWhoeverSitsThere() {
        Clock inTwoDays = Clock.offset(Clock.systemUTC(), Duration.ofDays(2));
        var made = new KeepBackups(workspace.as(new Caller.Nobody()), inTwoDays).ifDue(Progress.NONE);
        assertThat(made).isNotNull();
        assertThat(made.file()).startsWith(workspace.dir());
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
                || refusal.contains("cannot work as")
                // for one person only, whatever the role
                || refusal.contains("the work of A2 is for A2")
                || refusal.contains("you can see and fill in your own sheet only")
                || refusal.contains("these are the data of another person");
    }
}
