package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.AccessTarget;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaCodeUnit;
import com.tngtech.archunit.core.domain.JavaCodeUnitAccess;
import com.tngtech.archunit.core.domain.JavaMethod;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.Caller;
import org.sideport.model.Role;
import org.sideport.store.Stores;
import org.sideport.store.TestRows;
import org.sideport.store.Workspace;
import org.sideport.workflow.GuardedCalls.Who;
import org.sideport.workflow.access.CheapCredentials;
import org.sideport.workflow.access.Permission;
import org.sideport.workflow.assign.Assignments;
import org.sideport.workflow.handout.WriteFeedback;
import org.sideport.workflow.handout.WritePortfolio;

/**
 * Calls without a guard ({@link Unguarded}) need none. What the compiled program calls is followed from each of them, through
 * every class of the program and every class that could stand behind an interface, so that more is followed than can ever run.
 */
class UnguardedCallsTest {

    /** Of a workspace: whose it is, where it lies. The rest of it leads into the store. */
    private static final Set<String> OUTSIDE =
            Set.of("caller", "dir", "indexDir", "voices", "equals", "hashCode", "toString");

    /** Asks the table about a case in a transaction of its own, and answers with a refusal or nothing: PermissionTableTest. */
    private static final String ASKS_ITSELF = "Access.require(Workspace,Permission,String)";

    private static JavaClasses program;

    @TempDir
    Path dir;

    @BeforeAll
    static void readTheProgram() {
        program = new ClassFileImporter()
                .withImportOption(new ImportOption.DoNotIncludeTests())
                .importPackages("org.sideport");
    }

    private static String name(JavaCodeUnit unit) {
        return unit.getOwner().getSimpleName() + "." + unit.getName() + "("
                + unit.getRawParameterTypes().stream()
                        .map(JavaClass::getSimpleName)
                        .collect(Collectors.joining(","))
                + ")";
    }

    /** The public methods that the entries name. */
    private static List<JavaMethod> methods(List<String> entries) {
        return program.stream()
                .filter(c -> c.getPackageName().startsWith("org.sideport.workflow"))
                .flatMap(c -> c.getMethods().stream())
                .filter(m -> m.getModifiers().contains(JavaModifier.PUBLIC))
                .filter(m -> entries.contains(name(m))
                        || entries.contains(m.getOwner().getSimpleName() + ".*"))
                .toList();
    }

    /** All that can be reached from a method, and from where it is called. */
    private static Map<JavaCodeUnit, JavaCodeUnit> reached(JavaMethod from) {
        Map<JavaCodeUnit, JavaCodeUnit> reached = new HashMap<>();
        Deque<JavaCodeUnit> open = new ArrayDeque<>();
        reached.put(from, from);
        open.add(from);
        while (!open.isEmpty()) {
            JavaCodeUnit unit = open.remove();
            Stream<? extends JavaCodeUnitAccess<?>> accesses = Stream.of(
                            unit.getCallsFromSelf(),
                            unit.getMethodReferencesFromSelf(),
                            unit.getConstructorReferencesFromSelf())
                    .flatMap(Set::stream);
            accesses.flatMap(access -> behind(access.getTarget())).forEach(next -> {
                if (reached.putIfAbsent(next, unit) == null && !isStore(next)) {
                    open.add(next);
                }
            });
        }
        return reached;
    }

    /** The method itself, and those of subclasses and implementations in its place. */
    private static Stream<JavaCodeUnit> behind(AccessTarget.CodeUnitAccessTarget target) {
        if (!target.getOwner().getPackageName().startsWith("org.sideport")) {
            return Stream.of();
        }
        String[] parameters =
                target.getRawParameterTypes().stream().map(JavaClass::getName).toArray(String[]::new);
        Stream<JavaCodeUnit> own = target.resolveMember().stream().map(unit -> (JavaCodeUnit) unit);
        Stream<JavaCodeUnit> others = target.getOwner().getAllSubclasses().stream()
                .flatMap(c -> c.tryGetMethod(target.getName(), parameters).stream());
        return Stream.concat(own, others);
    }

    /** Ways into a store: a workspace's, but for where and whose it is, and all that one of its transactions gives. */
    private static boolean isStore(JavaCodeUnit unit) {
        return unit.getOwner().isEquivalentTo(Stores.class)
                || unit.getOwner().isEquivalentTo(Workspace.class) && !OUTSIDE.contains(unit.getName());
    }

    private static String path(Map<JavaCodeUnit, JavaCodeUnit> reached, JavaCodeUnit to) {
        String path = name(to);
        JavaCodeUnit at = to;
        while (!reached.get(at).equals(at)) {
            at = reached.get(at);
            path = name(at) + " > " + path;
        }
        return path;
    }

    @Test
    void whatIsAwayFromTheStoreNeverLeadsIntoIt() {
        Map<String, String> into = new TreeMap<>();
        List<JavaMethod> methods = methods(Unguarded.AWAY_FROM_THE_STORE);
        for (JavaMethod method : methods) {
            Map<JavaCodeUnit, JavaCodeUnit> reached = reached(method);
            reached.keySet().stream()
                    .filter(UnguardedCallsTest::isStore)
                    .findFirst()
                    .ifPresent(way -> into.put(name(method), path(reached, way)));
        }
        assertThat(into).isEmpty();
        assertThat(methods).hasSizeGreaterThan(60);
    }

    /** Else the test above could not fail. */
    @Test
    void theWayIntoTheStoreIsSeenThroughLambdasAndOtherClasses() {
        for (String call : List.of(
                "CaseList.newest(int)", "MarkSession.sign()", "TagSession.undo()", "WriteFeedback.isOffered()")) {
            boolean reads = methods(List.of(call)).stream()
                    .anyMatch(m -> reached(m).keySet().stream().anyMatch(UnguardedCallsTest::isStore));
            assertThat(reads).as(call).isEqualTo(!call.startsWith("WriteFeedback"));
        }
    }

