package org.sideport.workflow;

import java.time.Clock;
import java.time.Instant;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.Person;
import org.sideport.model.Role;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Credentials;
import org.sideport.workflow.access.PasswordRule;
import org.sideport.workflow.access.Permission;

/**
 * Who signs in to a workspace, in which roles. From the first person on, a director, nothing can be done there without
 * signing in; there is always a director who can.
 */
public final class People {

    private final Workspace workspace;
    private final Credentials credentials;
    private final Clock clock;
    private final PasswordRule rule = new PasswordRule();

    public People(Workspace workspace, Credentials credentials, Clock clock) {
        this.workspace = workspace;
        this.credentials = credentials;
        this.clock = clock;
    }

    /**
     * Someone with the password that was made for them.
     *
     * @param firstPassword to be told once and changed at the first sign-in; {@code null} if they chose one themselves
     */
    public record Added(Person person, @Nullable String firstPassword) {
        @Override
        public String toString() {
            return "Added[" + person.code() + "]";
        }
    }

    /** All people by code, the blocked ones too. */
    public List<Person> list() {
        Access.require(workspace, Permission.MANAGE_PEOPLE);
        return workspace.read(stores -> stores.people().all());
    }

    /** True if nobody has been added yet, so that whoever opens the workspace may do all. */
    public boolean none() {
        return !workspace.<Boolean>read(stores -> stores.people().any());
    }

    /**
     * Adds a person with a password that is made, and that they change when they first sign in.
     *
     * @throws InputException if the code is taken or cannot be one, no role is given, or the first is no director
     */
    public Added add(String code, Set<Role> roles) {
        char[] made = rule.make();
        try {
            return new Added(add(code, roles, made, true), new String(made));
        } finally {
            Arrays.fill(made, '\0');
        }
    }

    /**
     * Adds a person who chooses the password.
     *
     * @throws InputException as {@link #add(String, Set)}, or if the password is none that is taken
     */
    public Added add(String code, Set<Role> roles, char[] chosen) {
        Access.require(workspace, Permission.MANAGE_PEOPLE);
        rule.require(code.strip(), chosen);
        return new Added(add(code, roles, chosen, false), null);
    }

    private Person add(String code, Set<Role> roles, char[] password, boolean mustChange) {
        Access.require(workspace, Permission.MANAGE_PEOPLE);
        String who = Codes.require("a person", code);
        requireSome(roles);
        return workspace.write(stores -> {
            if (!stores.people().any() && !roles.contains(Role.DIRECTOR)) {
                throw new InputException(
                        "the first person who signs in must be a director",
                        null,
                        "a director adds the others: give this one the role director too");
            }
            stores.people().add(who, roles, Instant.now(clock));
            credentials.set(stores, who, password);
            stores.people().setMustChange(who, mustChange);
            stores.audit().add("people.add", who, "", words(roles));
            return stores.people().get(who);
        });
    }

    /**
     * Gives a person these roles and no others.
     *
     * @throws InputException if there is no such person, no role is given, or no active director would be left
     */
    public Person setRoles(String code, Set<Role> roles) {
        Access.require(workspace, Permission.MANAGE_PEOPLE);
        requireSome(roles);
        return workspace.write(stores -> {
            Person before = stores.people().get(code);
            stores.people().setRoles(before.code(), roles);
            requireDirector(stores);
            stores.audit().add("people.roles", before.code(), words(before.roles()), words(roles));
            return stores.people().get(code);
        });
    }

    /**
     * Blocks a person: no more sign-in; what they did stays.
     *
     * @throws InputException if there is no such person, or no active director would be left
     */
    public Person block(String code) {
        return setActive(code, false);
    }

    /** Lets a blocked person sign in again. */
    public Person unblock(String code) {
        return setActive(code, true);
    }

    private Person setActive(String code, boolean active) {
        Access.require(workspace, Permission.MANAGE_PEOPLE);
        return workspace.write(stores -> {
            Person before = stores.people().get(code);
            if (before.active() != active) {
                stores.people().setActive(before.code(), active);
                requireDirector(stores);
                stores.audit().add(active ? "people.unblock" : "people.block", before.code(), "", "");
            }
            return stores.people().get(code);
        });
    }

    /**
     * Makes another password for a person who forgot theirs, to be changed at the next sign-in; ends a lock-out.
     *
     * @throws InputException if there is no such person
     */
    public Added resetPassword(String code) {
        Access.require(workspace, Permission.MANAGE_PEOPLE);
        char[] made = rule.make();
        try {
            Person person = workspace.write(stores -> {
                String who = stores.people().get(code).code();
                credentials.set(stores, who, made);
                stores.people().setMustChange(who, true);
                stores.people().setFailed(who, 0, null);
                stores.audit().add("people.password-reset", who, "", "");
                return stores.people().get(who);
            });
            return new Added(person, new String(made));
        } finally {
            Arrays.fill(made, '\0');
        }
    }

    private static void requireSome(Set<Role> roles) {
        if (roles.isEmpty()) {
            throw new InputException("a person needs a role", null, "name trainee, assessor, director or several");
        }
    }

    private static void requireDirector(Stores stores) {
        if (stores.people().all().stream().noneMatch(Person::isActiveDirector)) {
            throw new InputException(
                    "no director would be left who can sign in", null, "make another person a director first");
        }
    }

    private static String words(Collection<Role> roles) {
        return roles.stream().map(Role::id).sorted().collect(Collectors.joining(" "));
    }
}
