package org.sideport.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.InputException;
import org.sideport.model.Progress;

class BackupsTest {

    private static final Instant NOW = Instant.parse("2026-03-09T10:00:00Z");

    @TempDir
    Path temp;

    /** Worked by hand on a calendar of 2026 (1 January 2026 is a Thursday): ISO weeks begin on Mondays. */
    @Test
    void ofABackupADayForHalfAYearSevenDaysFourWeeksAndSixMonthsStay() {
        List<Instant> made = new ArrayList<>();
        for (LocalDate day = LocalDate.of(2025, 9, 1); !day.isAfter(LocalDate.of(2026, 3, 11)); day = day.plusDays(1)) {
            made.add(day.atTime(9, 0).toInstant(ZoneOffset.UTC));
        }
        // Wednesday 11 March back to Thursday 5 March; Sundays 8 March, 1 March, 22 February; ends of months
        assertThat(BackupRotation.USUAL.keep(made))
                .extracting(at -> LocalDate.ofInstant(at, ZoneOffset.UTC).toString())
                .containsExactlyInAnyOrder(
                        "2026-03-11",
                        "2026-03-10",
                        "2026-03-09",
                        "2026-03-08",
                        "2026-03-07",
                        "2026-03-06",
                        "2026-03-05",
                        "2026-03-01",
                        "2026-02-22",
                        "2026-02-28",
                        "2026-01-31",
                        "2025-12-31",
                        "2025-11-30",
                        "2025-10-31");
    }

    @Test
    void ofSeveralOnADayTheLastStays() {
        Set<Instant> kept = BackupRotation.USUAL.keep(
                List.of(NOW, NOW.plusSeconds(60), NOW.plusSeconds(120), NOW.minusSeconds(60)));
        assertThat(kept).containsExactly(NOW.plusSeconds(120));
    }

    @Test
    void aBackupHoldsTheSameAndIsMadeWhileTheStoreIsOpen() {
        try (Workspace workspace = Workspace.create(temp.resolve("unit"))) {
            workspace.change(s -> s.cases().add(Samples.surgicalCase("C-01")));
            StoreBackup made = workspace.keeping().backUp(NOW, Progress.NONE);
            workspace.change(s -> s.cases().add(Samples.surgicalCase("C-02")));
            assertThat(made.file()).isEqualTo(temp.resolve("unit/backups/sideport-20260309T100000000Z.db"));
            assertThat(workspace.keeping().backups()).containsExactly(made);
            assertThat(workspace.keeping().damagedBackups(Progress.NONE)).isEmpty();
            RestoreArchive.restore(made.file(), temp.resolve("back"), Progress.NONE);
        }
        try (Workspace back = Workspace.open(temp.resolve("back"))) {
            assertThat(back.<List<?>>read(s -> s.cases().all())).isEqualTo(List.of(Samples.surgicalCase("C-01")));
            assertThat(back.keeping().auditFaults()).isEmpty();
        }
    }

    @Test
    void aBackupThatWasAlteredIsFound() throws IOException {
        try (Workspace workspace = Workspace.create(temp)) {
            StoreBackup made = workspace.keeping().backUp(NOW, Progress.NONE);
            byte[] bytes = Files.readAllBytes(made.file());
            bytes[bytes.length / 2] ^= 1;
            Files.write(made.file(), bytes);
            assertThat(workspace.keeping().damagedBackups(Progress.NONE)).containsExactly(made);
        }
    }

    @Test
    void aNewWorkspaceNeedsNoneYetThenOneADay() {
        try (Workspace workspace = Workspace.create(temp)) {
            Instant now = Instant.now();
            StoreKeeping keeping = workspace.keeping();
            assertThat(keeping.backUpIfDue(now.plus(Duration.ofHours(23)), Progress.NONE))
                    .isNull();
            assertThat(keeping.backUpIfDue(now.plus(Duration.ofHours(25)), Progress.NONE))
                    .isNotNull();
            assertThat(keeping.backUpIfDue(now.plus(Duration.ofHours(40)), Progress.NONE))
                    .isNull();
            assertThat(keeping.backUpIfDue(now.plus(Duration.ofHours(50)), Progress.NONE))
                    .isNotNull();
        }
    }

    @Test
    void aClockThatWasPutBackKeepsNoBackupFromBeingMade() {
        try (Workspace workspace = Workspace.create(temp)) {
            StoreKeeping keeping = workspace.keeping();
            Instant wrong = Instant.now().plus(Duration.ofDays(3000));
            keeping.backUp(wrong, Progress.NONE);
            assertThat(keeping.backUpIfDue(Instant.now(), Progress.NONE)).isNotNull();
            // two in the same millisecond do not write over each other
            keeping.backUp(NOW, Progress.NONE);
            keeping.backUp(NOW, Progress.NONE);
            assertThat(keeping.backups())
                    .isSortedAccordingTo(Comparator.comparing(StoreBackup::at).reversed());
        }
    }

    @Test
    void whatAKilledProgramLeftIsSweptAway() throws IOException {
        try (Workspace workspace = Workspace.create(temp)) {
            Path folder = Files.createDirectories(temp.resolve("backups"));
            Path half = Files.writeString(folder.resolve("sideport-20260309T090000000Z.db.part"), "half");
            Path alone = Files.writeString(folder.resolve("sideport-20260309T090000000Z.db.txt"), "alone");
            Path other = Files.writeString(folder.resolve("notes.odt"), "of somebody");
            Files.setLastModifiedTime(other, FileTime.from(Instant.EPOCH));
            workspace.keeping().backUp(NOW, Progress.NONE);
            assertThat(half).doesNotExist();
            assertThat(alone).doesNotExist();
            assertThat(other).exists();
        }
    }

    @Test
    void aFolderThatHoldsSomethingIsNotRestoredInto() throws IOException {
        Path archive = temp.resolve("unit.zip");
        try (Workspace workspace = Workspace.create(temp.resolve("unit"))) {
            workspace.keeping().writeArchive(archive, "0", NOW, Progress.NONE);
        }
        Path full = Files.createDirectories(temp.resolve("full"));
        Files.writeString(full.resolve("letter.txt"), "dear");
        assertThatThrownBy(() -> RestoreArchive.restore(archive, full, Progress.NONE))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("there is something in this folder already");
        try (var entries = Files.list(full)) {
            assertThat(entries).hasSize(1);
        }
    }
}
