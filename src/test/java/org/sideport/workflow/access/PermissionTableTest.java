package org.sideport.workflow.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.sideport.model.Caller;
import org.sideport.model.InputException;
import org.sideport.model.Role;
import org.sideport.model.SurgicalCase;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;

/**
 * The table of permissions cell by cell: every permission, for every role, with an own case, one that was given, one taken
 * in, one that was given and withdrawn, and anybody else's, in a real store. What is expected is written down here a second
 * time, by hand, from what each of the three has to get done (trainee: own cases; assessor: what was given or taken in;
 * director: the unit), and not read from the program.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class PermissionTableTest {

    private static final String ME = "P1";

    /** permission: trainee assessor director; "own" own cases, "given" given or taken in, "all", "-" none. */
    private static final String EXPECTED = """
        SEE_CASE        own  given  all
        ADD_CASE        own  all    all
        EDIT_CASE       own  given  all
        TAG             own  given  all
        COMMENT         own  given  all
        MEASURE         own  given  all
        MARK_ONESELF    own  -      -
        MARK            -    given  -
        SEE_MARKS       own  given  all
        NAME_EXEMPLAR   -    given  all
        SEE_EXEMPLAR    all  all    all
        SEE_COHORT      -    -      all
        ASSIGN          -    -      all
        ADJUDICATE      -    -      all
        JUDGE_STANDARD  -    all    all
        SET_STANDARD    -    -      all
        RECORD_DECISION -    -      all
        EDIT_RUBRIC     -    all    all
        RECORD_CONSENT  own  given  all
        DELETE_CASE     -    -      all
        EXPORT_CASE     own  given  all
        IMPORT_BUNDLE   -    all    all
        MANAGE_PEOPLE   -    -      all
        SEE_AUDIT       -    -      all
        KEEP_STORE      -    -      all
        """;

    private enum Which {
        OWN(Set.of("own", "all")),
        GIVEN(Set.of("given", "all")),
        TAKEN_IN(Set.of("given", "all")),
        WITHDRAWN(Set.of("all")),
        OTHER(Set.of("all"));

        private final Set<String> reachedBy;

        Which(Set<String> reachedBy) {
            this.reachedBy = reachedBy;
        }
    }

    record Cell(Permission permission, Role role, Which which, boolean may) {
        @Override
        public String toString() {
            return permission + ", " + role + ", " + which + ": " + (may ? "may" : "may not");
        }
    }

    @TempDir
    static Path dir;

    private Workspace workspace;

    @BeforeAll
    void aUnit() {
        workspace = FreshWorkspace.in(dir.resolve("unit"));
        workspace.change(s -> {
            add(s.cases()::add, "OWN", ME);
            add(s.cases()::add, "GIVEN", "T9");
            add(s.cases()::add, "WITHDRAWN", "T9");
            add(s.cases()::add, "OTHER", "T9");
        });
        workspace
                .as(new Caller.Person(ME, EnumSet.of(Role.ASSESSOR)))
                .change(s -> add(s.cases()::add, "TAKEN_IN", "T9"));
        give("GIVEN", "open");
        give("WITHDRAWN", "withdrawn");
    }

    private static void add(java.util.function.Consumer<SurgicalCase> into, String code, String trainee) {
        into.accept(new SurgicalCase(code, trainee, LocalDate.of(2026, 3, 9), "phaco", Map.of(), null));
    }

    private void give(String code, String state) {
        org.sideport.store.TestRows.assign(workspace, code, ME, state);
    }

    @AfterAll
    void close() {
        workspace.close();
    }

    private static Map<Permission, String[]> expected() {
        Map<Permission, String[]> table = new LinkedHashMap<>();
        EXPECTED.lines().map(String::strip).filter(l -> !l.isEmpty()).forEach(line -> {
            String[] parts = line.split("\\s+");
            table.put(Permission.valueOf(parts[0]), Arrays.copyOfRange(parts, 1, 4));
        });
        return table;
    }

    static Stream<Cell> cells() {
        List<Cell> cells = new ArrayList<>();
        expected().forEach((permission, reaches) -> {
            for (Role role : Role.values()) {
                for (Which which : Which.values()) {
                    cells.add(new Cell(permission, role, which, which.reachedBy.contains(reaches[role.ordinal()])));
                }
            }
        });
        return cells.stream();
    }

    @Test
    void everyPermissionStandsInTheTableOfThisTest() {
        assertThat(expected().keySet()).containsExactlyInAnyOrder(Permission.values());
    }

    @ParameterizedTest
    @MethodSource("cells")
    void eachCellHolds(Cell cell) {
        Workspace mine = workspace.as(new Caller.Person(ME, EnumSet.of(cell.role())));
        String code = cell.which().name();
        assertThat(mine.<Boolean>read(s -> Access.may(s, cell.permission(), code)))
                .isEqualTo(cell.may());
        // and the same as a condition of queries
        List<String> reached = mine.read(s -> s.cases().all(Access.cases(s.caller(), cell.permission())).stream()
                .map(SurgicalCase::code)
                .toList());
        assertThat(reached.contains(code)).isEqualTo(cell.may());
        if (!cell.may()) {
            assertThatThrownBy(() -> Access.require(mine, cell.permission(), code))
                    .isInstanceOf(InputException.class);
        }
    }

    @Test
    void severalRolesReachWhatEachOfThemReachesAndNoMore() {
        EXPECTED.lines().filter(l -> !l.isBlank()).forEach(line -> {
            Permission permission = Permission.valueOf(line.strip().split("\\s+")[0]);
            for (Set<Role> roles : List.of(
                    EnumSet.of(Role.TRAINEE, Role.ASSESSOR),
                    EnumSet.of(Role.ASSESSOR, Role.DIRECTOR),
                    EnumSet.allOf(Role.class))) {
                for (Which which : Which.values()) {
                    boolean any = roles.stream()
                            .anyMatch(
                                    role -> which.reachedBy.contains(expected().get(permission)[role.ordinal()]));
                    Function<org.sideport.store.Stores, Boolean> may = s -> Access.may(s, permission, which.name());
                    assertThat(workspace.as(new Caller.Person(ME, roles)).read(may))
                            .as(permission + " " + roles + " " + which)
                            .isEqualTo(any);
                }
            }
        });
    }

    @ParameterizedTest
    @MethodSource("permissions")
    void nobodyMayNothingAndSoMayAPersonWithoutARole(Permission permission) {
        for (Caller caller : List.of(new Caller.Nobody(), new Caller.Person(ME, Set.of()))) {
            Workspace theirs = workspace.as(caller);
            assertThat(Access.may(caller, permission)).isFalse();
            for (Which which : Which.values()) {
                assertThat(theirs.<Boolean>read(s -> Access.may(s, permission, which.name())))
                        .isFalse();
            }
            assertThat(theirs.<List<SurgicalCase>>read(s -> s.cases().all(Access.cases(caller, permission))))
                    .isEmpty();
            assertThatThrownBy(() -> Access.requireNew(caller, permission, ME)).isInstanceOf(InputException.class);
        }
        assertThatThrownBy(() -> Access.requireOwn(new Caller.Nobody(), "")).isInstanceOf(InputException.class);
    }

    @ParameterizedTest
    @MethodSource("permissions")
    void whoeverSitsAtAWorkspaceWithoutSignInMayAll(Permission permission) {
        for (Which which : Which.values()) {
            assertThat(workspace.<Boolean>read(s -> Access.may(s, permission, which.name())))
                    .isTrue();
        }
        Access.requireOwn(workspace.caller(), "anybody");
        Access.requireNew(workspace.caller(), permission, "anybody");
    }

    static Stream<Permission> permissions() {
        return Arrays.stream(Permission.values());
    }

    @Test
    void nobodyActsUnderAnothersCode() {
        for (Role role : Role.values()) {
            Caller me = new Caller.Person(ME, EnumSet.of(role));
            Access.requireOwn(me, ME);
            assertThatThrownBy(() -> Access.requireOwn(me, "A2")).isInstanceOf(InputException.class);
            assertThatThrownBy(() -> Access.requireOwn(me, "p1")).isInstanceOf(InputException.class);
            assertThatThrownBy(() -> Access.requireOwn(me, "")).isInstanceOf(InputException.class);
        }
    }

    @Test
    void aTraineeTakesInOwnCasesOnlyAnAssessorAnybodys() {
        Caller trainee = new Caller.Person(ME, EnumSet.of(Role.TRAINEE));
        Access.requireNew(trainee, Permission.ADD_CASE, ME);
        assertThatThrownBy(() -> Access.requireNew(trainee, Permission.ADD_CASE, "T9"))
                .isInstanceOf(InputException.class);
        Access.requireNew(new Caller.Person(ME, EnumSet.of(Role.ASSESSOR)), Permission.ADD_CASE, "T9");
    }

    @Test
    void anExemplarIsWatchedByAllWhoSignInAndNothingElseOfItIsReached() {
        workspace.change(s -> {
            s.taggings().save("OTHER", "A9", org.sideport.model.Tagging.EMPTY);
            s.exemplars()
                    .save(new org.sideport.model.Exemplar(
                            "OTHER", "A9", "phaco", "shown", "", "A9", Instant.parse("2026-03-09T08:00:00Z"), true));
        });
        try {
            for (Role role : List.of(Role.TRAINEE, Role.ASSESSOR)) {
                Workspace mine = workspace.as(new Caller.Person(ME, EnumSet.of(role)));
                mine.change(s -> Access.requireWatch(s, "OTHER"));
                assertThat(mine.<Boolean>read(s -> Access.may(s, Permission.SEE_CASE, "OTHER")))
                        .isFalse();
                assertThatThrownBy(() -> mine.change(s -> Access.requireWatch(s, "WITHDRAWN")))
                        .isInstanceOf(InputException.class);
            }
            assertThatThrownBy(() -> workspace.as(new Caller.Nobody()).change(s -> Access.requireWatch(s, "OTHER")))
                    .isInstanceOf(InputException.class);
        } finally {
            workspace.change(s -> s.exemplars().remove("OTHER", "A9"));
        }
    }
}
