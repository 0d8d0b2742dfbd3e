package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Progress;
import org.sideport.model.RatingState;
import org.sideport.store.OldStore;
import org.sideport.store.StoredRating;
import org.sideport.store.Workspace;
import org.sideport.workflow.upkeep.CheckWorkspace;
import org.sideport.workflow.upkeep.KeepBackups;
import org.sideport.workflow.upkeep.VerifyRatings;

/**
 * Programs that save, import, sign, bring a store up to date and make backups are killed (SIGKILL) at random moments; then
 * the workspace must open, all that was said to be done must be there and nothing by halves. No expected number but what the
 * killed program said itself. The figures are printed.
 */
class KilledAtRandomTest {

    private static final List<String> JOBS = List.of("save", "import", "sign", "migration", "backup");

    /** The first program of a kind is killed after so many acts; the others within the time that those took. */
    private static final int FIRST = 3;

    @TempDir
    Path temp;

    /** What the kills came to. */
    private static final class Figures {
        private int kills;
        private long done;
        private int unsaid;
        private int midway;
        private long longestMillis;
    }

    @Test
    @Timeout(1800)
    void nothingSignedIsLostAndNothingIsHalfDoneWhereverTheProgramIsKilled() throws Exception {
        run(10, 20261129);
    }

    @Test
    @Tag("slow")
    void fiveHundredRandomPoints() throws Exception {
        run(500, 500);
    }

    private void run(int points, long seed) throws Exception {
        Random random = new Random(seed);
        Figures[] figures =
                IntStream.range(0, JOBS.size()).mapToObj(i -> new Figures()).toArray(Figures[]::new);
        for (int i = 0; i < points; i++) {
            int job = i % JOBS.size();
            Path place = Files.createDirectories(temp.resolve("kill-" + i));
            kill(JOBS.get(job), place, random, figures[job]);
            delete(place);
            if ((i + 1) % 50 == 0) {
                tell(i + 1, figures);
            }
        }
        tell(points, figures);
    }

    private static void tell(int points, Figures[] figures) {
        StringBuilder text = new StringBuilder("killed at " + points + " random points:");
        for (int i = 0; i < JOBS.size(); i++) {
            Figures f = figures[i];
            text.append(String.format(
                    "%n  %-10s %3d kills, %6d acts said to be done, all there; %3d times one more was there than said;"
                            + " %3d times work under way was taken back or made again",
                    JOBS.get(i), f.kills, f.done, f.unsaid, f.midway));
        }
        System.out.println(text);
    }

    private void kill(String job, Path place, Random random, Figures figures) throws Exception {
        Path unit = place.resolve("unit");
        Path prepared = temp.resolve("prepared-" + job);
        if (!Files.exists(prepared)) {
            prepare(job, prepared);
        }
        copy(prepared, unit);
        List<String> said = runAndKill(job, unit, random, figures);
        int done = said.stream()
                .filter(s -> s.matches("\\d+"))
                .mapToInt(Integer::parseInt)
                .max()
                .orElse(0);
        figures.kills++;
        figures.done += done;
        if (job.equals("migration")) {
            afterMigration(unit, said, done, figures);
            return;
        }
        try (Workspace workspace = Workspace.open(unit)) {
            switch (job) {
                case "save" -> afterSave(workspace, done, figures);
                case "import" -> afterImport(workspace, done, figures);
                case "sign" -> afterSign(workspace, done, figures);
                default -> afterBackup(workspace, place, figures);
            }
            requireWhole(workspace);
        }
    }

    private static void requireWhole(Workspace workspace) {
        assertThat(new CheckWorkspace(workspace).run(false, null, Progress.NONE).findings())
                .filteredOn(f -> !f.isNote() && f.kind() != CheckWorkspace.Kind.RECORDING)
                .isEmpty();
    }

