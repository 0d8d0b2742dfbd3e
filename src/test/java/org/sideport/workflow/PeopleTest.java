package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.EnumSet;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.AuditEvent;
import org.sideport.model.Caller;
import org.sideport.model.InputException;
import org.sideport.model.Person;
import org.sideport.model.Role;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.CheapCredentials;
import org.sideport.workflow.access.Credentials;

class PeopleTest {

    @TempDir
    Path dir;

    private final Credentials credentials = CheapCredentials.make();
    private Workspace workspace;

    @BeforeEach
    void make() {
        workspace = FreshWorkspace.in(dir.resolve("unit"));
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private People people() {
        return people(workspace);
    }

    private People people(Workspace on) {
        return new People(on, credentials, Clock.systemUTC());
    }

    @Test
    void aWorkspaceWithoutPeopleIsAnyones() {
        assertThat(people().none()).isTrue();
        workspace.close();
        workspace = Workspace.open(dir.resolve("unit"));
        assertThat(workspace.caller()).isEqualTo(new Caller.Anyone());
    }

    @Test
    void fromTheFirstPersonOnAnOpenedWorkspaceIsNobodysUntilSomeoneSignsIn() {
        people().add("D1", EnumSet.of(Role.DIRECTOR), "eight brown kettles".toCharArray());
        workspace.close();
        workspace = Workspace.open(dir.resolve("unit"));
        assertThat(workspace.caller()).isEqualTo(new Caller.Nobody());
        assertThatThrownBy(() -> people().list())
                .isInstanceOf(InputException.class)
                .hasMessageContaining("sign in");
    }

    @Test
    void theFirstIsADirector() {
        assertThatThrownBy(() -> people().add("T1", EnumSet.of(Role.TRAINEE)))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("director");
        assertThat(people().none()).isTrue();
    }

    @Test
    void onePersonMayHaveSeveralRolesAndNoneHasNone() {
        people().add("D1", EnumSet.of(Role.DIRECTOR, Role.ASSESSOR));
        assertThat(people().list().get(0).roles()).containsExactlyInAnyOrder(Role.DIRECTOR, Role.ASSESSOR);
        assertThatThrownBy(() -> people().add("T1", Set.of())).isInstanceOf(InputException.class);
        assertThatThrownBy(() -> people().setRoles("D1", Set.of())).isInstanceOf(InputException.class);
    }

    @Test
    void peopleAreCodesAndEachCodeIsOnePersonsWhateverItsCase() {
        people().add("D1", EnumSet.of(Role.DIRECTOR));
        assertThatThrownBy(() -> people().add("d1", EnumSet.of(Role.TRAINEE)))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("already");
        assertThatThrownBy(() -> people().add("Two Words", EnumSet.of(Role.TRAINEE)))
                .isInstanceOf(InputException.class);
    }

    @Test
    void theLastActiveDirectorIsNeitherDemotedNorBlocked() {
        people().add("D1", EnumSet.of(Role.DIRECTOR));
        people().add("D2", EnumSet.of(Role.DIRECTOR));
        people().block("D2");
        assertThatThrownBy(() -> people().setRoles("D1", EnumSet.of(Role.ASSESSOR)))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("no director would be left");
        assertThatThrownBy(() -> people().block("D1"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("no director would be left");
        assertThat(people().list()).filteredOn(Person::isActiveDirector).hasSize(1);
        people().unblock("D2");
        people().setRoles("D1", EnumSet.of(Role.ASSESSOR));
        assertThat(people().list())
                .filteredOn(Person::isActiveDirector)
                .extracting(Person::code)
                .containsExactly("D2");
    }

    @Test
    void onlyADirectorManagesPeople() {
        people().add("D1", EnumSet.of(Role.DIRECTOR));
        for (Role role : EnumSet.of(Role.TRAINEE, Role.ASSESSOR)) {
            People theirs = people(workspace.as(new Caller.Person("X1", Set.of(role))));
            assertThatThrownBy(() -> theirs.add("T9", Set.of(role))).isInstanceOf(InputException.class);
            assertThatThrownBy(() -> theirs.resetPassword("D1")).isInstanceOf(InputException.class);
            assertThatThrownBy(() -> theirs.setRoles("X1", EnumSet.of(Role.DIRECTOR)))
                    .isInstanceOf(InputException.class);
        }
        assertThat(people().list()).hasSize(1);
    }

    @Test
    void everyChangeStandsInTheAuditTrailWithoutAPassword() {
        String made =
                String.valueOf(people().add("D1", EnumSet.of(Role.DIRECTOR)).firstPassword());
        People asDirector = people(workspace.as(new Caller.Person("D1", EnumSet.of(Role.DIRECTOR))));
        asDirector.add("T1", EnumSet.of(Role.TRAINEE));
        asDirector.setRoles("T1", EnumSet.of(Role.TRAINEE, Role.ASSESSOR));
        asDirector.block("T1");
        asDirector.unblock("T1");
        String again = String.valueOf(asDirector.resetPassword("T1").firstPassword());
        var trail = workspace.read(stores -> stores.audit().all());
        assertThat(trail)
                .extracting(
                        AuditEvent::who, AuditEvent::deed, AuditEvent::subject, AuditEvent::before, AuditEvent::after)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple("", "people.add", "D1", "", "director"),
                        org.assertj.core.groups.Tuple.tuple("D1", "people.add", "T1", "", "trainee"),
                        org.assertj.core.groups.Tuple.tuple("D1", "people.roles", "T1", "trainee", "assessor trainee"),
                        org.assertj.core.groups.Tuple.tuple("D1", "people.block", "T1", "", ""),
                        org.assertj.core.groups.Tuple.tuple("D1", "people.unblock", "T1", "", ""),
                        org.assertj.core.groups.Tuple.tuple("D1", "people.password-reset", "T1", "", ""));
        assertThat(trail.toString()).doesNotContain(made, again);
    }

    @Test
    void noPasswordStandsInTheStoreAsItIs() throws Exception {
        people().add("D1", EnumSet.of(Role.DIRECTOR), "eight brown kettles".toCharArray());
        workspace.close();
        for (String file : new String[] {"sideport.db", "sideport.log"}) {
            Path path = dir.resolve("unit").resolve(file);
            if (java.nio.file.Files.exists(path)) {
                assertThat(new String(
                                java.nio.file.Files.readAllBytes(path), java.nio.charset.StandardCharsets.ISO_8859_1))
                        .doesNotContain("brown kettles");
            }
        }
        workspace = Workspace.open(dir.resolve("unit"));
        assertThat(workspace.<String>read(
                        s -> s.people().secret("D1").orElseThrow().password()))
                .startsWith("$argon2id$v=19$");
        assertThat(workspace.<Instant>read(s -> s.people().get("D1").addedAt()))
                .isBefore(Instant.now().plusSeconds(1));
    }
}
