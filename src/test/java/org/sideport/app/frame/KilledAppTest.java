package org.sideport.app.frame;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.Reader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Properties;
import java.util.concurrent.TimeUnit;
import java.util.function.Predicate;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.sideport.app.Bench;
import org.sideport.app.settings.Persons;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.player.DemoRecordings;
import org.sideport.store.Workspace;
import org.sideport.workflow.TagRecording;

/** The app as a process of its own, killed in the middle of work without any warning, and started again. */
@Timeout(240)
class KilledAppTest {

    private Path folder;
    private Process process;

    @BeforeEach
    void aCaseWithTwoPhases() throws Exception {
        folder = Files.createTempDirectory("sideport-killed");
        try (Workspace workspace = Workspace.create(folder)) {
            Bench.addCase(workspace, "C-1", DemoRecordings.D001);
            Bench.addCase(workspace, "C-2", DemoRecordings.D001);
            var session = new TagRecording(workspace).open("C-2", "A1");
            session.startPhase("incision", MediaTime.ofSeconds(3), Operator.TRAINEE);
            session.startPhase("capsulotomy", MediaTime.ofSeconds(20), Operator.TRAINEE);
        }
    }

    @AfterEach
    void end() throws Exception {
        if (process != null) {
            process.destroyForcibly().waitFor();
        }
        try (var files = Files.walk(folder)) {
            for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(file);
            }
        }
    }

    private void start(String... work) throws Exception {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx768m",
                "-Dprism.order=sw",
                "-Dsideport.home=" + System.getProperty("sideport.home", "."),
                "-Dorg.bytedeco.javacpp.maxPhysicalBytes=0",
                "-cp",
                System.getProperty("java.class.path"),
                KilledApp.Start.class.getName(),
                folder.toString()));
        command.addAll(List.of(work));
        process = new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(ProcessBuilder.Redirect.appendTo(
                        folder.resolve("said.txt").toFile()))
                .start();
    }

    private Properties place() throws Exception {
        Properties values = new Properties();
        Path file = folder.resolve("place-" + Persons.mark() + ".properties");
        if (Files.exists(file)) {
            try (Reader reader = Files.newBufferedReader(file)) {
                values.load(reader);
            }
        }
        return values;
    }

    private void until(Predicate<Properties> condition) throws Exception {
        long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(90);
        while (!condition.test(place())) {
            assertThat(System.nanoTime()).as(() -> said()).isLessThan(end);
            assertThat(process.isAlive()).as(() -> said()).isTrue();
            Thread.sleep(100);
        }
    }

    private String said() {
        try {
            return Files.readString(folder.resolve("said.txt")) + place();
        } catch (Exception unreadable) {
            return unreadable.toString();
        }
    }

    @Test
    void itIsThereAgainAtTheSameCaseSecondSelectionAndHalfWrittenText() throws Exception {
        // D-001 has 25 frames a second: 31.24 s is the start of a frame
        start("work", "31240000");
        until(place -> place.getProperty("time_us", "").equals("31240000")
                && !place.getProperty("selected", "").isEmpty()
                && place.getProperty("draft.text", "").equals("hold the second instr"));
        process.destroyForcibly(); // SIGKILL: no handler runs
        process.waitFor();
        assertThat(process.exitValue()).as("killed by signal 9").isEqualTo(128 + 9);
        Properties killed = place();
        assertThat(killed.getProperty("open")).isEqualTo("true");

        start("tell");
        Path told = folder.resolve("told.properties");
        long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(90);
        while (!Files.exists(told)) {
            assertThat(System.nanoTime()).as(() -> said()).isLessThan(end);
            Thread.sleep(100);
        }
        Properties there = new Properties();
        try (Reader reader = Files.newBufferedReader(told)) {
            there.load(reader);
        }

        assertThat(there.getProperty("case")).isEqualTo("C-2");
        assertThat(there.getProperty("time_us")).isEqualTo("31240000");
        assertThat(there.getProperty("selected")).isEqualTo("capsulotomy at 20000000");
        assertThat(there.getProperty("field")).isEqualTo("comment-text");
        assertThat(there.getProperty("text")).isEqualTo("hold the second instr");
        assertThat(there.getProperty("notice")).startsWith("Reopened where it was");
        try (Workspace workspace = reopened()) {
            assertThat(new TagRecording(workspace).open("C-2", "A1").tagging().spans())
                    .hasSize(2);
        }
    }

    private Workspace reopened() throws Exception {
        process.destroyForcibly().waitFor();
        return Workspace.open(folder);
    }
}
