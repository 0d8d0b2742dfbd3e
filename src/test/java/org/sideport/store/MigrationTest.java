package org.sideport.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.Statement;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.model.RatingSeal;
import org.sideport.model.RatingState;
import org.sqlite.SQLiteConfig.JournalMode;

class MigrationTest {

    @TempDir
    Path temp;

    private Path unit;

    @BeforeEach
    void anOlderWorkspace() throws Exception {
        unit = Files.createDirectories(temp.resolve("unit"));
        OldStore.makeWithRatings(unit, Samples.RUBRIC, "1.0.0", Samples.RUBRIC_TEXT);
    }

    private List<String> names(Path folder) throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.map(f -> String.valueOf(f.getFileName())).sorted().toList();
        }
    }

    @Test
    void anOlderWorkspaceIsCopiedFirstThenBroughtUpToDate() throws Exception {
        Workspace.open(unit).close();
        List<String> kept = names(unit.resolve("backups"));
        assertThat(kept).hasSize(2);
        assertThat(kept.get(0)).matches("sideport-\\d{8}T\\d{9}Z-before-update-from-9\\.db");
        // the copy is the old one: it knows no seals
        Path copy = Files.createDirectories(temp.resolve("copy"));
        Files.copy(unit.resolve("backups").resolve(kept.get(0)), copy.resolve("sideport.db"));
        assertThat(Samples.rawText(copy, "select count(*) from sqlite_master where name = 'rating_seal'"))
                .isEqualTo("0");
        assertThat(Samples.rawText(copy, "select comment from item_score")).isEqualTo("old");
        assertThat(names(unit)).doesNotContain("sideport.db.new");
        // and none is made again
        Workspace.open(unit).close();
        assertThat(names(unit.resolve("backups"))).hasSize(2);
    }

    @Test
    void whatWasSignedBeforeSealsIsSealedLateAndSaysSo() {
        try (Workspace workspace = Workspace.open(unit)) {
            RatingSeal seal = workspace.read(s -> s.seals().find(1).orElseThrow());
            assertThat(seal.late()).isTrue();
            assertThat(workspace.<List<?>>read(
                            s -> s.seals().compare(s.ratings().find(1).orElseThrow())))
                    .isEmpty();
            assertThat(workspace.<Boolean>read(s -> s.seals().find(2).isPresent()))
                    .isFalse();
            assertThat(workspace.keeping().auditFaults()).isEmpty();
        }
    }

    @Test
    void anUpdateThatFailsLeavesTheOldStoreAsItWas() throws Exception {
        Path migrations = Files.createDirectories(temp.resolve("migrations"));
        Files.writeString(migrations.resolve("V500__good.sql"), "create table fresh (id integer);");
        Files.writeString(migrations.resolve("V501__bad.sql"), "insert into fresh values (1); select * from nowhere;");
        byte[] before = Files.readAllBytes(unit.resolve("sideport.db"));
        SqliteStore failing = new SqliteStore(
                unit.resolve("sideport.db"),
                "classpath:org/sideport/store/migration/common",
                "classpath:org/sideport/store/migration/sqlite",
                "filesystem:" + migrations);
        assertThatThrownBy(failing::open)
                .isInstanceOf(InputException.class)
                .hasMessageContaining("could not be brought up to date from version 9")
                .hasMessageContaining("it stands as it was");
        assertThat(Files.readAllBytes(unit.resolve("sideport.db"))).isEqualTo(before);
        assertThat(names(unit)).noneMatch(n -> n.contains(".new"));
        // the program that knows the way goes on with it
        try (Workspace workspace = Workspace.open(unit)) {
            assertThat(workspace.<RatingState>read(
                            s -> s.ratings().find(1).orElseThrow().state()))
                    .isEqualTo(RatingState.SIGNED);
        }
    }

    @Test
    void aStoreThatWasHeldAgainstTheMigrationsIsKnownByItsHeadUntilAnybodyChangesTheirList() throws Exception {
        String common = "classpath:org/sideport/store/migration/common";
        String sqlite = "classpath:org/sideport/store/migration/sqlite";
        SchemaStamp ours = SchemaStamp.of(common, sqlite);
        Path file = unit.resolve("sideport.db");
        try (Connection store = SqliteStore.source(file, JournalMode.WAL).getConnection()) {
            assertThat(ours.isOn(store)).isFalse();
        }
        Workspace.open(unit).close();
        try (Connection store = SqliteStore.source(file, JournalMode.WAL).getConnection();
                Statement statement = store.createStatement()) {
            assertThat(ours.isOn(store)).isTrue();
            assertThat(SchemaStamp.of(common).isOn(store)).isFalse();
            assertThat(SchemaStamp.of(common, sqlite, "filesystem:elsewhere").isOn(store))
                    .isFalse();
            statement.execute("update flyway_schema_history set checksum = checksum + 1 where installed_rank = 3");
            assertThat(ours.isOn(store)).isFalse();
        }
        assertThatThrownBy(() -> Workspace.open(unit)).isInstanceOf(InputException.class);
    }

    @Test
    void whatAKilledUpdateLeftIsRemovedAndTheUpdateIsMadeAnew() throws Exception {
        Files.write(unit.resolve("sideport.db.new"), new byte[5000]);
        Files.write(unit.resolve("sideport.db.new-journal"), new byte[100]);
        try (Workspace workspace = Workspace.open(unit)) {
            assertThat(workspace.<Boolean>read(s -> s.seals().find(1).isPresent()))
                    .isTrue();
        }
        assertThat(names(unit)).noneMatch(n -> n.contains(".new"));
    }

    @Test
    void aBackupOfAnOlderWorkspaceIsRestoredAndBroughtUpToDate() throws Exception {
        Workspace.open(unit).close();
        Path backup =
                unit.resolve("backups").resolve(names(unit.resolve("backups")).get(0));
        RestoreArchive.restore(backup, temp.resolve("back"), Progress.NONE);
        try (Workspace workspace = Workspace.open(temp.resolve("back"))) {
            assertThat(workspace.<Boolean>read(s -> s.cases().exists("C-01"))).isTrue();
            assertThat(workspace.keeping().auditFaults()).isEmpty();
        }
    }
}
