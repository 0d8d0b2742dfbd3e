package org.sideport.app.frame;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.Reader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Properties;
import java.util.concurrent.TimeUnit;
import java.util.function.Predicate;
import org.sideport.app.RealWindow;
import org.sideport.app.settings.Persons;

/** The real program as a process of its own, on a folder that goes in the end. It may be killed without any warning. */
final class ChildApp implements AutoCloseable {

    final Path folder;
    private final Class<?> main;
    private Process process;

    /** @param main takes the folder as its first argument */
    ChildApp(Class<?> main) throws Exception {
        this.main = main;
        folder = Files.createTempDirectory("sideport-child");
    }

    void start(String... arguments) throws Exception {
        start(main, arguments);
    }

    void start(Class<?> program, String... arguments) throws Exception {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx768m",
                "-Dprism.order=sw",
                "-Dtestfx.robot=glass",
                "-Duser.language=en",
                "-Duser.timezone=UTC",
                "-Dsideport.home=" + System.getProperty("sideport.home", "."),
                "-Dorg.bytedeco.javacpp.maxPhysicalBytes=0",
                "-cp",
                System.getProperty("java.class.path"),
                program.getName(),
                folder.toString()));
        command.addAll(List.of(arguments));
        String pictures = System.getProperty("sideport.pictures");
        if (pictures != null) {
            command.add(1, "-Dsideport.pictures=" + pictures);
        }
        process = new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(ProcessBuilder.Redirect.appendTo(said().toFile()))
                .start();
    }

    private Path said() {
        return folder.resolveSibling(folder.getFileName() + ".txt");
    }

    /** Where the program says that it is, on disk. */
    Properties place() throws Exception {
        return properties(folder.resolve("place-" + Persons.mark() + ".properties"));
    }

    private static Properties properties(Path file) throws Exception {
        Properties values = new Properties();
        if (Files.exists(file)) {
            try (Reader reader = Files.newBufferedReader(file)) {
                values.load(reader);
            }
        }
        return values;
    }

    void until(int seconds, Predicate<Properties> place) throws Exception {
        long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(seconds);
        while (!place.test(place())) {
            assertThat(process.isAlive()).as(this::words).isTrue();
            assertThat(System.nanoTime()).as(this::words).isLessThan(end);
            Thread.sleep(100);
        }
    }

    /** What the program wrote under this name, once it is there. */
    Properties told(String name) throws Exception {
        Path file = folder.resolve(name);
        until(90, place -> Files.exists(file));
        return properties(file);
    }

    /** SIGKILL: no handler runs. */
    void kill() throws Exception {
        process.destroyForcibly().waitFor();
        assertThat(process.exitValue()).as("killed by signal 9").isEqualTo(128 + 9);
    }

    void end() throws Exception {
        if (process != null) {
            process.destroyForcibly().waitFor();
        }
    }

    private String words() {
        try {
            return Files.readString(said()) + place();
        } catch (Exception unreadable) {
            return unreadable.toString();
        }
    }

    @Override
    public void close() throws Exception {
        end();
        RealWindow.delete(folder);
        Files.deleteIfExists(said());
    }
}
