package org.sideport;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * A test's work in a Java process of its own, so that memory can be told apart: the heap has one size and is in memory from
 * the start, and the C library keeps one arena, whose rest does not grow with the number of threads.
 */
public final class OwnProcess {

    private OwnProcess() {}

    /**
     * Runs a class's {@code main} to its end.
     *
     * @return what it wrote to standard output, by line
     * @throws IllegalStateException if it did not end with 0; with all it wrote
     */
    public static List<String> run(Class<?> main, String... arguments) {
        List<String> command = new ArrayList<>(List.of(
                ProcessHandle.current().info().command().orElse("java"),
                "-Xms128m",
                "-Xmx128m",
                "-XX:+AlwaysPreTouch",
                "-XX:+UseSerialGC",
                "-Dorg.bytedeco.javacpp.maxPhysicalBytes=0",
                "-cp",
                System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")),
                main.getName()));
        command.addAll(List.of(arguments));
        try {
            ProcessBuilder builder = new ProcessBuilder(command).redirectErrorStream(true);
            builder.environment().put("MALLOC_ARENA_MAX", "1");
            Process process = builder.start();
            List<String> lines = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .toList();
            int code = process.waitFor();
            if (code != 0) {
                throw new IllegalStateException("ended with " + code + ": " + String.join("\n", lines));
            }
            return lines;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }

    /** A figure of this process by Linux, such as {@code VmRSS} in kB or {@code Threads}. */
    public static long own(String name) throws IOException {
        return Files.readAllLines(Path.of("/proc/self/status")).stream()
                .filter(line -> line.startsWith(name + ":"))
                .mapToLong(line -> Long.parseLong(line.replaceAll("[^0-9]", "")))
                .findFirst()
                .orElseThrow();
    }
}
