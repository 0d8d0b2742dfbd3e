package org.sideport.cli.bench;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** Runs a reference script, where R is at hand. */
final class Rscript {

    private static final String PROGRAM = "Rscript";
    private static final int MINUTES = 10;

    /**
     * What came of it.
     *
     * @param seconds median over the repeats; {@code null} if the script did not get there
     * @param value figure of the result; {@code null} if the script printed none
     * @param note why there is no time; {@code null} if there is one
     */
    record Result(
            @Nullable Double seconds,
            @Nullable Double value,
            @Nullable String note) {

        static Result failed(String note) {
            return new Result(null, null, note);
        }
    }

    private Rscript() {}

    /** Whether the program is among those in the folders of this search path. */
    static boolean isOn(@Nullable String path) {
        if (path == null) {
            return false;
        }
        return Stream.of(path.split(java.util.regex.Pattern.quote(java.io.File.pathSeparator)))
                .filter(folder -> !folder.isEmpty())
                .anyMatch(folder -> Files.isExecutable(Path.of(folder, PROGRAM))
                        || Files.isExecutable(Path.of(folder, PROGRAM + ".exe")));
    }

    static Result run(Measurement.Baseline.Script script, int repeats) throws IOException, InterruptedException {
        Path dir = Files.createTempDirectory("sideport-bench");
        try {
            Path data = dir.resolve("data.csv");
            script.write(data);
            Path code = dir.resolve(script.resource());
            try (InputStream in = Rscript.class.getResourceAsStream(script.resource())) {
                if (in == null) {
                    throw new IllegalStateException("no resource " + script.resource());
                }
                Files.copy(in, code);
            }
            return run(List.of(PROGRAM, "--vanilla", code.toString(), data.toString(), String.valueOf(repeats)), dir);
        } finally {
            delete(dir);
        }
    }

    private static Result run(List<String> command, Path dir) throws IOException, InterruptedException {
        Path out = dir.resolve("out.txt");
        Path err = dir.resolve("err.txt");
        Process process = new ProcessBuilder(command)
                .redirectOutput(out.toFile())
                .redirectError(err.toFile())
                .start();
        try {
            if (!process.waitFor(MINUTES, TimeUnit.MINUTES)) {
                return Result.failed("the reference was not done within " + MINUTES + " minutes");
            }
        } finally {
            process.destroyForcibly();
        }
        if (process.exitValue() != 0) {
            List<String> said = Files.readAllLines(err, StandardCharsets.UTF_8).stream()
                    .filter(line -> !line.isBlank())
                    .toList();
            return Result.failed("the reference failed: "
                    + (said.isEmpty() ? "no message" : said.get(0).strip()));
        }
        return parse(Files.readAllLines(out, StandardCharsets.UTF_8));
    }

    /** @param lines {@code seconds X} for each repeat, {@code value X} once; others are passed over */
    static Result parse(List<String> lines) {
        double[] seconds = numbers(lines, "seconds ");
        double[] values = numbers(lines, "value ");
        if (seconds.length == 0) {
            return Result.failed("the reference printed no time");
        }
        return new Result(Stopwatch.median(seconds), values.length == 0 ? null : (Double) values[0], null);
    }

    private static double[] numbers(List<String> lines, String prefix) {
        return lines.stream()
                .filter(line -> line.startsWith(prefix))
                .mapToDouble(line ->
                        Double.parseDouble(line.substring(prefix.length()).strip()))
                .toArray();
    }

    private static void delete(Path dir) throws IOException {
        try (Stream<Path> files = Files.walk(dir)) {
            for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(file);
            }
        }
    }
}
