package org.sideport.app.cases;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.apache.poi.ss.usermodel.CellType;
import org.apache.poi.ss.usermodel.Workbook;
import org.apache.poi.ss.usermodel.WorkbookFactory;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.Bench;
import org.sideport.model.ItemScore;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;
import org.sideport.model.Segment;
import org.sideport.player.DemoRecordings;
import org.sideport.rubric.ShippedRubrics;
import org.sideport.workflow.CaseList;
import org.sideport.workflow.EditCase;
import org.sideport.workflow.ImportRecording;
import org.sideport.workflow.MarkCase;
import org.sideport.workflow.Vocabularies;
import org.sideport.workflow.WriteWorkbook;
import org.sideport.workflow.handout.WriteFeedback;

class CasesViewModelTest {

    @TempDir
    Path folder;

    private Bench bench;
    private CasesViewModel model;
    private final Set<String> stated = new HashSet<>();

    @BeforeEach
    void open() {
        bench = new Bench(folder.resolve("ws"));
        model = new CasesViewModel(
                new CaseList(bench.workspace),
                new EditCase(bench.workspace),
                new WriteWorkbook(bench.workspace),
                (trainee, procedure) -> stated.contains(trainee),
                new WriteFeedback(bench.workspace),
                bench.work,
                bench.notices,
                bench.texts,
                LocalDate.of(2026, 5, 6));
    }

    @AfterEach
    void close() {
        bench.close();
    }

    private AddCaseViewModel adding(List<String> added) {
        return new AddCaseViewModel(
                new ImportRecording(bench.workspace),
                new Vocabularies(bench.workspace),
                bench.work,
                bench.texts,
                LocalDate.of(2026, 5, 6),
                made -> added.add(made.code()));
    }

    private static List<String> names(AddCaseViewModel adding) {
        return adding.files().stream()
                .map(Segment::file)
                .map(file -> file.getFileName().toString())
                .toList();
    }

    @Test
    void everyWordOfTheFilterMustOccur() {
        Bench.addCase(bench.workspace, "C-1");
        Bench.addCase(bench.workspace, "C-2");
        model.refresh();
        assertThat(model.shown()).hasSize(2);

        model.wordsProperty().set("t02 c-2");
        assertThat(model.shown()).extracting(overview -> overview.code()).containsExactly("C-2");
        model.wordsProperty().set("t02 nobody");
        assertThat(model.shown()).isEmpty();
    }

    @Test
    void theSelectionOutlivesARefresh() {
        Bench.addCase(bench.workspace, "C-1");
        model.refresh();
        model.select("C-1");
        Bench.addCase(bench.workspace, "C-0");
        model.refresh();

        assertThat(model.selectedProperty().get().code()).isEqualTo("C-1");
    }

    @Test
    void anEmptyStoreHasNothingToExportAndSaysSo() {
        model.refresh();
        assertThat(model.whyNoExportProperty().get()).isNotEmpty();

        Bench.addCase(bench.workspace, "C-1");
        model.refresh();
        assertThat(model.whyNoExportProperty().get()).isEmpty();
        Path file = folder.resolve("out.xlsx");
        model.export(file, false);
        assertThat(Files.exists(file)).isTrue();
    }

    @Test
    void whatWasStatedOfTheLogsReachesTheWorkbookAndOneToBePassedOnHasNoCases() throws IOException {
        Bench.addCase(bench.workspace, "C-1");
        Path file = folder.resolve("out.xlsx");
        model.export(file, false);
        assertThat(texts(file)).contains("C-1").anyMatch(text -> text.contains("nobody has stated"));
        stated.add("T02");
        model.export(file, false);
        assertThat(texts(file)).contains("C-1").noneMatch(text -> text.contains("nobody has stated"));
        model.export(file, true);
        assertThat(texts(file)).isNotEmpty().doesNotContain("C-1");
    }

