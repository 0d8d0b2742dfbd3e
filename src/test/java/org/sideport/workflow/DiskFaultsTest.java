package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.store.Workspace;
import org.sideport.workflow.upkeep.CheckWorkspace;
import org.sideport.workflow.upkeep.KeepBackups;
import org.sideport.workflow.upkeep.VerifyRatings;

/** A disk that is really full, and one that may really not be written: small file systems in memory (Linux, root only). */
@Timeout(120)
class DiskFaultsTest {

    @TempDir
    Path temp;

    private Path mounted;

    @AfterEach
    void unmount() throws Exception {
        if (mounted != null) {
            run("umount", "-l", mounted.toString());
        }
    }

    private Path mount(String options) throws Exception {
        Path place = Files.createDirectories(temp.resolve("disk"));
        assumeTrue(
                run("mount", "-t", "tmpfs", "-o", options, "tmpfs", place.toString()) == 0,
                "only the superuser may mount a small disk here");
        mounted = place;
        return place;
    }

    private static int run(String... command) throws Exception {
        try {
            Process process = new ProcessBuilder(command)
                    .redirectErrorStream(true)
                    .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                    .start();
            return process.waitFor(30, TimeUnit.SECONDS) ? process.exitValue() : -1;
        } catch (IOException e) {
            return -1;
        }
    }

    private static void sign(Workspace workspace, String code) {
        Unit.addCase(workspace, code);
        MarkCase marking = new MarkCase(workspace);
        marking.rate(code, Unit.rating("A1", false));
        marking.sign(code, Unit.RUBRIC.id(), "A1", false);
    }

    private static void fill(Path disk) throws IOException {
        byte[] block = new byte[4096];
        try (var out = Files.newOutputStream(disk.resolve("filler"))) {
            while (true) {
                out.write(block);
            }
        } catch (IOException e) {
            assertThat(e).hasMessageContaining("No space left");
        }
    }

    @Test
    void aFullDiskIsSaidNothingSignedIsLostAndWorkGoesOnOnceThereIsRoom() throws Exception {
        Path disk = mount("size=24m");
        Path unit = disk.resolve("unit");
        int stored = 1;
        try (Workspace workspace = Workspace.create(unit)) {
            sign(workspace, "C-0");
            fill(disk);
            // what room the log of SQLite has left may still take some
            InputException full = null;
            while (full == null) {
                try {
                    Unit.addCase(workspace, "C-" + stored);
                    stored++;
                } catch (InputException e) {
                    full = e;
                }
            }
            assertThat(full).hasMessageContaining("nothing was saved").hasMessageContaining("full");
            assertThat(stored).isLessThan(100_000);
            // no backup is begun where it has no room, and nothing is left of it
            assertThatThrownBy(() -> new KeepBackups(workspace, Clock.systemUTC()).now(Progress.NONE))
                    .isInstanceOf(InputException.class);
            Files.delete(disk.resolve("filler"));
            assertThat(new VerifyRatings(workspace).ofCase("C-0", false, Progress.NONE))
                    .allMatch(VerifyRatings.Verified::isAsSigned)
                    .hasSize(1);
            sign(workspace, "after");
        }
        try (Workspace workspace = Workspace.open(unit)) {
            assertThat(new CheckWorkspace(workspace)
                            .run(false, null, Progress.NONE)
                            .findings())
                    .isEmpty();
            assertThat(new CaseList(workspace).all()).hasSize(stored + 1);
        }
    }

    @Test
    void aBackupThatWouldFillTheDiskIsNotBegun() throws Exception {
        Path disk = mount("size=16m");
        try (Workspace workspace = Workspace.create(disk.resolve("unit"))) {
            sign(workspace, "C-0");
            assertThatThrownBy(() -> new KeepBackups(workspace, Clock.systemUTC()).now(Progress.NONE))
                    .isInstanceOf(InputException.class)
                    .hasMessageContaining("there is no room for a copy of the store")
                    .hasMessageContaining("MB are free");
            try (var files = Files.list(disk.resolve("unit/backups"))) {
                assertThat(files).isEmpty();
            }
        }
    }

    @Test
    void aDiskThatMayOnlyBeReadIsSaidAndWhatIsOnItStaysAsItIs() throws Exception {
        Path disk = mount("size=24m");
        Path unit = disk.resolve("unit");
        try (Workspace workspace = Workspace.create(unit)) {
            sign(workspace, "C-0");
        }
        byte[] before = Files.readAllBytes(unit.resolve(Workspace.STORE_FILE));
        assumeTrue(run("mount", "-o", "remount,ro", disk.toString()) == 0, "the disk cannot be mounted again");
        assertThatThrownBy(() -> Workspace.open(unit).close())
                .isInstanceOf(InputException.class)
                .hasMessageContaining(unit.toString())
                .hasMessageContaining("check that the folder may be written to");
        assertThat(Files.readAllBytes(unit.resolve(Workspace.STORE_FILE))).isEqualTo(before);
        assertThat(run("mount", "-o", "remount,rw", disk.toString())).isZero();
        try (Workspace workspace = Workspace.open(unit)) {
            assertThat(new VerifyRatings(workspace).ofCase("C-0", false, Progress.NONE))
                    .allMatch(VerifyRatings.Verified::isAsSigned);
        }
    }

    @Test
    void aDiskThatTurnsReadOnlyWhileOneIsAtWorkLosesNothingThatWasSaved() throws Exception {
        Path disk = mount("size=24m");
        Path unit = disk.resolve("unit");
        try (Workspace workspace = Workspace.create(unit)) {
            sign(workspace, "C-0");
            // a lazy remount is refused while files are open for writing: the folder is then made unwritable by a bind
            // mount
            boolean turned = run("mount", "-o", "remount,ro", disk.toString()) == 0;
            assumeTrue(turned, "the system does not turn a disk that is in use");
            assertThatThrownBy(() -> Unit.addCase(workspace, "C-1"))
                    .isInstanceOf(InputException.class)
                    .hasMessageContaining("nothing was saved");
            run("mount", "-o", "remount,rw", disk.toString());
        }
        try (Workspace workspace = Workspace.open(unit)) {
            assertThat(workspace.<List<?>>read(s -> s.cases().all())).hasSize(1);
        }
    }

    /** Ratings and audit lines keep the order in which they were made, whatever the clock said. */
    @Test
    void aClockThatGoesBackwardsLeavesTheNewestAmendmentInForce() {
        try (Workspace workspace = Workspace.create(temp.resolve("unit"))) {
            Unit.addCase(workspace, "C-0");
            MarkCase marking = new MarkCase(workspace);
            marking.rate("C-0", Unit.rating("A1", false));
            long first = workspace.write(s -> {
                long id = s.ratings().ofCase("C-0").get(0).id();
                s.ratings().sign(id, Instant.parse("2031-01-01T00:00:00Z"));
                return id;
            });
            String item = Unit.RUBRIC.items().get(0).id();
            MarkCase.Rated second =
                    marking.amend("C-0", Unit.withPoints(Unit.rating("A1", false), item, 4), "seen again");
            assertThat(second.id()).isGreaterThan(first);
            assertThat(new VerifyRatings(workspace).ofCase("C-0", false, Progress.NONE))
                    .extracting(VerifyRatings.Verified::id)
                    .containsExactly(first, second.id());
            assertThat(new CheckWorkspace(workspace)
                            .run(false, null, Progress.NONE)
                            .isWhole())
                    .isTrue();
        }
    }
}
