package org.sideport.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.model.Rating;
import org.sideport.model.RatingState;
import org.sideport.report.workbook.CompetencyWorkbook;
import org.sideport.report.workbook.Unit;
import org.sideport.report.workbook.WorkbookData;
import org.sideport.report.workbook.WorkbookData.CaseRating;
import org.sideport.rubric.ShippedRubrics;

class AtomicFileTest {

    @TempDir
    Path folder;

    private Path old;

    @BeforeEach
    void anOldFileStandsThere() throws IOException {
        old = folder.resolve("old.xlsx");
        Files.writeString(old, "old content");
    }

    private void assertNothingChanged() throws IOException {
        assertThat(old).hasContent("old content");
        try (Stream<Path> files = Files.list(folder)) {
            assertThat(files).containsExactly(old);
        }
    }

    @Test
    void theNewFileTakesTheOldOnesPlace() throws IOException {
        AtomicFile.write(old, out -> out.write("new".getBytes(StandardCharsets.UTF_8)));

        assertThat(old).hasContent("new");
        try (Stream<Path> files = Files.list(folder)) {
            assertThat(files).containsExactly(old);
        }
    }

    @Test
    void aFailureHalfWayLeavesTheOldFile() throws IOException {
        assertThatThrownBy(() -> AtomicFile.write(old, out -> {
                    out.write(new byte[100_000]);
                    throw new IOException("No space left on device");
                }))
                .isInstanceOf(InputException.class)
                .hasMessageStartingWith(old.toString())
                .hasMessageContaining("No space left on device")
                .hasMessageContaining("check that the disk has room");
        assertNothingChanged();
    }

    @Test
    void cancellingAtAnyPointLeavesTheOldFile() throws IOException {
        WorkbookData data = Unit.of(1, 6);
        List<Double> reports = new ArrayList<>();
        CompetencyWorkbook.write(data, folder.resolve("whole.xlsx"), (fraction, message) -> reports.add(fraction));
        Files.delete(folder.resolve("whole.xlsx"));
        assertThat(reports).isSorted().last().isEqualTo(1.0);

        for (int stopAfter = 1; stopAfter < reports.size(); stopAfter += 3) {
            int stop = stopAfter;
            Progress impatient = new Progress() {
                private int seen;

                @Override
                public void report(double fraction, String message) {
                    seen++;
                }

                @Override
                public boolean isCancelled() {
                    return seen >= stop;
                }
            };
            assertThatThrownBy(() -> CompetencyWorkbook.write(data, old, impatient))
                    .isInstanceOf(CancellationException.class);
            assertNothingChanged();
        }
    }

    @Test
    void aRatingThatDoesNotFitItsRubricLeavesTheOldFile() throws IOException {
        var rubric = ShippedRubrics.phacoCompetency();
        WorkbookData data = Unit.data(
                List.of(),
                List.of(new CaseRating(
                        "c",
                        new Rating(rubric.id(), "0.9.0", "A1", false, false, List.of(), ""),
                        rubric,
                        RatingState.DRAFT,
                        null,
                        "")),
                List.of());

        assertThatThrownBy(() -> CompetencyWorkbook.write(data, old, Progress.NONE))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("0.9.0");
        assertNothingChanged();
    }

    @Test
    void placesThatCannotTakeAFileAreRefusedWithARemedy() throws IOException {
        WorkbookData data = Unit.of(1, 1);
        Path nowhere = folder.resolve("none").resolve("new.xlsx");
        Path isFolder = Files.createDirectory(folder.resolve("folder.xlsx"));

        assertThatThrownBy(() -> CompetencyWorkbook.write(data, nowhere, Progress.NONE))
                .isInstanceOf(InputException.class)
                .hasMessageContaining(nowhere.getParent().toString())
                .hasMessageContaining("there is no such folder — create it");
        assertThatThrownBy(() -> CompetencyWorkbook.write(data, isFolder, Progress.NONE))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("this is a folder");
        assertThatThrownBy(() -> CompetencyWorkbook.write(data, folder.resolve("new.xls"), Progress.NONE))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("add .xlsx");
        Files.delete(isFolder);
        assertNothingChanged();
    }

    @Test
    void aFileThatIsOpenInASpreadsheetProgramIsRefused() throws IOException {
        Path lock = folder.resolve(".~lock.old.xlsx#");
        Files.createFile(lock);

        assertThatThrownBy(() -> CompetencyWorkbook.write(Unit.of(1, 1), old, Progress.NONE))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("seems to be open")
                .hasMessageContaining(".~lock.old.xlsx#");
        Files.delete(lock);
        assertNothingChanged();
    }

    @Test
    void aLinkKeepsPointingAtTheFileThatIsReplaced() throws IOException {
        Path link = Files.createSymbolicLink(folder.resolve("link.xlsx"), old);
        AtomicFile.write(link, out -> out.write("new".getBytes(StandardCharsets.UTF_8)));

        assertThat(Files.isSymbolicLink(link)).isTrue();
        assertThat(old).hasContent("new");
    }
}
