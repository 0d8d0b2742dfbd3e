package org.sideport.store;

import java.time.Instant;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jdbi.v3.core.Handle;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.Person;
import org.sideport.model.Role;

/** People with their roles, and what sign-in needs to know of them. Codes are found whatever their case. */
public final class PeopleStore {

    /**
     * What sign-in needs of a person.
     *
     * @param password a PHC string; empty if none is kept here
     * @param failed attempts since the last right one
     */
    public record Secret(
            String password, int failed, @Nullable Instant lockedUntil) {
        @Override
        public String toString() {
            return "Secret[failed=" + failed + "]";
        }
    }

    private final Handle handle;

    PeopleStore(Handle handle) {
        this.handle = handle;
    }

    /** True if anybody is listed, so that sign-in is needed. */
    public boolean any() {
        return handle.createQuery("select count(*) from person")
                        .mapTo(Long.class)
                        .one()
                > 0;
    }

    /** All people by code, the blocked ones too. */
    public List<Person> all() {
        Map<String, Set<Role>> roles = new LinkedHashMap<>();
        handle.createQuery("select person, role from person_role")
                .map((row, context) -> Map.entry(row.getString("person"), Role.parse(row.getString("role"))))
                .forEach(entry -> roles.computeIfAbsent(entry.getKey(), code -> EnumSet.noneOf(Role.class))
                        .add(entry.getValue()));
        return handle.createQuery("select code, active, added_at, must_change, locked_until from person order by code")
                .map((row, context) -> new Person(
                        row.getString("code"),
                        row.getBoolean("active"),
                        roles.getOrDefault(row.getString("code"), Set.of()),
                        Instant.parse(row.getString("added_at")),
                        row.getBoolean("must_change"),
                        instant(row.getString("locked_until"))))
                .list();
    }

    public Optional<Person> find(String code) {
        return all().stream()
                .filter(p -> p.code().toLowerCase(Locale.ROOT).equals(code.toLowerCase(Locale.ROOT)))
                .findFirst();
    }

    /**
     * @throws InputException if there is no such person
     */
    public Person get(String code) {
        return find(code)
                .orElseThrow(() -> new InputException(
                        "there is nobody with the code " + code, null, "see who there is: sideport people list"));
    }

    /**
     * @throws InputException if the code is taken
     */
    public void add(String code, Set<Role> roles, Instant now) {
        if (find(code).isPresent()) {
            throw new InputException("there is a person " + code + " already", null, "choose another code");
        }
        handle.execute("insert into person (code, active, added_at) values (?, ?, ?)", code, true, now.toString());
        setRoles(code, roles);
    }

    public void setRoles(String code, Set<Role> roles) {
        handle.execute("delete from person_role where person = ?", code);
        roles.forEach(role -> handle.execute("insert into person_role (person, role) values (?, ?)", code, role.id()));
    }

    public void setActive(String code, boolean active) {
        handle.execute("update person set active = ? where code = ?", active, code);
    }

    /** Of the person with exactly this code. */
    public Optional<Secret> secret(String code) {
        return handle.createQuery("select password, failed, locked_until from person where code = :code")
                .bind("code", code)
                .map((row, context) -> new Secret(
                        row.getString("password"), row.getInt("failed"), instant(row.getString("locked_until"))))
                .findOne();
    }

    /** Keeps a password's PHC string. */
    public void setPassword(String code, String phc) {
        handle.execute("update person set password = ? where code = ?", phc, code);
    }

    public void setMustChange(String code, boolean mustChange) {
        handle.execute("update person set must_change = ? where code = ?", mustChange, code);
    }

    /**
     * Notes wrong attempts.
     *
     * @param lockedUntil {@code null} if the next attempt may come at once
     */
    public void setFailed(String code, int failed, @Nullable Instant lockedUntil) {
        handle.execute(
                "update person set failed = ?, locked_until = ? where code = ?",
                failed,
                lockedUntil == null ? null : lockedUntil.toString(),
                code);
    }

    private static @Nullable Instant instant(@Nullable String text) {
        return text == null ? null : Instant.parse(text);
    }
}
