package org.sideport.cli.people;

import java.time.Clock;
import java.time.Instant;
import java.util.Collection;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.Person;
import org.sideport.model.Role;
import org.sideport.store.Workspace;
import org.sideport.workflow.People;
import org.sideport.workflow.access.Credentials;

/** How people are shown. */
final class PeopleViews {

    private PeopleViews() {}

    static People job(Workspace workspace) {
        return new People(workspace, Credentials.inStore(), Clock.systemUTC());
    }

    static String words(Collection<Role> roles) {
        return roles.stream().sorted().map(Role::id).collect(Collectors.joining(", "));
    }

    static Map<String, @Nullable Object> json(Person person) {
        Instant locked = person.lockedUntil();
        return Json.object(
                "code",
                person.code(),
                "roles",
                person.roles().stream().sorted().map(Role::id).toList(),
                "active",
                person.active(),
                "added_at",
                person.addedAt().toString(),
                "must_change_password",
                person.mustChange(),
                "locked_until",
                locked == null ? null : locked.toString());
    }

    static void show(Console console, Person person) {
        if (console.isJson()) {
            console.printJson(json(person));
        } else {
            console.say(person.code() + ": " + words(person.roles()) + (person.active() ? "" : ", blocked"));
        }
    }

    /** Tells a password that was made, this once. */
    static void show(Console console, People.Added added) {
        String made = added.firstPassword();
        if (console.isJson()) {
            Map<String, @Nullable Object> object = json(added.person());
            object.put("first_password", made);
            console.printJson(object);
            return;
        }
        show(console, added.person());
        if (made != null) {
            console.say("First password, shown this once and to be changed at the first sign-in: "
                    + Objects.requireNonNull(made));
        }
    }
}
