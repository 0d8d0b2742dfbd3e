package org.sideport.cli.bench;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import java.util.function.Predicate;
import org.sideport.cli.Main;

/**
 * This program, or another class of it, in a process of its own, with this process's options of the virtual machine.
 *
 * @param mainClass what is started
 * @param home what it takes for the user's home folder, so that the user's own settings stay as they are
 * @param options which of this process's options it gets
 */
record ChildProgram(Class<?> mainClass, Path home, Predicate<String> options, List<String> more) {

    private static final String ARCHIVE = "-XX:SharedArchiveFile";

    ChildProgram {
        more = List.copyOf(more);
    }

    static ChildProgram sideport(Path home) {
        return new ChildProgram(Main.class, home, option -> true, List.of());
    }

    /** Without the archive of classes that the launcher has made for the program. */
    static ChildProgram plain(Class<?> mainClass, Path home) {
        return new ChildProgram(mainClass, home, option -> !option.startsWith(ARCHIVE), List.of());
    }

    ChildProgram with(String... further) {
        return new ChildProgram(mainClass, home, options, List.of(further));
    }

    static boolean hasArchive() {
        return ManagementFactory.getRuntimeMXBean().getInputArguments().stream()
                .anyMatch(option -> option.startsWith(ARCHIVE));
    }

    private Process start(List<String> arguments) throws IOException {
        List<String> command = new ArrayList<>();
        command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        // an option of two words comes back as one, joined by an equals sign; an agent's is not for a second program
        ManagementFactory.getRuntimeMXBean().getInputArguments().stream()
                .filter(options)
                .filter(option -> !option.startsWith("-javaagent") && !option.startsWith("-agentlib"))
                .forEach(command::add);
        command.add("-Duser.home=" + home);
        command.addAll(more);
        command.add("-cp");
        command.add(System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")));
        command.add(mainClass.getName());
        command.addAll(arguments);
        return new ProcessBuilder(command)
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .start();
    }

    /**
     * @return what it wrote on standard output
     * @throws IOException if it did not end well
     */
    String run(String... arguments) throws IOException, InterruptedException {
        Process process = start(List.of(arguments));
        try {
            process.getOutputStream().close();
            String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            end(process, arguments);
            return said;
        } finally {
            process.destroyForcibly();
        }
    }

    /** @return milliseconds from its start to each of the lines {@code said}, in their order; it is waited for */
    double[] untilItSays(List<String> said, String... arguments) throws IOException, InterruptedException {
        long start = System.nanoTime();
        Process process = start(List.of(arguments));
        try (BufferedReader out =
                new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
            double[] ms = new double[said.size()];
            Arrays.fill(ms, Double.NaN);
            for (String line = out.readLine(); line != null; line = out.readLine()) {
                int which = said.indexOf(line);
                if (which >= 0) {
                    ms[which] = (System.nanoTime() - start) / 1e6;
                }
            }
            end(process, arguments);
            return ms;
        } finally {
            process.destroyForcibly();
        }
    }

    private void end(Process process, String[] arguments) throws IOException, InterruptedException {
        if (!process.waitFor(1, TimeUnit.MINUTES) || process.exitValue() != 0) {
            throw new IOException(String.format(
                    Locale.ROOT, "%s %s did not end well", mainClass.getSimpleName(), String.join(" ", arguments)));
        }
    }
}
