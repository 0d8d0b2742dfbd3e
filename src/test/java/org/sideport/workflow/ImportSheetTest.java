package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.CellStyle;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.ConsentState;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.model.SurgicalCase;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;

/** Sheets as people write them, and as they get them wrong. */
class ImportSheetTest {

    private static final Path RECORDING = Path.of(System.getProperty("sideport.home", "."), "demo-data", "D-002.mp4")
            .toAbsolutePath();

    @TempDir
    Path folder;

    private Workspace workspace;
    private ImportSheet job;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(folder.resolve("ws"));
        job = new ImportSheet(workspace, LocalDate.of(2026, 5, 6));
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private ImportSheet.Plan plan(String... lines) throws IOException {
        Path sheet = folder.resolve("sheet.csv");
        Files.write(sheet, List.of(lines), StandardCharsets.UTF_8);
        return job.plan(sheet, Progress.NONE);
    }

    private List<SurgicalCase> stored() {
        return workspace.read(stores -> stores.cases().all());
    }

    @Test
    void aWholeSheetIsTakenInWithFilesDescriptorsAndConsent() throws Exception {
        Files.copy(RECORDING, folder.resolve("D-002.mp4"));
        ImportSheet.Plan plan = plan(
                "code,trainee,date,procedure,files,nuclear_grade,Ultrasound time (s),risk_factors,consent,consent for,"
                        + "consent by,consent date,review by",
                "C-1,T01,2026-03-09,phaco,D-002.mp4,2.5,42,glaucoma;unable to lie flat,given,assessment;teaching,A1,"
                        + "2026-03-01,2027-03-09",
                "C-2,T02,2026-03-10,,,,,,,,,,");
        assertThat(plan.faults()).isEmpty();
        assertThat(stored()).as("planned only").isEmpty();

        job.store(plan, false);
        SurgicalCase first = stored().get(0);
        assertThat(first.descriptors())
                .containsExactlyInAnyOrderEntriesOf(Map.of(
                        "nuclear_grade", "2.5",
                        "ultrasound_time", "42",
                        "risk_factors", "glaucoma; unable to lie flat"));
        assertThat(first.recording().segments().get(0).frames()).isEqualTo(2195); // by D-002-truth.json
        assertThat(first.consent().state()).isEqualTo(ConsentState.GIVEN);
        assertThat(first.consent().purposes()).containsExactly(ConsentPurpose.ASSESSMENT, ConsentPurpose.TEACHING);
        assertThat(first.consent().recordedBy()).isEqualTo("A1");
        assertThat(first.reviewBy()).isEqualTo(LocalDate.of(2027, 3, 9));
        assertThat(stored().get(1).recording()).isNull();
        assertThat(stored().get(1).consent().state()).isEqualTo(ConsentState.UNKNOWN);
    }

    @Test
    void otherNamesOfColumnsSemicolonsAByteOrderMarkAndEmptyRowsAreTaken() throws Exception {
        ImportSheet.Plan plan = plan(
                "\uFEFFCase no;Surgeon;Date of surgery;Nuclear grade",
                "C-1;T01;9.3.2026;2,5",
                ";;;",
                "",
                "C-2;T02;2026/03/10;");
        assertThat(plan.faults()).isEmpty();
        assertThat(plan.rows()).isEqualTo(2);
        job.store(plan, false);
        assertThat(stored())
                .extracting(SurgicalCase::date)
                .containsExactly(LocalDate.of(2026, 3, 9), LocalDate.of(2026, 3, 10));
        assertThat(stored().get(0).descriptors()).containsEntry("nuclear_grade", "2.5");
    }

    @Test
    void everyFaultIsToldByRowAndColumnAndNothingIsStored() throws Exception {
        ImportSheet.Plan plan = plan(
                "code,trainee,date,eye,nuclear_grade,files",
                "C-1,T01,2026-03-09,left,2,",
                "C-2,,2026-03-32,both,2.3,nowhere.mp4",
                "C-1,T01,2026-03-09,left,2,",
                "C-3,T01,2027-01-01,left,2,");
        assertThat(plan.faults())
                .extracting(f -> f.row() + " " + f.column())
                .containsExactly("3 trainee", "3 date", "3 eye", "3 nuclear_grade", "3 files", "4 ", "5 date");
        assertThat(plan.faults().get(3).text())
                .isEqualTo(
                        "row 3, column nuclear_grade: 2.3 is no value of nuclear_grade — write a number from 0 to 4 in"
                                + " steps of 0.5 (grade)");
        assertThat(plan.faults().get(5).what()).contains("row 2");
        assertThat(plan.faults()).allMatch(f -> f.remedy() != null);

        assertThatThrownBy(() -> job.store(plan, false))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("7 faults");
        assertThat(stored()).isEmpty();
        job.store(plan, true);
        assertThat(stored()).extracting(SurgicalCase::code).containsExactly("C-1");
    }

    @Test
    void aColumnThatSaysWhoThePatientIsStopsTheWholeSheet() throws Exception {
        ImportSheet.Plan plan = plan("code,trainee,date,Date of birth", "C-1,T01,2026-03-09,1950-01-01");
        assertThat(plan.headerFault()).isTrue();
        assertThat(plan.good()).isEmpty();
        assertThat(plan.faults().get(0).text()).contains("row 1, column Date of birth", "who the patient is", "delete");
    }

