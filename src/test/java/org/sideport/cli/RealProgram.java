package org.sideport.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Runs the program as a process of its own, with a home folder of its own. */
final class RealProgram {

    private static final int SECONDS = 120;

    private final Path home;

    RealProgram(Path home) {
        this.home = home;
    }

    record Result(int code, String out, String err) {

        JsonNode json() {
            return JsonMapper.builder().build().readTree(out);
        }
    }

    Result run(String... arguments) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Djava.awt.headless=true",
                "-Dfile.encoding=UTF-8",
                "-Duser.home=" + home,
                "-Dsideport.home=" + Path.of("").toAbsolutePath(),
                "-Dorg.bytedeco.javacpp.maxPhysicalBytes=0",
                // the tests start it often and briefly
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-cp",
                System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")),
                "org.sideport.cli.Main"));
        command.addAll(List.of(arguments));
        Path out = Files.createTempFile("sideport-out", ".txt");
        Path err = Files.createTempFile("sideport-err", ".txt");
        ProcessBuilder builder = new ProcessBuilder(command)
                .redirectOutput(out.toFile())
                .redirectError(err.toFile())
                .redirectInput(ProcessBuilder.Redirect.from(Path.of("/dev/null").toFile()));
        builder.environment().put("SIDEPORT_CONFIG", home.resolve("config").toString());
        builder.environment().put("LC_ALL", "C.UTF-8");
        Process process = builder.start();
        try {
            if (!process.waitFor(SECONDS, TimeUnit.SECONDS)) {
                process.destroyForcibly();
                throw new AssertionError("still running after " + SECONDS + " s: " + List.of(arguments));
            }
            return new Result(
                    process.exitValue(),
                    Files.readString(out, StandardCharsets.UTF_8),
                    Files.readString(err, StandardCharsets.UTF_8));
        } finally {
            Files.delete(out);
            Files.delete(err);
        }
    }
}