    @Test
    void whatWorksWithinACallOpensNoStoreItself() {
        Map<String, String> opens = new TreeMap<>();
        List<JavaMethod> methods = methods(Unguarded.WITHIN_A_CALL);
        for (JavaMethod method : methods) {
            if (name(method).equals(ASKS_ITSELF)) {
                continue;
            }
            Map<JavaCodeUnit, JavaCodeUnit> reached = reached(method);
            reached.keySet().stream()
                    .filter(unit -> isStore(unit) && unit.getOwner().isEquivalentTo(Workspace.class))
                    .findFirst()
                    .ifPresent(way -> opens.put(name(method), path(reached, way)));
        }
        assertThat(opens).isEmpty();
        assertThat(methods).hasSizeGreaterThan(8);
        assertThat(program.stream()
                        .filter(c -> c.getPackageName().startsWith("org.sideport.app")
                                || c.getPackageName().startsWith("org.sideport.cli"))
                        .filter(c -> c.getDirectDependenciesFromSelf().stream()
                                .anyMatch(d -> d.getTargetClass().isEquivalentTo(Stores.class)))
                        .map(JavaClass::getName))
                .as("faces that hold a store; the benchmark fills one of its own")
                .containsOnly("org.sideport.cli.bench.CasesBench");
    }

    private interface Ask {
        boolean on(Workspace workspace, Who who);
    }

    /** @param call what it stands for in the table: of C-1, of trainee T03, or of nothing in particular */
    private record Offer(GuardedCalls.Call call, Ask ask) {
        static Offer of(String name, Permission asks, GuardedCalls.About about, Ask ask) {
            return new Offer(new GuardedCalls.Call(name, Set.of(asks), about, false, g -> ""), ask);
        }
    }

    private static List<Offer> offers() {
        Clock clock = Clock.systemUTC();
        return List.of(
                Offer.of(
                        "Assignments.mayHave(String)",
                        Permission.MARK,
                        GuardedCalls.About.NOTHING,
                        (w, who) -> new Assignments(w, clock).mayHave(who.code)),
                Offer.of(
                        "Exemplars.isOffered(String)",
                        Permission.NAME_EXEMPLAR,
                        GuardedCalls.About.CASE,
                        (w, who) -> new Exemplars(w, clock).isOffered(GuardedCalls.CASE)),
                Offer.of(
                        "MarkCase.isOffered(String,boolean)",
                        Permission.MARK,
                        GuardedCalls.About.CASE,
                        (w, who) -> new MarkCase(w).isOffered(GuardedCalls.CASE, false)),
                Offer.of(
                        "MarkCase.isOffered(String,boolean)",
                        Permission.MARK_ONESELF,
                        GuardedCalls.About.CASE,
                        (w, who) -> new MarkCase(w).isOffered(GuardedCalls.CASE, true)),
                Offer.of(
                        "WriteFeedback.isOffered()",
                        Permission.EXPORT_CASE,
                        GuardedCalls.About.NOTHING,
                        (w, who) -> new WriteFeedback(w).isOffered()),
                Offer.of(
                        "WritePortfolio.isOffered(String)",
                        Permission.EXPORT_CASE,
                        GuardedCalls.About.PERSON,
                        (w, who) -> new WritePortfolio(w).isOffered("T03")),
                Offer.of(
                        "WriteWorkbook.isOffered()",
                        Permission.SEE_COHORT,
                        GuardedCalls.About.NOTHING,
                        (w, who) -> new WriteWorkbook(w).isOffered()));
    }

    @Test
    void whatIsOfferedIsTheTablesAnswerForEachRole() {
        try (Workspace workspace = Workspace.create(dir.resolve("unit"))) {
            Unit.addCase(workspace, GuardedCalls.CASE);
            TestRows.assign(workspace, GuardedCalls.CASE, Who.ASSESSOR.code, "open");
            assertThat(offers()).extracting(o -> o.call().name()).containsAll(Unguarded.OFFERS);
            for (Offer offer : offers()) {
                for (Who who : Who.values()) {
                    Workspace own = workspace.as(new Caller.Person(who.code, Set.of(who.role)));
                    assertThat(offer.ask().on(own, who))
                            .as(offer.call() + " to " + who)
                            .isEqualTo(offer.call().isFor(who));
                    Workspace without = workspace.as(new Caller.Person(who.code, Set.of()));
                    assertThat(offer.ask().on(without, who))
                            .as(offer.call() + " to somebody without a role")
                            .isFalse();
                }
                Workspace nobodys = workspace.as(new Caller.Nobody());
                assertThat(offer.ask().on(nobodys, Who.DIRECTOR))
                        .as(offer.call() + " to nobody")
                        .isFalse();
            }
            Workspace own = workspace.as(new Caller.Person("A1", Set.of(Role.ASSESSOR)));
            assertThat(new Assignments(own, Clock.systemUTC()).mayHave("A2")).isFalse();
        }
    }

    @Test
    void whetherThereIsAnybodyIsAllThatIsToldBeforeOneSignsIn() {
        try (Workspace workspace = Workspace.create(dir.resolve("unit"))) {
            assertThat(people(workspace.as(new Caller.Nobody())).none()).isTrue();
            people(workspace).add("D1", Set.of(Role.DIRECTOR));
            assertThat(people(workspace.as(new Caller.Nobody())).none()).isFalse();
        }
    }

    private static People people(Workspace workspace) {
        return new People(workspace, CheapCredentials.make(), Clock.systemUTC());
    }
}