    private static void prepare(String job, Path unit) throws Exception {
        if (job.equals("migration")) {
            Path template = Files.createDirectories(unit.resolve("template"));
            OldStore.makeWithRatings(template, Unit.RUBRIC.id(), Unit.RUBRIC.version(), rubricText());
            return;
        }
        try (Workspace workspace = Workspace.create(unit)) {
            Unit.addCase(workspace, "C-01", 36_000);
            Unit.addCase(workspace, "C-02", 36_000);
            MarkCase marking = new MarkCase(workspace);
            marking.rate("C-02", Unit.rating("A1", false));
            marking.sign("C-02", Unit.RUBRIC.id(), "A1", false);
        }
        List<String> rows = new ArrayList<>(List.of("case,annotator,phase,start,end,operator"));
        for (String code : List.of("C-01", "C-02")) {
            for (int i = 0; i < 150; i++) {
                rows.add(code + ",," + TagUntilKilled.PHASES.get(i % 2) + "," + i + "," + (i + 1) + ",");
            }
        }
        Files.write(unit.resolve("tags.csv"), rows);
    }

    private static String rubricText() throws IOException {
        try (Workspace workspace = Workspace.create(Files.createTempDirectory("rubric"))) {
            return new Vocabularies(workspace).rubric(Unit.RUBRIC.id()).json();
        }
    }

