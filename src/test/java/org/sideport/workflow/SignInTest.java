package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.AuditEvent;
import org.sideport.model.Caller;
import org.sideport.model.InputException;
import org.sideport.model.Role;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.CheapCredentials;
import org.sideport.workflow.access.Credentials;

class SignInTest {

    private static final String RIGHT = "eight brown kettles";

    /** A clock that is set. */
    private static final class SetClock extends Clock {
        Instant now = Instant.parse("2026-03-09T08:00:00Z");

        @Override
        public ZoneId getZone() {
            return ZoneOffset.UTC;
        }

        @Override
        public Clock withZone(ZoneId zone) {
            return this;
        }

        @Override
        public Instant instant() {
            return now;
        }

        void pass(Duration time) {
            now = now.plus(time);
        }
    }

    @TempDir
    Path dir;

    private final SetClock clock = new SetClock();
    private final Credentials credentials = CheapCredentials.make();
    private Workspace workspace;
    private SignIn signIn;

    @BeforeEach
    void make() {
        Workspace made = FreshWorkspace.in(dir.resolve("unit"));
        People people = new People(made, credentials, clock);
        people.add("D1", EnumSet.of(Role.DIRECTOR), RIGHT.toCharArray());
        people.add("A1", EnumSet.of(Role.ASSESSOR, Role.TRAINEE), RIGHT.toCharArray());
        made.close();
        workspace = Workspace.open(dir.resolve("unit"));
        signIn = new SignIn(workspace, credentials, clock);
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private SignIn.Outcome in(String code, String password) {
        return signIn.signIn(code, password.toCharArray());
    }

    private void wrong(String code, String password, String... words) {
        assertThatThrownBy(() -> in(code, password))
                .isInstanceOf(InputException.class)
                .hasMessageContainingAll(words);
    }

    @Test
    void theRightPasswordGivesTheWorkspaceOnBehalfOfThePerson() {
        SignIn.Outcome.In in = (SignIn.Outcome.In) in("a1", RIGHT);
        assertThat(in.workspace().caller()).isEqualTo(new Caller.Person("A1", Set.of(Role.ASSESSOR, Role.TRAINEE)));
    }

    @Test
    void aWrongPasswordAndAnUnknownCodeAreRefusedInTheSameWords() {
        wrong("A1", "eight brown kettle", "do not belong together", "type both again");
        wrong("Z9", RIGHT, "do not belong together", "type both again");
        wrong("", "", "do not belong together");
        assertThat(workspace.caller()).isEqualTo(new Caller.Nobody());
    }

    /** NIST SP 800-63B 5.2.2 limits attempts; that the wait doubles is this program's own choice. */
    @Test
    void afterFiveWrongOnesEachFurtherOneDoublesTheWaitUpToADay() {
        for (int i = 1; i < SignIn.FREE; i++) {
            wrong("A1", "wrong", "type both again");
        }
        wrong("A1", "wrong", "30 s");
        wrong("A1", RIGHT, "too many wrong passwords", "30 s");
        List<Duration> waits = new ArrayList<>();
        for (int failed = SignIn.FREE; failed < SignIn.FREE + 16; failed++) {
            waits.add(SignIn.waitAfter(failed));
        }
        for (int i = 1; i < waits.size(); i++) {
            Duration twice = waits.get(i - 1).multipliedBy(2);
            assertThat(waits.get(i)).isEqualTo(twice.compareTo(Duration.ofDays(1)) > 0 ? Duration.ofDays(1) : twice);
        }
        clock.pass(Duration.ofSeconds(31));
        wrong("A1", "wrong", "60 s");
        clock.pass(Duration.ofSeconds(59));
        wrong("A1", RIGHT, "too many wrong passwords");
        clock.pass(Duration.ofSeconds(2));
        assertThat(in("A1", RIGHT)).isInstanceOf(SignIn.Outcome.In.class);
        for (int i = 1; i < SignIn.FREE; i++) {
            wrong("A1", "wrong", "type both again");
        }
        assertThat(in("A1", RIGHT)).isInstanceOf(SignIn.Outcome.In.class);
        assertThat(workspace.<List<AuditEvent>>read(s -> s.audit().all()))
                .filteredOn(e -> e.deed().equals("people.locked"))
                .extracting(AuditEvent::subject, AuditEvent::after)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple("A1", "5"), org.assertj.core.groups.Tuple.tuple("A1", "6"));
    }

