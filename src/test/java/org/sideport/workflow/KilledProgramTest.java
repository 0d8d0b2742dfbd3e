package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.store.Workspace;

/**
 * A process of its own tags and dies without warning; what it said it had tagged is there when the workspace is opened
 * again. No expected number but what the process itself said before it died.
 */
@Timeout(120)
class KilledProgramTest {

    private static final int ENOUGH = 12;

    @TempDir
    Path temp;

    @Test
    void nothingTaggedIsLostWhenTheProcessIsKilled() throws Exception {
        Process process = start(0);
        List<Integer> said = new ArrayList<>();
        try (BufferedReader out = lines(process)) {
            while (said.size() < ENOUGH) {
                said.add(Integer.valueOf(out.readLine()));
            }
            // SIGKILL: nothing runs any more, no shutdown hook, no finally
            process.destroyForcibly();
            rest(out, said);
        }
        assertThat(process.waitFor(30, TimeUnit.SECONDS)).isTrue();
        assertThat(process.exitValue()).isNotZero();
        assertAllThere(said);
    }

    @Test
    void nothingTaggedIsLostWhenNativeCodeCrashes() throws Exception {
        Process process = start(ENOUGH);
        List<Integer> said = new ArrayList<>();
        try (BufferedReader out = lines(process)) {
            rest(out, said);
        }
        assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
        assertThat(process.exitValue()).isNotZero();
        assertThat(said).hasSize(ENOUGH);
        assertAllThere(said);
    }

    private Process start(int crashAfter) throws IOException {
        try (Workspace workspace = Workspace.create(temp.resolve("unit"))) {
            Unit.addCase(workspace, "C-01", 36_000);
        }
        List<String> command = List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-XX:-CreateCoredumpOnCrash",
                "-XX:ErrorFile=" + temp.resolve("crash.log"),
                "-Dsideport.home=" + Path.of("").toAbsolutePath(),
                "-cp",
                System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")),
                TagUntilKilled.class.getName(),
                temp.resolve("unit").toString(),
                Integer.toString(crashAfter));
        return new ProcessBuilder(command)
                .redirectError(temp.resolve("err.txt").toFile())
                .start();
    }

    private static BufferedReader lines(Process process) {
        return new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.US_ASCII));
    }

    /** Whole numbers only: the dying process may leave half a line, or the report of the crash. */
    private static void rest(BufferedReader out, List<Integer> said) {
        try {
            String line;
            while ((line = out.readLine()) != null) {
                if (line.matches("\\d+") && Integer.parseInt(line) == said.size() + 1) {
                    said.add(Integer.valueOf(line));
                }
            }
        } catch (IOException e) {
            // the pipe broke with the process
        }
    }

    private void assertAllThere(List<Integer> said) {
        try (Workspace workspace = Workspace.open(temp.resolve("unit"))) {
            List<PhaseSpan> spans =
                    new TagRecording(workspace).open("C-01", "A1").tagging().spans();
            assertThat(spans.size()).isGreaterThanOrEqualTo(said.size());
            for (int second : said) {
                assertThat(spans.get(second - 1).start()).isEqualTo(MediaTime.ofSeconds(second));
                assertThat(spans.get(second - 1).phase()).isEqualTo(TagUntilKilled.PHASES.get(second % 2));
            }
        }
    }
}
