package org.sideport.store;

import com.zaxxer.hikari.HikariConfig;
import com.zaxxer.hikari.HikariDataSource;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.HandleCallback;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.JdbiException;
import org.postgresql.ds.PGSimpleDataSource;
import org.sideport.model.Caller;
import org.sideport.model.InputException;
import org.sideport.model.Role;

/**
 * A PostgreSQL database for many programs at once. Each person has a login of the database's own, named as the person's
 * code; what that login may see and change is for the database to decide, whatever program asks.
 */
final class PostgresEngine implements Engine {

    /** The views through which all work goes, then the tables. */
    private static final String SEARCH_PATH = PostgresSchema.SHOWN + "," + PostgresSchema.TABLES;

    private static final int CONNECT_S = 5;
    private static final int MOST_CONNECTIONS = 4;

    private final HikariDataSource pool;
    private final Jdbi jdbi;
    private final DatabaseUrl url;
    private final Caller caller;

    private PostgresEngine(HikariDataSource pool, Jdbi jdbi, DatabaseUrl url, Caller caller) {
        this.pool = pool;
        this.jdbi = jdbi;
        this.url = url;
        this.caller = caller;
    }

    /**
     * @param create true to make the tables if there are none
     * @throws InputException if it cannot be reached or used, or the login is nobody's here
     */
    static PostgresEngine open(DatabaseUrl url, DatabaseLogin login, boolean create) {
        PGSimpleDataSource plain = new PGSimpleDataSource();
        plain.setUrl(url.text());
        plain.setConnectTimeout(CONNECT_S);
        plain.setTcpKeepAlive(true);
        plain.setApplicationName("Sideport");
        if (url.user() == null && login.user() != null) {
            plain.setUser(login.user());
        }
        if (login.password() != null) {
            plain.setPassword(login.password());
        }
        try (Connection first = plain.getConnection()) {
            PostgresSchema.prepare(first, plain, url, create);
        } catch (SQLException e) {
            RuntimeException told = PostgresFaults.explain(e, url, "the store cannot be opened");
            throw told != null ? told : new InputException("the store cannot be opened", url.toString(), null, e);
        }
        HikariDataSource pool = pool(plain);
        try {
            Jdbi jdbi = Jdbi.create(pool);
            jdbi.getConfig(Dialect.class).setPostgresql();
            return new PostgresEngine(pool, jdbi, url, jdbi.withHandle(handle -> callerOf(handle, url)));
        } catch (JdbiException e) {
            pool.close();
            throw PostgresFaults.explain(e, url, "the store cannot be opened");
        } catch (RuntimeException e) {
            pool.close();
            throw e;
        }
    }

    private static HikariDataSource pool(PGSimpleDataSource plain) {
        plain.setCurrentSchema(SEARCH_PATH);
        plain.setReWriteBatchedInserts(true);
        HikariConfig config = new HikariConfig();
        config.setDataSource(plain);
        config.setMaximumPoolSize(MOST_CONNECTIONS);
        config.setMinimumIdle(0);
        // our queries are many and short, and compiling one takes longer than running it
        config.setConnectionInitSql("set jit = off");
        config.setIdleTimeout(60_000);
        config.setConnectionTimeout(CONNECT_S * 1000L);
        config.setValidationTimeout(2_000);
        // whoever begins while the database is away is told when he asks for something
        config.setInitializationFailTimeout(-1);
        return new HikariDataSource(config);
    }

    private static Caller callerOf(Handle handle, DatabaseUrl url) {
        String me =
                handle.createQuery("select session_user").mapTo(String.class).one();
        if (handle.createQuery("select is_keeper()").mapTo(Boolean.class).one()) {
            return new Caller.Anyone();
        }
        Set<Role> roles = new TreeSet<>();
        handle.createQuery("select r.role from person p join person_role r on r.person = p.code"
                        + " where p.code = :me and p.active")
                .bind("me", me)
                .mapTo(String.class)
                .forEach(role -> roles.add(Role.parse(role)));
        if (roles.isEmpty()) {
            throw new InputException(
                    me + " is nobody's code in this workspace",
                    url.toString(),
                    "sign in with your own code, or ask a programme director of your unit to add you");
        }
        return new Caller.Person(me, roles);
    }

    @Override
    public <T> T read(HandleCallback<T, RuntimeException> work) {
        return jdbi.inTransaction(handle -> {
            handle.execute("set transaction isolation level repeatable read");
            return work.withHandle(handle);
        });
    }

    @Override
    public <T> T write(Change<T> work) {
        return jdbi.inTransaction(handle -> work.in(handle, new AfterCommit()));
    }

    /** Brings up what the planner knows, and which pages need no second look. */
    void tidied() {
        jdbi.useHandle(handle -> handle.execute("vacuum analyze"));
    }

    @Override
    public RuntimeException explain(JdbiException fault, String failed) {
        return PostgresFaults.explain(fault, url, failed);
    }

    @Override
    public Caller caller() {
        return caller;
    }

    @Override
    public Optional<Logins> logins() {
        return Optional.of(new PostgresLogins(this));
    }

    @Override
    public void close() {
        pool.close();
    }
}
