package org.sideport.report.workbook;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.CellType;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.usermodel.Sheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.report.workbook.UnitFigures.Agreed;
import org.sideport.report.workbook.UnitFigures.CaseShare;
import org.sideport.report.workbook.UnitFigures.Competency;
import org.sideport.report.workbook.UnitFigures.Complications;
import org.sideport.report.workbook.UnitFigures.Group;

/** What goes outside the unit, what goes into CSV, and headers in another language. */
class SharedWorkbookTest {

    private static final WorkbookOptions SHARED = new WorkbookOptions("en", true, 5);

    @TempDir
    Path folder;

    /** Two trainees: one with 20 marked cases, one with 3; complications 0 of 30, 2 of 40, 6 of 40. */
    private static WorkbookData data() {
        LocalDate day = LocalDate.of(2026, 1, 5);
        Group many = new Group(1, "small", "1.0.0", UnitFigures.WHOLE, "Whole", "T1");
        Group few = new Group(2, "small", "1.0.0", UnitFigures.WHOLE, "Whole", "T2");
        UnitFigures figures = new UnitFigures(
                15,
                0.8,
                List.of(new CaseShare(many, "=C1", day, 1, 1, 0.75, 1)),
                List.of(
                        new Competency(many, 30, 20, 6, 0.75, 0.5, 1.0, 0.1, 0.6, 0.9, day, null, null),
                        new Competency(few, 30, 3, 3, 0.25, 0.2, 0.3, 0.1, 0.1, 0.4, day, null, null)),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(rate("T1", 30, 0), rate("T2", 40, 2), rate("T3", 40, 6)),
                List.<Agreed>of());
        return Unit.of(1, 3).with(figures);
    }

    private static Complications rate(String trainee, int known, int events) {
        double share = (double) events / known;
        return new Complications(
                "phaco",
                trainee,
                known,
                known,
                events,
                "tear",
                share,
                0.0,
                0.5,
                8 / 110.0,
                0.0,
                0.2,
                0.0,
                0.3,
                null,
                null,
                "no chart");
    }

    private XSSFWorkbook write(WorkbookOptions options) throws IOException {
        Path out = folder.resolve("out.xlsx");
        CompetencyWorkbook.write(data(), options, out, Progress.NONE);
        try (var in = Files.newInputStream(out)) {
            return new XSSFWorkbook(in);
        }
    }

    private static List<String> row(Sheet sheet, int row, String... headers) {
        List<String> values = new ArrayList<>();
        for (String header : headers) {
            Cell cell = CompetencyWorkbookTest.cell(sheet, row, header);
            values.add(
                    cell.getCellType() == CellType.NUMERIC || cell.getCellType() == CellType.FORMULA
                            ? String.valueOf(cell.getNumericCellValue())
                            : cell.getStringCellValue());
        }
        return values;
    }

    /** Counts from 1 to 4 and what rests on them are gone; 0 stays: it tells of no single operation. */
    @Test
    void smallCountsAndWhatRestsOnThemAreMasked() throws IOException {
        try (XSSFWorkbook book = write(SHARED)) {
            Sheet competencies = book.getSheet("Competencies");
            assertThat(row(competencies, 1, "Marked cases (n)", "In the mean (n)", "Mean, last k"))
                    .containsExactly("20.0", "6.0", "0.75");
            assertThat(row(competencies, 2, "Marked cases (n)", "In the mean (n)", "Mean, last k", "Lowest"))
                    .containsExactly("<5", "<5", "", "");
            Sheet complications = book.getSheet("Complications");
            assertThat(row(complications, 1, "Events (n)", "Rate")).containsExactly("0.0", "0.0");
            assertThat(row(complications, 2, "Known (n)", "Events (n)", "Rate", "Upper limit"))
                    .containsExactly("40.0", "<5", "", "");
            assertThat(row(complications, 3, "Events (n)", "Rate")).containsExactly("6.0", "0.15");
            // 8 of 110 less 0 and 6 would leave the 2
            assertThat(row(complications, 3, "Unit rate", "Funnel 95 %, upper")).containsExactly("", "");
        }
    }

    /** Two are masked, each of at least one: two events in all would tell that each has one. */
    @Test
    void aRateOfFewEventsIsMaskedThoughSeveralTraineesAre() throws IOException {
        UnitFigures few = new UnitFigures(
                15,
                0.8,
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(rate("T1", 30, 1), rate("T2", 40, 1), rate("T3", 40, 0)),
                List.<Agreed>of());
        Path out = folder.resolve("few.xlsx");
        CompetencyWorkbook.write(data().with(few), SHARED, out, Progress.NONE);
        try (var in = Files.newInputStream(out);
                XSSFWorkbook book = new XSSFWorkbook(in)) {
            assertThat(row(book.getSheet("Complications"), 3, "Events (n)", "Rate", "Unit rate", "Funnel 95 %, upper"))
                    .as("a 0 beside two masked counts would tell who had the events")
                    .containsExactly("", "", "", "");
        }
    }

