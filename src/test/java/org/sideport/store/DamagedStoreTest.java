package org.sideport.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.InputException;
import org.sideport.model.SurgicalCase;

class DamagedStoreTest {

    @TempDir
    Path temp;

    private Path store;

    @BeforeEach
    void aWorkspaceWithSomeCases() {
        try (Workspace workspace = Workspace.create(temp)) {
            workspace.change(s -> {
                for (int i = 0; i < 200; i++) {
                    s.cases().add(Samples.surgicalCase("C-" + i, temp.resolve("C-" + i + ".mp4")));
                }
            });
        }
        store = temp.resolve(Workspace.STORE_FILE);
    }

    @Test
    void aStoreOfGarbageIsRefusedAndNotTouched() throws IOException {
        byte[] garbage = new byte[40_000];
        new Random(5).nextBytes(garbage);
        Files.write(store, garbage);
        refused().hasMessageContaining("put back a copy of it");
        assertThat(Files.readAllBytes(store)).isEqualTo(garbage);
    }

    @Test
    void aStoreThatWasCutShortIsRefused() throws IOException {
        byte[] whole = Files.readAllBytes(store);
        Files.write(store, Arrays.copyOf(whole, whole.length / 2));
        refused().hasMessageContaining("put back a copy of it");
    }

    @Test
    void aStoreWithoutAByteIsRefusedRatherThanTakenForANewOne() throws IOException {
        Files.write(store, new byte[0]);
        refused().hasMessageContaining("put back a copy of it");
        assertThat(store).isEmptyFile();
    }

    @Test
    void aStoreDamagedInItsMiddleIsToldOfWhenTheDamageIsMet() throws IOException {
        byte[] whole = Files.readAllBytes(store);
        // All pages but the first, which holds the head and the table of tables, and the few that the opening reads.
        Arrays.fill(whole, whole.length / 2, whole.length, (byte) 0x5a);
        Files.write(store, whole);
        assertThatThrownBy(() -> {
                    try (Workspace workspace = Workspace.open(temp)) {
                        workspace.read(s -> s.cases().all());
                    }
                })
                .isInstanceOf(InputException.class)
                .hasMessageContaining(store.toString())
                .hasMessageContaining("cannot be")
                .hasMessageContaining("put back a copy of it");
    }

    @Test
    void aStoreOfANewerProgramIsRefusedAndNotTouched() throws SQLException {
        Samples.raw(
                temp,
                "insert into flyway_schema_history (installed_rank, version, description, type, script, checksum,"
                        + " installed_by, installed_on, execution_time, success) values (999, '999', 'from the future',"
                        + " 'SQL', 'V999__from_the_future.sql', 1, '', '2030-01-01 00:00:00', 1, 1)");
        refused().hasMessageContaining("newer Sideport");
        assertThat(Samples.rawText(temp, "select count(*) from surgical_case")).isEqualTo("200");
    }

    @Test
    void aRefusedStoreIsNotHeldBackFromOthers() throws IOException {
        byte[] whole = Files.readAllBytes(store);
        Files.write(store, new byte[5000]);
        refused();
        Files.write(store, whole);
        try (Workspace mended = Workspace.open(temp)) {
            assertThat(mended.<List<SurgicalCase>>read(s -> s.cases().all())).hasSize(200);
        }
    }

    private org.assertj.core.api.AbstractThrowableAssert<?, ? extends Throwable> refused() {
        return assertThatThrownBy(() -> Workspace.open(temp).close())
                .isInstanceOf(InputException.class)
                .hasMessageContaining(store.toString());
    }
}
