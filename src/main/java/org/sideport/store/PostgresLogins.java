package org.sideport.store;

import org.jdbi.v3.core.JdbiException;
import org.postgresql.util.PasswordUtil;
import org.sideport.model.InputException;

/** Logins by functions of the database, which look for themselves who calls. What is sent is a SCRAM verifier, no password. */
final class PostgresLogins implements Logins {

    private static final int SHORTEST = 8;

    private final PostgresEngine engine;

    PostgresLogins(PostgresEngine engine) {
        this.engine = engine;
    }

    @Override
    public void make(String person, String password) {
        call("select make_login(?, ?)", person, password);
    }

    @Override
    public void change(String person, String password) {
        call("select change_password(?, ?)", person, password);
    }

    private void call(String statement, String person, String password) {
        if (password.length() < SHORTEST) {
            throw new InputException("the password is too short", null, "take " + SHORTEST + " characters or more");
        }
        String verifier = PasswordUtil.encodeScramSha256(password.toCharArray());
        try {
            engine.write((handle, growth) -> handle.createQuery(statement)
                    .bind(0, person)
                    .bind(1, verifier)
                    .mapTo(Boolean.class)
                    .findOne());
        } catch (JdbiException e) {
            throw engine.explain(e, "the login was not changed");
        }
    }
}