    private static List<String> texts(Path file) throws IOException {
        List<String> all = new ArrayList<>();
        try (Workbook book = WorkbookFactory.create(file.toFile(), null, true)) {
            book.forEach(sheet -> sheet.forEach(row -> row.forEach(cell -> {
                if (cell.getCellType() == CellType.STRING) {
                    all.add(cell.getStringCellValue());
                }
            })));
        }
        return all;
    }

    @Test
    void feedbackIsWrittenOnceAnAssessorHasSigned() {
        Bench.addCase(bench.workspace, "C-1");
        Path file = folder.resolve("C-1.html");
        model.exportFeedback("C-1", file);
        assertThat(file).doesNotExist();

        Rubric rubric = ShippedRubrics.phacoCompetency();
        MarkCase marks = new MarkCase(bench.workspace);
        marks.rate(
                "C-1",
                new Rating(
                        rubric.id(),
                        rubric.version(),
                        "A1",
                        false,
                        false,
                        rubric.items().stream()
                                .<ItemScore>map(item -> new ItemScore.Marked(item.id(), 3, ""))
                                .toList(),
                        "calm hands"));
        marks.sign("C-1", rubric.id(), "A1", false);
        model.exportFeedback("C-1", file);
        assertThat(file).content().contains("calm hands");
        assertThat(model.exportingProperty().get())
                .as("no bar is left standing")
                .isNaN();
    }

    @Test
    void filesComeInNaturalOrderAndCanBeReordered() {
        AddCaseViewModel adding = adding(new ArrayList<>());
        adding.addFiles(List.of(DemoRecordings.file("D-001_part10.mp4"), DemoRecordings.file("D-001_part9.mp4")));
        assertThat(names(adding)).containsExactly("D-001_part9.mp4", "D-001_part10.mp4");

        adding.move(adding.files().get(1), -1);
        assertThat(names(adding)).containsExactly("D-001_part10.mp4", "D-001_part9.mp4");
        adding.remove(adding.files().get(0));
        assertThat(names(adding)).containsExactly("D-001_part9.mp4");
    }

    @Test
    void aCaseIsAddedOnceItHasItsCodes() {
        List<String> added = new ArrayList<>();
        AddCaseViewModel adding = adding(added);
        assertThat(adding.whyNotProperty().get()).isEqualTo("Give the case a code");
        adding.codeProperty().set("C-7");
        adding.save();
        assertThat(added).isEmpty();

        adding.traineeProperty().set("T07");
        adding.descriptors().put("eye", "right");
        adding.addFiles(List.of(DemoRecordings.file("D-002.mp4")));
        assertThat(adding.whyNotProperty().get()).isEmpty();
        adding.save();

        assertThat(added).containsExactly("C-7");
        var stored = new CaseList(bench.workspace).one("C-7").surgicalCase();
        assertThat(stored.trainee()).isEqualTo("T07");
        assertThat(stored.descriptors()).containsEntry("eye", "right");
        assertThat(stored.recording().segments().get(0).frames()).isEqualTo(2195); // by D-002-truth.json
    }

    @Test
    void aCodeThatIsTakenIsRefusedInWords() {
        Bench.addCase(bench.workspace, "C-1");
        List<String> added = new ArrayList<>();
        AddCaseViewModel adding = adding(added);
        adding.codeProperty().set("C-1");
        adding.traineeProperty().set("T07");
        adding.save();

        assertThat(added).isEmpty();
        assertThat(adding.problemProperty().get().text()).contains("C-1");
    }

    @Test
    void aFileThatIsNoVideoIsRefusedInWords() throws Exception {
        Path text = Files.writeString(folder.resolve("notes.mp4"), "not a video");
        AddCaseViewModel adding = adding(new ArrayList<>());
        adding.addFiles(List.of(text));

        assertThat(adding.files()).isEmpty();
        assertThat(adding.problemProperty().get().text()).contains("notes.mp4");
        assertThat(adding.isMeasuring()).isFalse();
    }
}