    @Test
    void oneWhoIsLockedOutLocksNobodyElse() {
        for (int i = 0; i < 9; i++) {
            try {
                in("A1", "wrong");
            } catch (InputException expected) {
                // goes on
            }
        }
        assertThat(in("D1", RIGHT)).isInstanceOf(SignIn.Outcome.In.class);
    }

    @Test
    void aLockOutOutlivesTheProgramAndAClockThatWasPutBack() {
        for (int i = 0; i < SignIn.FREE; i++) {
            wrong("A1", "wrong", "do not belong together");
        }
        workspace.close();
        workspace = Workspace.open(dir.resolve("unit"));
        signIn = new SignIn(workspace, credentials, clock);
        wrong("A1", RIGHT, "too many wrong passwords");
        clock.pass(Duration.ofDays(-400));
        wrong("A1", RIGHT, "too many wrong passwords", "30 s");
    }

    @Test
    void anAttemptCountsEvenIfTheProgramIsStoppedWhileItIsLookedAt() {
        Credentials stopped = new Credentials() {
            @Override
            public void set(Stores stores, String code, char[] password) {
                throw new IllegalStateException("stopped");
            }

            @Override
            public boolean matches(Workspace on, String code, char[] password) {
                throw new IllegalStateException("stopped");
            }
        };
        for (int i = 0; i < SignIn.FREE; i++) {
            assertThatThrownBy(() -> new SignIn(workspace, stopped, clock).signIn("A1", "wrong".toCharArray()))
                    .isInstanceOf(IllegalStateException.class);
        }
        wrong("A1", RIGHT, "too many wrong passwords");
    }

    @Test
    void aBlockedPersonIsToldSoOnlyWithTheRightPassword() {
        new People(workspace.as(new Caller.Person("D1", EnumSet.of(Role.DIRECTOR))), credentials, clock).block("A1");
        wrong("A1", "wrong", "do not belong together");
        wrong("A1", RIGHT, "A1 is blocked");
    }

    /** OWASP ASVS 5.0, 6.4.1: a password that somebody else made holds for the first sign-in only. */
    @Test
    void aPasswordThatADirectorMadeMustBeChangedFirst() {
        String made = String.valueOf(new People(
                        workspace.as(new Caller.Person("D1", EnumSet.of(Role.DIRECTOR))), credentials, clock)
                .resetPassword("A1")
                .firstPassword());
        wrong("A1", RIGHT, "do not belong together");
        assertThat(in("A1", made)).isEqualTo(new SignIn.Outcome.MustChange("A1"));
        SignIn.Outcome.In in = signIn.changePassword("A1", made.toCharArray(), "nine yellow lamps".toCharArray());
        assertThat(in.workspace().caller().code()).isEqualTo("A1");
        assertThat(in("A1", "nine yellow lamps")).isInstanceOf(SignIn.Outcome.In.class);
        wrong("A1", made, "do not belong together");
    }

    /** OWASP ASVS 5.0, 6.2.2 and 6.2.3: one changes one's own password, with the old one. */
    @Test
    void oneChangesOnesOwnPasswordWithTheOldOneToAnotherGoodOne() {
        assertThatThrownBy(() -> signIn.changePassword("A1", "wrong".toCharArray(), "nine yellow lamps".toCharArray()))
                .isInstanceOf(InputException.class);
        assertThatThrownBy(() -> signIn.changePassword("A1", RIGHT.toCharArray(), RIGHT.toCharArray()))
                .isInstanceOf(InputException.class);
        assertThatThrownBy(() -> signIn.changePassword("A1", RIGHT.toCharArray(), "short".toCharArray()))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("8 or more");
        assertThat(in("A1", RIGHT)).isInstanceOf(SignIn.Outcome.In.class);
        assertThat(workspace.<List<AuditEvent>>read(s -> s.audit().all()))
                .extracting(AuditEvent::deed)
                .doesNotContain("people.password");
    }

    /** OWASP ASVS 5.0, 11.4.2: the cost of a kept password grows with the program's, when it is next typed. */
    @Test
    void anOldCheapHashIsMadeAnewAtTodaysCostOnSignIn() {
        new SignIn(workspace, Credentials.inStore(), clock).signIn("A1", RIGHT.toCharArray());
        assertThat(workspace.<String>read(
                        s -> s.people().secret("A1").orElseThrow().password()))
                .startsWith("$argon2id$v=19$m=47104,t=1,p=1$");
        assertThat(in("A1", RIGHT)).isInstanceOf(SignIn.Outcome.In.class);
    }
}