    @ParameterizedTest
    @CsvSource({
        "colour, is not known",
        "Trainee code, says the same",
    })
    void aColumnThatIsNotKnownOrThereTwiceIsAFault(String column, String what) throws Exception {
        ImportSheet.Plan plan = plan("code,trainee,date," + column, "C-1,T01,2026-03-09,x");
        assertThat(plan.faults())
                .anyMatch(f -> f.column().equals(column) && f.what().contains(what));
    }

    @Test
    void aSheetWithoutADateColumnSaysSo() throws Exception {
        assertThat(plan("code,trainee", "C-1,T01").faults())
                .anyMatch(f -> f.row() == 1 && f.what().contains("no column \"date\""));
    }

    @Test
    void aDayThatCouldBeEitherOfTwoIsRefused() throws Exception {
        ImportSheet.Plan plan = plan(
                "code,trainee,date",
                "C-1,T01,03/04/2026",
                "C-2,T01,23/04/2026",
                "C-3,T01,04/23/2026",
                "C-4,T01,4/4/2026");
        assertThat(plan.faults())
                .singleElement()
                .satisfies(f -> assertThat(f.text())
                        .isEqualTo(
                                "row 2, column date: \"03/04/2026\" could be either of two days — write year-month-day, such as"
                                        + " 2026-03-09"));
        assertThat(plan.good())
                .extracting(g -> g.draft().details().date())
                .containsExactly(LocalDate.of(2026, 4, 23), LocalDate.of(2026, 4, 23), LocalDate.of(2026, 4, 4));
    }

    @Test
    void datesAndNumbersOfAWorkbookAreRead() throws Exception {
        Path sheet = folder.resolve("sheet.xlsx");
        try (XSSFWorkbook book = new XSSFWorkbook();
                var out = Files.newOutputStream(sheet)) {
            var page = book.createSheet("list");
            String[] titles = {"Code", "Trainee", "Date", "Nuclear grade", "Average power"};
            Row header = page.createRow(0);
            for (int i = 0; i < titles.length; i++) {
                header.createCell(i).setCellValue(titles[i]);
            }
            CellStyle day = book.createCellStyle();
            day.setDataFormat(book.getCreationHelper().createDataFormat().getFormat("dd.mm.yyyy"));
            Row row = page.createRow(3); // two empty rows between
            row.createCell(0).setCellValue("C-1");
            row.createCell(1).setCellValue("T01");
            Cell date = row.createCell(2);
            date.setCellValue(LocalDate.of(2026, 3, 9));
            date.setCellStyle(day);
            row.createCell(3).setCellValue(2.5);
            row.createCell(4).setCellFormula("7.1+7.2");
            book.getCreationHelper().createFormulaEvaluator().evaluateAll();
            Row wrong = page.createRow(4);
            wrong.createCell(0).setCellValue("C-2");
            wrong.createCell(1).setCellValue("T01");
            wrong.createCell(2).setCellValue("soon");
            book.write(out);
        }
        ImportSheet.Plan plan = job.plan(sheet, Progress.NONE);
        assertThat(plan.faults())
                .singleElement()
                .satisfies(f -> assertThat(f.text()).startsWith("row 5, column Date: \"soon\" is no date"));
        NewCase read = plan.good().get(0).draft().details();
        assertThat(read.date()).isEqualTo(LocalDate.of(2026, 3, 9));
        // 7.1 + 7.2 is 14.299999999999999 in binary; the cell shows 14.3
        assertThat(read.descriptors()).containsEntry("nuclear_grade", "2.5").containsEntry("average_power", "14.3");
    }

    @Test
    void aFileThatIsNoSheetIsRefusedInWords() throws Exception {
        Path text = Files.writeString(folder.resolve("notes.xlsx"), "not a workbook");
        assertThatThrownBy(() -> job.plan(text, Progress.NONE))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("notes.xlsx")
                .hasMessageContaining("save it as XLSX");
        Path latin = folder.resolve("latin.csv");
        Files.write(latin, "code,trainee,date\nCä,T01,2026-03-09\n".getBytes(StandardCharsets.ISO_8859_1));
        assertThatThrownBy(() -> job.plan(latin, Progress.NONE)).hasMessageContaining("not UTF-8");
        Path bare = Files.writeString(folder.resolve("bare.csv"), "code,trainee,date\n");
        assertThatThrownBy(() -> job.plan(bare, Progress.NONE)).hasMessageContaining("holds no case");
    }

    @Test
    void aCodeThatTheStoreHasAlreadyIsAFault() throws Exception {
        new ImportRecording(workspace)
                .addCase(new NewCase("C-1", "T01", LocalDate.of(2026, 3, 9), "phaco", Map.of()), null);
        assertThat(plan("code,trainee,date", "c-1,T01,2026-03-09").faults())
                .singleElement()
                .satisfies(f -> assertThat(f.what()).contains("there is a case c-1 already"));
    }

    @ParameterizedTest
    @CsvSource({"1234567, a long number", "1950-01-31, a date", "Anna-Meyer, a person's name"})
    void aCodeThatLooksLikeAPatientIsRefusedWithTheReason(String code, String reason) throws Exception {
        assertThat(plan("code,trainee,date", code + ",T01,2026-03-09").faults())
                .singleElement()
                .satisfies(f -> assertThat(f.text()).contains("column code", reason, "no patient's name"));
    }
}
