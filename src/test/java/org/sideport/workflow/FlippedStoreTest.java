package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.model.RatingState;
import org.sideport.store.DamagedStoreException;
import org.sideport.store.StoredRating;
import org.sideport.store.Workspace;
import org.sideport.workflow.upkeep.CheckWorkspace;
import org.sideport.workflow.upkeep.KeepBackups;

/**
 * A store with bits flipped or its end cut off, at many places: it is refused with the way to the last backup, or the check
 * finds it, or what was signed is untouched. No expected number: what was signed before is compared with what is read after.
 */
class FlippedStoreTest {

    private static final int PAGE = 4096;

    @TempDir
    Path temp;

    private Path unit;
    private Path store;
    private Path backup;
    private byte[] whole;
    private List<StoredRating> signed;

    @BeforeEach
    void aWorkspaceWithSignedWorkAndABackup() throws IOException {
        unit = temp.resolve("unit");
        store = unit.resolve(Workspace.STORE_FILE);
        try (Workspace workspace = Workspace.create(unit)) {
            MarkCase marking = new MarkCase(workspace);
            for (int i = 0; i < 12; i++) {
                Unit.addCase(workspace, "C-" + i);
                marking.rate("C-" + i, Unit.rating("A1", false));
                marking.sign("C-" + i, Unit.RUBRIC.id(), "A1", false);
            }
            backup = new KeepBackups(workspace, Clock.systemUTC())
                    .now(Progress.NONE)
                    .file();
            signed = read(workspace);
        }
        whole = Files.readAllBytes(store);
    }

    private static List<StoredRating> read(Workspace workspace) {
        return workspace.read(s -> s.ratings().all().stream()
                .filter(r -> r.state() != RatingState.DRAFT)
                .toList());
    }

    @Test
    void aStoreThatWasCutAnywhereIsRefusedWithTheWayToTheLastBackup() throws IOException {
        Random random = new Random(3);
        for (int i = 0; i < 40; i++) {
            int length = i < 10 ? i * 20 : random.nextInt(whole.length);
            Files.write(store, Arrays.copyOf(whole, length));
            byte[] cut = Files.readAllBytes(store);
            try {
                Workspace.open(unit).close();
                throw new AssertionError("a store of " + length + " of " + whole.length + " bytes was opened");
            } catch (DamagedStoreException e) {
                assertThat(e).hasMessageContaining(backup.toString()).hasMessageContaining("workspace restore");
            }
            assertThat(Files.readAllBytes(store)).isEqualTo(cut);
        }
        KeepBackups.Restored back = KeepBackups.restore(backup, temp.resolve("back"), Progress.NONE);
        assertThat(back.problems()).isEmpty();
        try (Workspace workspace = Workspace.open(temp.resolve("back"))) {
            assertThat(read(workspace)).isEqualTo(signed);
        }
    }

    @Test
    void aFlippedBitNeverChangesSignedWorkUnseen() throws IOException {
        flip(40, 8);
    }

    @Test
    @Tag("slow")
    void aThousandFlippedBitsNeverChangeSignedWorkUnseen() throws IOException {
        flip(1000, 1000);
    }

    private void flip(int times, long seed) throws IOException {
        Random random = new Random(seed);
        int refused = 0;
        int found = 0;
        int harmless = 0;
        for (int i = 0; i < times; i++) {
            byte[] bytes = whole.clone();
            // one in four hits the first page, which holds the head and the table of tables
            int at = random.nextInt(i % 4 == 0 ? PAGE : bytes.length);
            bytes[at] ^= (byte) (1 << random.nextInt(8));
            Files.deleteIfExists(unit.resolve("sideport.db-wal"));
            Files.deleteIfExists(unit.resolve("sideport.db-shm"));
            Files.write(store, bytes);
            try (Workspace workspace = Workspace.open(unit)) {
                if (!new CheckWorkspace(workspace)
                        .run(false, null, Progress.NONE)
                        .isWhole()) {
                    found++;
                } else {
                    assertThat(read(workspace)).as("bit flipped at byte " + at).isEqualTo(signed);
                    harmless++;
                }
            } catch (InputException e) {
                refused++;
            }
        }
        System.out.println("of " + times + " flipped bits: refused " + refused + ", found by the check " + found
                + ", without effect on what was signed " + harmless);
        assertThat(refused + found).isPositive();
    }
}
