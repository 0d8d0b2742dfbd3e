package org.sideport.workflow;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import org.sideport.model.InputException;
import org.sideport.model.Person;
import org.sideport.store.PeopleStore;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Credentials;
import org.sideport.workflow.access.PasswordRule;

/**
 * Tells who sits there, by code and password. After {@value #FREE} wrong passwords in a row a person waits half a minute,
 * and after each further one twice as long, at most a day. An attempt counts before it is looked at, so that stopping the
 * program spares nobody.
 */
public final class SignIn {

    /** Wrong passwords in a row before the first wait. */
    public static final int FREE = 5;

    static final Duration FIRST_WAIT = Duration.ofSeconds(30);
    static final Duration LONGEST_WAIT = Duration.ofDays(1);
    /** More doublings of the first wait than the longest takes. */
    private static final int MOST_DOUBLINGS = 12;

    private static final String NOBODY = "";

    private final Workspace workspace;
    private final Credentials credentials;
    private final Clock clock;
    private final PasswordRule rule = new PasswordRule();

    /** @param workspace on whosever behalf */
    public SignIn(Workspace workspace, Credentials credentials, Clock clock) {
        this.workspace = workspace;
        this.credentials = credentials;
        this.clock = clock;
    }

    /** What a right password led to. */
    public sealed interface Outcome {

        /** The workspace on behalf of the person. */
        record In(Workspace workspace, Person person) implements Outcome {}

        /** The password is known to somebody else: first {@link SignIn#changePassword}. */
        record MustChange(String code) implements Outcome {}
    }

    /** True if nothing can be done here without signing in. */
    public boolean isNeeded() {
        return workspace.read(stores -> stores.people().any());
    }

    /**
     * @param code whatever its case
     * @param password not kept
     * @throws InputException if the two do not belong together, the person is blocked, or must wait
     */
    public Outcome signIn(String code, char[] password) {
        Person person = verified(code, password);
        return person.mustChange() ? new Outcome.MustChange(person.code()) : in(person);
    }

    /**
     * Changes one's own password and signs in.
     *
     * @param old the one that is valid now
     * @throws InputException as {@link #signIn}, or if the new one is the old one or none that is taken
     */
    public Outcome.In changePassword(String code, char[] old, char[] fresh) {
        Person person = verified(code, old);
        rule.require(person.code(), fresh);
        if (java.util.Arrays.equals(old, fresh)) {
            throw new InputException("this is the password that you have", null, "choose another one");
        }
        workspace.as(person.caller()).change(stores -> {
            credentials.set(stores, person.code(), fresh);
            stores.people().setMustChange(person.code(), false);
            stores.audit().add("people.password", person.code(), "", "");
        });
        return in(workspace.<Person>read(stores -> stores.people().get(person.code())));
    }

    private Outcome.In in(Person person) {
        return new Outcome.In(workspace.as(person.caller()), person);
    }

    private Person verified(String code, char[] password) {
        Optional<Person> person = workspace.write(stores -> {
            Optional<Person> found = stores.people().find(code.strip());
            found.ifPresent(one -> count(stores, one.code()));
            return found;
        });
        boolean right = credentials.matches(workspace, person.map(Person::code).orElse(NOBODY), password);
        if (!right || person.isEmpty()) {
            throw new InputException("the code and the password do not belong together", null, next(person));
        }
        Person known = person.get();
        workspace.change(stores -> stores.people().setFailed(known.code(), 0, null));
        if (!known.active()) {
            throw new InputException(known.code() + " is blocked", null, "ask a programme director of your unit");
        }
        return known;
    }

    /** Counts the attempt as wrong until it is found right. */
    private void count(Stores stores, String code) {
        Instant now = Instant.now(clock);
        PeopleStore.Secret secret = stores.people().secret(code).orElseThrow();
        Instant until = secret.lockedUntil();
        if (until != null) {
            Duration left = left(now, until, secret.failed());
            if (!left.isZero()) {
                throw new InputException(
                        "too many wrong passwords for " + code,
                        null,
                        "wait " + words(left) + ", or ask a programme director for a new password");
            }
        }
        int failed = secret.failed() + 1;
        Duration wait = waitAfter(failed);
        stores.people().setFailed(code, failed, wait.isZero() ? null : now.plus(wait));
    }

    /** Never longer than the wait was meant, even if the clock was put back meanwhile. */
    private static Duration left(Instant now, Instant until, int failed) {
        Duration left = Duration.between(now, until);
        Duration meant = waitAfter(failed);
        return left.isNegative() ? Duration.ZERO : left.compareTo(meant) > 0 ? meant : left;
    }

    /** How long to wait after so many wrong passwords in a row. */
    static Duration waitAfter(int failed) {
        if (failed < FREE) {
            return Duration.ZERO;
        }
        Duration wait = FIRST_WAIT.multipliedBy(1L << Math.min(failed - FREE, MOST_DOUBLINGS));
        return wait.compareTo(LONGEST_WAIT) > 0 ? LONGEST_WAIT : wait;
    }

    /** What to do after a wrong password; a lock-out is noted for the directors. */
    private String next(Optional<Person> person) {
        Duration wait = person.map(one -> workspace.<Duration>write(stores -> {
                    int failed =
                            stores.people().secret(one.code()).orElseThrow().failed();
                    if (failed >= FREE) {
                        stores.audit().add("people.locked", one.code(), "", Integer.toString(failed));
                    }
                    return waitAfter(failed);
                }))
                .orElse(Duration.ZERO);
        return wait.isZero() ? "type both again" : "the next attempt can be in " + words(wait);
    }

    private static String words(Duration wait) {
        long seconds = Math.max(1, wait.toSeconds() + (wait.toNanosPart() > 0 ? 1 : 0));
        return seconds < 120
                ? seconds + " s"
                : seconds < 7200 ? (seconds + 59) / 60 + " min" : (seconds + 3599) / 3600 + " h";
    }
}