    @Test
    void noSingleCaseNoFormulaAndNoChartGoesOutAndItSaysSo() throws IOException {
        try (XSSFWorkbook book = write(SHARED)) {
            List<String> names = new ArrayList<>();
            for (Sheet sheet : book) {
                names.add(sheet.getSheetName());
                assertThat(sheet.getHeader().getRight()).contains("counts below 5 are masked");
                for (Row row : sheet) {
                    for (Cell cell : row) {
                        assertThat(cell.getCellType()).isNotEqualTo(CellType.FORMULA);
                        if (cell.getCellType() == CellType.STRING) {
                            assertThat(cell.getStringCellValue()).doesNotContain("C01-00");
                        }
                    }
                }
            }
            assertThat(names)
                    .doesNotContain("Cases", "Assessments", "Ratings", "Phases", "Events", "Timing", "Case times")
                    .doesNotContain("Case shares", "Learning curves", "Charts", "Settings")
                    .contains("Cohort", "Competencies", "Complications", "Dictionary");
            List<String> said = new ArrayList<>();
            book.getSheet("Read me").forEach(row -> row.forEach(cell -> said.add(cell.toString())));
            assertThat(said).contains("Shared view");
        }
        assertThatThrownBy(() -> new WorkbookOptions("en", true, 1)).isInstanceOf(InputException.class);
    }

    @Test
    void headersInGermanCodesAsEver() throws IOException {
        try (XSSFWorkbook book = write(new WorkbookOptions("de", false, 5))) {
            Sheet competencies = book.getSheet("Competencies");
            assertThat(competencies.getRow(0).getCell(1).getStringCellValue()).isEqualTo("Auszubildende");
            assertThat(row(competencies, 1, "Mittel, letzte k")).containsExactly("0.75");
            assertThat(book.getSheet("Cohort matrix").getRow(0).getCell(5).getStringCellValue())
                    .isEqualTo("Whole: Mittel, letzte k");
            boolean found = false;
            for (Row entry : book.getSheet("Dictionary")) {
                found |= entry.getCell(0).toString().equals("Competencies")
                        && entry.getCell(1).toString().equals("Mittel, letzte k")
                        && entry.getCell(2).toString().equals("mean_last_k");
            }
            assertThat(found).isTrue();
        }
    }

    /** Every header that the program itself gives has a German one: what is missing stands in the list. */
    @Test
    void noHeaderOfItsOwnIsWithoutGerman() {
        Headings german = new Headings("de");
        List<String> same = new ArrayList<>();
        for (Table<?> table :
                WorkbookTables.of(data(), WorkbookOptions.USUAL, german).all()) {
            table.columns().stream()
                    .filter(c -> german.of(c).equals(c.header()))
                    .forEach(c -> same.add(c.header()));
        }
        // names of phases and descriptors come from the procedure file; the others are the same words
        assertThat(same)
                .contains("Version", "n", "SD", "CUSUM")
                .doesNotContain(
                        "Trainee", "Date", "Cases (n)", "Mean, last k", "Severity (logits)", "Known (n)", "Note")
                .allMatch(h -> h.matches("Version|n|SD|SD"
                                + " \\(s\\)|SE|SEM|CUSUM|Blind|Code|Name|Rate|Standard|Verdict|Infit|Outfit|Phase|Median|Median"
                                + " \\(s\\)|10 % \\(s\\)|90 % \\(s\\)|.*, median|.* \\(n\\)|Mean share, last \\d+")
                        || descriptors().contains(h));
    }

    private static List<String> descriptors() {
        return org.sideport.rubric.ShippedRubrics.phacoProcedure().descriptors().stream()
                .flatMap(d -> java.util.stream.Stream.of(d.name(), d.name() + " (" + d.unit() + ")"))
                .toList();
    }

    /** Read back by a general CSV parser (RFC 4180). */
    @Test
    void eachSheetAsCsv() throws IOException {
        Path out = folder.resolve("csv");
        List<Path> files = CompetencyCsv.write(data(), WorkbookOptions.USUAL, out, Progress.NONE);
        assertThat(files).hasSize(22);
        assertThat(out).isDirectoryContaining("glob:**/competencies.csv");
        try (CSVParser csv = CSVFormat.RFC4180
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .get()
                .parse(Files.newBufferedReader(out.resolve("case_shares.csv")))) {
            CSVRecord only = csv.getRecords().get(0);
            assertThat(only.get("share")).isEqualTo("0.75");
            assertThat(only.get("date")).isEqualTo("2026-01-05");
            // a code that reads like a formula is no formula in a spreadsheet program (OWASP, CSV injection; from
            // memory)
            assertThat(only.get("case")).isEqualTo("'=C1");
        }
        // and nothing else lies about
        try (var all = Files.list(out)) {
            assertThat(all).hasSize(22);
        }
    }

    @Test
    void cancellingLeavesNoCsv() throws IOException {
        Path out = folder.resolve("none");
        Progress impatient = new Progress() {
            private int reports;

            @Override
            public void report(double fraction, String message) {
                reports++;
            }

            @Override
            public boolean isCancelled() {
                return reports > 5;
            }
        };
        assertThatThrownBy(() -> CompetencyCsv.write(data(), WorkbookOptions.USUAL, out, impatient))
                .isInstanceOf(CancellationException.class);
        try (var all = Files.list(out)) {
            assertThat(all).isEmpty();
        }
    }
}