    private List<String> runAndKill(String job, Path unit, Random random, Figures figures) throws Exception {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-Dsideport.home=" + Path.of("").toAbsolutePath(),
                "-cp",
                System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")),
                KillTarget.class.getName(),
                job,
                unit.toString()));
        command.add(unit.resolve("tags.csv").toString());
        Path errors = temp.resolve("err.txt");
        Process process =
                new ProcessBuilder(command).redirectError(errors.toFile()).start();
        List<String> said = new ArrayList<>();
        try (BufferedReader out =
                new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.US_ASCII))) {
            String first = out.readLine();
            assertThat(first).as(() -> read(errors)).isEqualTo("ready");
            if (figures.longestMillis == 0) {
                long started = System.nanoTime();
                String act;
                while (said.stream().filter(s -> s.matches("\\d+")).count() < FIRST && (act = out.readLine()) != null) {
                    said.add(act);
                }
                figures.longestMillis = Math.max(1, (System.nanoTime() - started) / 1_000_000);
            } else {
                Thread.sleep(random.nextInt(Math.toIntExact(figures.longestMillis)));
            }
            // SIGKILL: nothing runs any more, no shutdown hook, no finally
            // by its handle, which leaves the pipe open: what it said last is still to be read
            process.toHandle().destroyForcibly();
            String line;
            while ((line = out.readLine()) != null) {
                said.add(line);
            }
        } catch (IOException e) {
            // the pipe broke with the process
        }
        assertThat(process.waitFor(30, TimeUnit.SECONDS)).isTrue();
        // 128 + SIGKILL: it was killed, and did not fall over by itself
        assertThat(process.exitValue()).as(() -> read(errors)).isEqualTo(137);
        return said;
    }

    private static String read(Path file) {
        try {
            return Files.readString(file);
        } catch (IOException e) {
            return "";
        }
    }

    private static void afterSave(Workspace workspace, int done, Figures figures) {
        List<PhaseSpan> spans =
                new TagRecording(workspace).open("C-01", "A1").tagging().spans();
        String comment = new MarkCase(workspace)
                .open("C-01", "A1", false, Unit.RUBRIC)
                .rating()
                .comment();
        int marked = comment.isEmpty() ? 0 : Integer.parseInt(comment.substring("comment ".length()));
        assertThat(spans.size()).isBetween(done, done + 1);
        assertThat(marked).isBetween(done, done + 1).isLessThanOrEqualTo(spans.size());
        figures.unsaid += spans.size() > done ? 1 : 0;
        figures.midway += marked < spans.size() ? 1 : 0;
    }

    private static void afterImport(Workspace workspace, int done, Figures figures) {
        List<String> annotators = workspace.read(s -> s.taggings().annotators("C-01"));
        List<String> others = workspace.read(s -> s.taggings().annotators("C-02"));
        assertThat(annotators.size()).isBetween(done, done + 1);
        // a file is taken in whole or not at all: both cases, all rows
        assertThat(others).isEqualTo(annotators);
        for (String annotator : annotators) {
            for (String code : List.of("C-01", "C-02")) {
                assertThat(new TagRecording(workspace)
                                .open(code, annotator)
                                .tagging()
                                .spans())
                        .hasSize(150);
            }
        }
        figures.unsaid += annotators.size() > done ? 1 : 0;
    }

    private static void afterSign(Workspace workspace, int done, Figures figures) {
        List<StoredRating> ratings = workspace.read(s -> s.ratings().ofCase("C-01"));
        long signed =
                ratings.stream().filter(r -> r.state() != RatingState.DRAFT).count();
        assertThat(signed).isBetween((long) done, done + 1L);
        assertThat(ratings.stream().filter(r -> r.state() == RatingState.SIGNED).count())
                .isEqualTo(Math.min(1, signed));
        // a draft of an amendment never stands without its signature
        assertThat(ratings.size() - signed).isEqualTo(signed == 0 ? 1 : 0);
        assertThat(new VerifyRatings(workspace).ofCase("C-01", false, Progress.NONE))
                .allMatch(VerifyRatings.Verified::isAsSigned);
        figures.unsaid += signed > done ? 1 : 0;
    }

    private static void afterBackup(Workspace workspace, Path place, Figures figures) throws IOException {
        KeepBackups backups = new KeepBackups(workspace, Clock.systemUTC());
        assertThat(workspace.keeping().damagedBackups(Progress.NONE)).isEmpty();
        try (Stream<Path> files = Files.list(Files.createDirectories(place.resolve("unit/backups")))) {
            figures.midway += files.anyMatch(f -> f.toString().endsWith(".part")) ? 1 : 0;
        }
        List<Path> copies = new ArrayList<>();
        backups.list().stream().limit(1).forEach(b -> copies.add(b.file()));
        Path archive = place.resolve("archive.zip");
        if (Files.exists(archive)) {
            copies.add(archive);
        }
        for (Path copy : copies) {
            KeepBackups.Restored restored =
                    KeepBackups.restore(copy, place.resolve("back-" + copies.indexOf(copy)), Progress.NONE);
            assertThat(restored.problems()).isEmpty();
            assertThat(restored.cases()).isEqualTo(2);
        }
    }

    private static void afterMigration(Path unit, List<String> said, int done, Figures figures) throws Exception {
        int began = said.stream()
                .filter(s -> s.startsWith("began "))
                .mapToInt(s -> Integer.parseInt(s.substring("began ".length())))
                .max()
                .orElse(0);
        for (int n = 0; n <= began; n++) {
            Path one = unit.resolve(Integer.toString(n));
            boolean under = Files.exists(one.resolve("sideport.db.new"));
            figures.midway += under ? 1 : 0;
            try (Workspace workspace = Workspace.open(one)) {
                StoredRating signed = workspace.read(s -> s.ratings().find(1).orElseThrow());
                assertThat(signed.state()).isEqualTo(RatingState.SIGNED);
                assertThat(signed.rating().scores()).hasSize(1);
                requireWhole(workspace);
            }
            if (n < began - 2) {
                delete(one);
            }
        }
        assertThat(began).isBetween(done, done + 1);
    }

    private static void copy(Path from, Path to) throws IOException {
        List<Path> all;
        try (Stream<Path> files = Files.walk(from)) {
            all = files.toList();
        }
        for (Path file : all) {
            Files.copy(file, to.resolve(from.relativize(file).toString()));
        }
    }

    private static void delete(Path folder) throws IOException {
        List<Path> all;
        try (Stream<Path> files = Files.walk(folder)) {
            all = files.sorted(java.util.Comparator.reverseOrder()).toList();
        }
        for (Path file : all) {
            Files.delete(file);
        }
    }
}
