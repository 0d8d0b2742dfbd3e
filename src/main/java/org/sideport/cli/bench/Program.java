package org.sideport.cli.bench;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.concurrent.TimeUnit;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** A program on the search path that serves as a reference. */
record Program(String name, Path file) {

    private static final int MINUTES = 10;

    /**
     * @param path the search path
     * @return {@code null} if it is not there
     */
    static @Nullable Program on(@Nullable String path, String name) {
        if (path == null) {
            return null;
        }
        for (String folder : path.split(Pattern.quote(File.pathSeparator))) {
            for (String ending : List.of("", ".exe")) {
                if (!folder.isEmpty() && Files.isExecutable(Path.of(folder, name + ending))) {
                    return new Program(name, Path.of(folder, name + ending));
                }
            }
        }
        return null;
    }

    /**
     * Runs it, its output thrown away.
     *
     * @return seconds from its start to its end; {@code null} if it failed
     */
    @Nullable
    Double seconds(List<String> arguments) {
        List<String> command = new ArrayList<>(List.of(file.toString()));
        command.addAll(arguments);
        long start = System.nanoTime();
        try {
            Process process = new ProcessBuilder(command)
                    .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                    .redirectError(ProcessBuilder.Redirect.DISCARD)
                    .start();
            try {
                process.getOutputStream().close();
                if (!process.waitFor(MINUTES, TimeUnit.MINUTES) || process.exitValue() != 0) {
                    return null;
                }
                return (System.nanoTime() - start) / 1e9;
            } finally {
                process.destroyForcibly();
            }
        } catch (IOException e) {
            return null;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new CancellationException();
        }
    }
}
