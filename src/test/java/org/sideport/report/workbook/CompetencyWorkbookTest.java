package org.sideport.report.workbook;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.CellType;
import org.apache.poi.ss.usermodel.DataFormatter;
import org.apache.poi.ss.usermodel.DateUtil;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.usermodel.Sheet;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sideport.model.Cut;
import org.sideport.model.CutKind;
import org.sideport.model.CutState;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.NotApplicable;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Progress;
import org.sideport.model.Rating;
import org.sideport.model.RatingState;
import org.sideport.model.Rubric;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.report.Cautions;
import org.sideport.report.workbook.WorkbookData.CaseRating;
import org.sideport.report.workbook.WorkbookData.CaseTagging;
import org.sideport.rubric.RubricReader;
import org.sideport.timing.CaseTimer;
import org.sideport.timing.CaseTiming;
import org.sideport.timing.TimingSummary;

class CompetencyWorkbookTest {

    /** Three items on levels 2 to 5, one of which can fail critically. */
    private static final Rubric RUBRIC = RubricReader.read(
            """
            {"id": "small", "version": "2.1.0", "title": "Small", "procedure": "phaco", "source": "made for a test",
             "levels": [{"points": 2, "label": "a", "meaning": "a"}, {"points": 3, "label": "b", "meaning": "b"},
                        {"points": 4, "label": "c", "meaning": "c"}, {"points": 5, "label": "d", "meaning": "d"}],
             "domains": [{"id": "d", "title": "D"}],
             "items": [{"id": "x", "domain": "d", "title": "X", "critical_minimum": 3,
                        "not_applicable": ["done_by_trainer"], "anchors": ANCHORS},
                       {"id": "y", "domain": "d", "title": "Y", "not_applicable": ["done_by_trainer"],
                        "anchors": ANCHORS},
                       {"id": "z", "domain": "d", "title": "Z", "weight": 2, "anchors": ANCHORS}]}
            """.replace(
                            "ANCHORS",
                            "[{\"points\": 2, \"text\": \"a\"}, {\"points\": 3, \"text\": \"b\"},"
                                    + " {\"points\": 4, \"text\": \"c\"}, {\"points\": 5, \"text\": \"d\"}]"),
            "small.json");

    @TempDir
    Path folder;

    private XSSFWorkbook write(WorkbookData data) throws IOException {
        Path out = folder.resolve("out.xlsx");
        CompetencyWorkbook.write(data, out, Progress.NONE);
        try (var in = java.nio.file.Files.newInputStream(out)) {
            return new XSSFWorkbook(in);
        }
    }

    private static SurgicalCase operation(String code, String trainee, int day) {
        return new SurgicalCase(code, trainee, LocalDate.of(2026, 1, day), "phaco", Map.of(), null);
    }

    private static CaseRating rating(String code, String by, RatingState state, boolean self, ItemScore... scores) {
        return new CaseRating(
                code,
                new Rating("small", "2.1.0", by, self, false, List.of(scores), ""),
                RUBRIC,
                state,
                state == RatingState.DRAFT ? null : Unit.CREATED,
                "");
    }

    private static ItemScore mark(String item, int points) {
        return new ItemScore.Marked(item, points, "");
    }

    private static ItemScore trainer(String item) {
        return new ItemScore.Excused(item, NotApplicable.DONE_BY_TRAINER, "");
    }

    private static CaseTagging phase(String code, String phase, double from, double to, PointEvent... events) {
        return new CaseTagging(
                code,
                "A1",
                new Tagging(
                        TaggingStyle.START_AND_END,
                        List.of(new PhaseSpan(phase, MediaTime.ofSeconds(from), MediaTime.ofSeconds(to), null)),
                        List.of(events)),
                null);
    }

    /** The cell under a header, in a row counted from 1 below the header. */
    static Cell cell(Sheet sheet, int row, String header) {
        for (Cell cell : sheet.getRow(0)) {
            if (cell.getStringCellValue().equals(header)) {
                return sheet.getRow(row).getCell(cell.getColumnIndex(), Row.MissingCellPolicy.CREATE_NULL_AS_BLANK);
            }
        }
        throw new AssertionError("no column " + header + " in " + sheet.getSheetName());
    }

    private static double number(Sheet sheet, int row, String header) {
        return cell(sheet, row, header).getNumericCellValue();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "=cmd|'/c calc'!A1",
                "+1",
                "-1",
                "@SUM(A1)",
                "\t=1+1",
                "＝1+1",
                "'quoted",
                "007",
                "2026-01-02",
                "emoji 👁️ and 中文",
                "line\nbreak",
                "  spaces  ",
                "_x0041_ stays",
                "<b>&amp;</b>",
                "plain"
            })
    void anyTextComesBackAsTheSameText(String text) throws IOException {
        WorkbookData data = Unit.data(
                List.of(operation("c1", text, 1)),
                List.of(new CaseRating(
                        "c1",
                        new Rating("small", "2.1.0", text, false, false, List.of(mark("x", 4)), text),
                        RUBRIC,
                        RatingState.DRAFT,
                        null,
                        text)),
                List.of(phase(
                        "c1", "rhexis", 1, 2, new PointEvent("flap_rescued", MediaTime.ofSeconds(1), null, text))));

        try (XSSFWorkbook book = write(data)) {
            List<Cell> cells = List.of(
                    cell(book.getSheet("Cohort"), 1, "Trainee"),
                    cell(book.getSheet("Ratings"), 1, "Assessor"),
                    cell(book.getSheet("Assessments"), 1, "Comment"),
                    cell(book.getSheet("Events"), 1, "Note"));
            for (Cell cell : cells) {
                assertThat(cell.getCellType()).isEqualTo(CellType.STRING);
                assertThat(cell.getStringCellValue()).isEqualTo(text);
                // what could turn into something else on editing is marked as text
                boolean risky = !text.startsWith("plain")
                        && !text.startsWith("emoji")
                        && !text.startsWith("line")
                        && !text.startsWith(" ")
                        && !text.startsWith("_")
                        && !text.startsWith("<");
                assertThat(cell.getCellStyle().getQuotePrefixed()).isEqualTo(risky);
            }
        }
    }

    /** What people wrote is never computed, and each formula has the program's value beside it. */
    @Test
    void onlyFiguresAreFormulasAndEachHasItsValue() throws IOException {
        try (XSSFWorkbook book = write(Unit.of(2, 12))) {
            int formulas = 0;
            for (Sheet sheet : book) {
                for (Row row : sheet) {
                    for (Cell cell : row) {
                        assertThat(cell.getCellType()).isNotEqualTo(CellType.ERROR);
                        if (cell.getCellType() == CellType.FORMULA) {
                            formulas++;
                            assertThat(sheet.getSheetName()).isEqualTo("Cohort");
                            assertThat(cell.getCachedFormulaResultType()).isEqualTo(CellType.NUMERIC);
                            assertThat(cell.getNumericCellValue()).isEqualTo(12);
                        }
                    }
                }
            }
            // the cases of two trainees; without figures nothing else is computed
            assertThat(formulas).isEqualTo(2);
        }
    }

    @Test
    void controlCharactersAreDroppedAndLineEndsAreOne() {
        assertThat(CellText.clean("a\u0000b\u0001c\u001Fd\u007Fe\u0085f\uFFFEg\uD800h"))
                .isEqualTo("abcdefgh");
        assertThat(CellText.clean("a\r\nb\rc\td")).isEqualTo("a\nb\nc\td");
        assertThat(CellText.clean("\r=1")).isEqualTo("\n=1");
        assertThat(CellText.needsQuote("\n=1")).isTrue();
    }

    @Test
    void aTextTooLongForACellIsCutWithANote() throws IOException {
        String text = "x".repeat(32_700) + "👁".repeat(3_650); // 40,000 UTF-16 units
        WorkbookData data = Unit.data(
                List.of(operation("c1", "t", 1)),
                List.of(),
                List.of(phase("c1", "rhexis", 1, 2, new PointEvent("x", MediaTime.ZERO, null, text))));

        try (XSSFWorkbook book = write(data)) {
            String kept = cell(book.getSheet("Events"), 1, "Note").getStringCellValue();
            assertThat(kept.length()).isBetween(32_766, 32_767);
            assertThat(kept).endsWith("[… cut: the text has 40000 characters, a cell holds 32767]");
            assertThat(kept.chars().filter(c -> Character.isSurrogate((char) c)).count())
                    .isEven();
        }
    }

    @Test
    void datesAndTimesAreTrueDatesAndTimes() throws IOException {
        WorkbookData data = Unit.data(
                List.of(operation("c1", "t", 9)),
                List.of(rating("c1", "A1", RatingState.SIGNED, false, mark("x", 4), mark("y", 4), mark("z", 4))),
                List.of(phase("c1", "rhexis", 10, 3671.5)));

        try (XSSFWorkbook book = write(data)) {
            Cell date = cell(book.getSheet("Ratings"), 1, "Date");
            assertThat(DateUtil.isCellDateFormatted(date)).isTrue();
            assertThat(date.getLocalDateTimeCellValue()).isEqualTo(LocalDateTime.of(2026, 1, 9, 0, 0));
            assertThat(date.getCellStyle().getDataFormatString()).isEqualTo("yyyy-mm-dd");
            assertThat(cell(book.getSheet("Assessments"), 1, "Signed (UTC)").getLocalDateTimeCellValue())
                    .isEqualTo(LocalDateTime.of(2026, 3, 31, 16, 5));
            // 3671.5 − 10 = 3661.5 s = 1 h 1 min 1.5 s, of a day of 86,400 s
            Cell duration = cell(book.getSheet("Phases"), 1, "Duration");
            assertThat(duration.getNumericCellValue()).isCloseTo(3661.5 / 86_400, within(1e-12));
            assertThat(duration.getCellStyle().getDataFormatString()).isEqualTo("[h]:mm:ss.000");
            assertThat(number(book.getSheet("Phases"), 1, "Duration (s)")).isEqualTo(3661.5);
        }
    }

    @Test
    void notApplicableMissingAndMarkedAreThreeDifferentThings() throws IOException {
        WorkbookData data = Unit.data(
                List.of(operation("c1", "t", 1)),
                List.of(rating("c1", "A1", RatingState.DRAFT, false, mark("x", 2), trainer("y"))),
                List.of());

        try (XSSFWorkbook book = write(data)) {
            Sheet sheet = book.getSheet("Ratings");
            List<String> rows = new ArrayList<>();
            DataFormatter shown = new DataFormatter();
            for (int row = 1; row <= 3; row++) {
                List<String> values = new ArrayList<>();
                for (String header :
                        List.of("Rubric", "Version", "Item", "Mark", "Points", "Not applicable", "Weight")) {
                    values.add(shown.formatCellValue(cell(sheet, row, header)));
                }
                rows.add(String.join("|", values));
            }
            assertThat(rows)
                    .containsExactly(
                            "small|2.1.0|x|marked|2||1",
                            "small|2.1.0|y|not_applicable||done_by_trainer|1",
                            "small|2.1.0|z|missing|||2");
            assertThat(cell(sheet, 2, "Points").getCellType()).isEqualTo(CellType.BLANK);
        }
    }

    @Test
    void anUnsureTimeIsSaidToBeUnsureAndStaysOutOfMedians() throws IOException {
        WorkbookData plain =
                Unit.data(List.of(operation("c1", "t", 1)), List.of(), List.of(phase("c1", "rhexis", 10, 70)));
        Cut cut = Cut.proposed(
                        MediaTime.ofSeconds(30), MediaTime.ofSeconds(30), CutKind.BETWEEN_FILES, "files do not meet")
                .decided(CutState.ACCEPTED, "A1");
        WorkbookData.CaseTagging tagged = plain.taggings().get(0);
        List<CaseTiming> timings =
                List.of(CaseTimer.forAnyNames().time("c1", tagged.annotator(), tagged.tagging(), null, List.of(cut)));
        WorkbookData data = new WorkbookData(
                plain.cases(),
                plain.ratings(),
                plain.taggings(),
                timings,
                "Trainee",
                TimingSummary.of(timings, t -> ""),
                plain.procedures(),
                6,
                plain.created(),
                "0.1.0");
        try (XSSFWorkbook book = write(data)) {
            assertThat(cell(book.getSheet("Timing"), 1, "Unsure").getStringCellValue())
                    .isEqualTo("active, span");
            assertThat(cell(book.getSheet("Case times"), 1, "Unsure").getStringCellValue())
                    .isEqualTo("active, operating time");
            assertThat(cell(book.getSheet("Timing summary"), 1, "n").getNumericCellValue())
                    .isZero();
            assertThat(cell(book.getSheet("Timing summary"), 1, "Unsure (n)").getNumericCellValue())
                    .isEqualTo(1);
            assertThat(cell(book.getSheet("Cohort"), 1, "Operating time (n)").getNumericCellValue())
                    .isZero();
        }
    }

    @Test
    void everyTableHasOneHeaderRowAFilterFrozenPanesAndAPrintSetUp() throws IOException {
        try (XSSFWorkbook book = write(Unit.of(1, 3))) {
            for (int s = 1; s < book.getNumberOfSheets(); s++) {
                XSSFSheet sheet = book.getSheetAt(s);
                assertThat(sheet.getFitToPage()).isTrue();
                assertThat(sheet.getPrintSetup().getLandscape()).isTrue();
                assertThat(sheet.getPrintSetup().getFitHeight()).isZero();
                assertThat(sheet.getFooter().getRight()).endsWith("Page &P of &N");
                assertThat(sheet.getFooter().getLeft()).contains("No medical device");
                if (sheet.getSheetName().equals("Charts")) {
                    continue;
                }
                String lastColumn = org.apache.poi.ss.util.CellReference.convertNumToColString(
                        sheet.getRow(0).getLastCellNum() - 1);
                String all = "A1:" + lastColumn + (sheet.getLastRowNum() + 1);
                assertThat(sheet.getCTWorksheet().getAutoFilter().getRef()).isEqualTo(all);
                assertThat(sheet.getPaneInformation().isFreezePane()).isTrue();
                assertThat(sheet.getPaneInformation().getHorizontalSplitPosition())
                        .isEqualTo((short) 1);
                assertThat(sheet.getNumMergedRegions()).isZero();
                assertThat(sheet.getRepeatingRows().formatAsString()).isEqualTo("1:1");
                String name =
                        sheet.getSheetName().toLowerCase(java.util.Locale.ROOT).replaceAll("[^a-z]+", "_");
                assertThat(book.getName(name).getRefersToFormula().replace("$", ""))
                        .isEqualTo("'" + sheet.getSheetName() + "'!" + all);
            }
        }
    }

    /** A number wider than its column is shown as ####. */
    @Test
    void everyNumberFitsItsColumn() throws IOException {
        DataFormatter shown = new DataFormatter();
        try (XSSFWorkbook book = write(Unit.of(3, 12))) {
            int numbers = 0;
            for (Sheet sheet : book) {
                for (Row row : sheet) {
                    for (Cell cell : row) {
                        if (cell.getCellType() == CellType.NUMERIC) {
                            numbers++;
                            assertThat(shown.formatCellValue(cell).length())
                                    .as(sheet.getSheetName() + " " + cell.getAddress())
                                    .isLessThan(sheet.getColumnWidth(cell.getColumnIndex()) / 256);
                        }
                    }
                }
            }
            assertThat(numbers).isGreaterThan(1000);
        }
    }

    @Test
    void everyColumnIsInTheDictionaryAndTheFirstSheetCarriesEveryCaution() throws IOException {
        try (XSSFWorkbook book = write(Unit.of(1, 3))) {
            List<String> defined = new ArrayList<>();
            List<String> texts = new ArrayList<>();
            for (Row row : book.getSheet("Read me")) {
                row.forEach(cell -> texts.add(cell.getStringCellValue()));
                if (row.getLastCellNum() >= 3 && row.getCell(0) != null && row.getCell(1) != null) {
                    defined.add(row.getCell(0) + "/" + row.getCell(1));
                }
            }
            Map<String, List<String>> dictionary = new java.util.HashMap<>();
            for (Row row : book.getSheet("Dictionary")) {
                List<String> cells = new ArrayList<>();
                for (int c = 0; c < 6; c++) {
                    cells.add(row.getCell(c, Row.MissingCellPolicy.CREATE_NULL_AS_BLANK)
                            .getStringCellValue());
                }
                dictionary.put(cells.get(0) + "/" + cells.get(1), cells);
            }
            int columns = 0;
            for (Sheet sheet : book) {
                if (sheet.getSheetName().equals("Read me")
                        || sheet.getSheetName().equals("Charts")) {
                    continue;
                }
                for (Cell header : sheet.getRow(0)) {
                    columns++;
                    List<String> entry = dictionary.get(sheet.getSheetName() + "/" + header);
                    assertThat(entry).as(sheet.getSheetName() + "/" + header).isNotNull();
                    assertThat(entry.get(2)).matches("[a-z0-9_]+");
                    assertThat(entry.get(3)).isNotBlank();
                    assertThat(entry.get(5)).isNotBlank();
                }
            }
            // and of no column that there is not
            assertThat(dictionary).hasSize(columns + 1);
            assertThat(texts).containsAll(Cautions.LINES).contains("Sideport 0.1.0");
            assertThat(texts).anyMatch(t -> t.contains("type 7 of Hyndman & Fan"));
            assertThat(defined).contains("phaco-competency/1.0.0", "phaco/1.1.0");
        }
    }

    @Test
    void theFileNamesNoPersonAndNoLibraryAsItsAuthor() throws IOException {
        try (XSSFWorkbook book = write(Unit.of(1, 1))) {
            assertThat(book.getProperties().getCoreProperties().getCreator()).isEqualTo("Sideport 0.1.0");
            assertThat(book.getProperties().getExtendedProperties().getApplication())
                    .isEqualTo("Sideport");
            assertThat(book.getProperties().getCoreProperties().getCreated().toInstant())
                    .isEqualTo(Unit.CREATED.toInstant());
        }
    }

    /**
     * Durations 3 7 8 9 12 15 21 40 s. Quantiles of type 7 from R 4.2.2: 10 % 5.8, 25 % 7.75, median 10.5, 75 % 16.5,
     * 90 % 26.7. Mean 115 / 8; sum of squares 2613, so SD² = (2613 − 115² / 8) / 7; the product is 228,614,400.
     */
    @Test
    void timingSummaryEqualsTheHandCalculation() throws IOException {
        int[] durations = {3, 7, 8, 9, 12, 15, 21, 40};
        List<SurgicalCase> cases = new ArrayList<>();
        List<CaseTagging> taggings = new ArrayList<>();
        for (int i = 0; i < durations.length; i++) {
            cases.add(operation("c" + i, "T1", i + 1));
            taggings.add(phase("c" + i, "rhexis", 100, 100 + durations[i]));
        }
        try (XSSFWorkbook book = write(Unit.data(cases, List.of(), taggings))) {
            Sheet sheet = book.getSheet("Timing summary");
            assertThat(cell(sheet, 1, "Trainee").getStringCellValue()).isEqualTo("T1");
            assertThat(cell(sheet, 1, "Phase name").getStringCellValue()).isEqualTo("Capsulotomy");
            assertThat(number(sheet, 1, "n")).isEqualTo(8);
            assertThat(number(sheet, 1, "10 % (s)")).isCloseTo(5.8, within(1e-9));
            assertThat(number(sheet, 1, "Lower quartile (s)")).isCloseTo(7.75, within(1e-9));
            assertThat(number(sheet, 1, "Median (s)")).isCloseTo(10.5, within(1e-9));
            assertThat(number(sheet, 1, "Median")).isCloseTo(10.5 / 86_400, within(1e-15));
            assertThat(number(sheet, 1, "Upper quartile (s)")).isCloseTo(16.5, within(1e-9));
            assertThat(number(sheet, 1, "90 % (s)")).isCloseTo(26.7, within(1e-9));
            assertThat(number(sheet, 1, "Mean (s)")).isCloseTo(14.375, within(1e-9));
            assertThat(number(sheet, 1, "SD (s)")).isCloseTo(Math.sqrt((2613 - 115 * 115 / 8.0) / 7), within(1e-9));
            assertThat(number(sheet, 1, "Geometric mean (s)")).isCloseTo(Math.pow(228_614_400, 1 / 8.0), within(1e-9));
            Sheet cohort = book.getSheet("Cohort");
            assertThat(number(cohort, 1, "Capsulotomy, median")).isCloseTo(10.5 / 86_400, within(1e-15));
            assertThat(number(cohort, 1, "Capsulotomy (n)")).isEqualTo(8);
        }
    }

    /**
     * Weights x 1, y 1, z 2; most points 5. Case c1: A1 (5 + 5 + 2·5) / 20 = 1, A2 (2 + 3 + 2·2) / 20 = 0.45, mean
     * 0.725. Case c2: x and y by the trainer, 2·4 / 10 = 0.8. Case c3: only a draft, a self-rating, an incomplete and a
     * superseded rating: none counts. Mean over cases (0.725 + 0.8) / 2 = 0.7625. Items marked (3 + 3 + 1) / 3.
     */
    @Test
    void theCohortCountsOnlySignedCompleteRatingsByAssessors() throws IOException {
        ItemScore[] all = {mark("x", 5), mark("y", 5), mark("z", 5)};
        WorkbookData data = Unit.data(
                List.of(
                        operation("c3", "T1", 20),
                        operation("c1", "T1", 3),
                        operation("c2", "T1", 11),
                        operation("c4", "T2", 5)),
                List.of(
                        rating("c1", "A1", RatingState.SIGNED, false, all),
                        rating("c1", "A2", RatingState.SIGNED, false, mark("x", 2), mark("y", 3), mark("z", 2)),
                        rating("c2", "A1", RatingState.SIGNED, false, trainer("x"), trainer("y"), mark("z", 4)),
                        rating("c3", "A1", RatingState.DRAFT, false, all),
                        rating("c3", "T1", RatingState.SIGNED, true, all),
                        rating("c3", "A2", RatingState.SIGNED, false, mark("x", 5)),
                        rating("c3", "A3", RatingState.SUPERSEDED, false, all)),
                List.of(
                        phase(
                                "c1",
                                "rhexis",
                                0,
                                60,
                                new PointEvent("vitreous_loss", MediaTime.ofSeconds(1), null, ""),
                                new PointEvent("vitreous_loss", MediaTime.ofSeconds(2), null, ""),
                                new PointEvent("iris_prolapse", MediaTime.ofSeconds(3), null, ""),
                                new PointEvent("teaching_moment", MediaTime.ofSeconds(4), null, "")),
                        phase("c2", "rhexis", 0, 80)));

        try (XSSFWorkbook book = write(data)) {
            Sheet cohort = book.getSheet("Cohort");
            assertThat(cell(cohort, 1, "Trainee").getStringCellValue()).isEqualTo("T1");
            assertThat(number(cohort, 1, "Cases (n)")).isEqualTo(3);
            assertThat(cell(cohort, 1, "First case").getLocalDateTimeCellValue().toLocalDate())
                    .isEqualTo("2026-01-03");
            assertThat(cell(cohort, 1, "Last case").getLocalDateTimeCellValue().toLocalDate())
                    .isEqualTo("2026-01-20");
            assertThat(number(cohort, 1, "Cases assessed (n)")).isEqualTo(2);
            assertThat(number(cohort, 1, "Ratings that count (n)")).isEqualTo(3);
            assertThat(number(cohort, 1, "Assessors (n)")).isEqualTo(2);
            assertThat(number(cohort, 1, "Drafts (n)")).isEqualTo(1);
            assertThat(number(cohort, 1, "Signed but incomplete (n)")).isEqualTo(1);
            assertThat(number(cohort, 1, "Self-ratings (n)")).isEqualTo(1);
            assertThat(number(cohort, 1, "Mean share, all cases")).isCloseTo(0.7625, within(1e-12));
            assertThat(number(cohort, 1, "Cases in it (n)")).isEqualTo(2);
            assertThat(number(cohort, 1, "Mean items marked")).isCloseTo(7 / 3.0, within(1e-12));
            // A2 gave x 2 points, below its minimum of 3
            assertThat(number(cohort, 1, "Critical failures")).isEqualTo(1);
            assertThat(number(cohort, 1, "Cases tagged (n)")).isEqualTo(2);
            assertThat(number(cohort, 1, "Cases with any complication")).isEqualTo(1);
            // two kinds in c1, one of them seen twice
            assertThat(number(cohort, 1, "Complications of any kind")).isEqualTo(2);
            assertThat(number(cohort, 1, "Capsulotomy, median")).isCloseTo(70 / 86_400.0, within(1e-15));
            // the other trainee has nothing but a case: blank, not 0
            assertThat(cell(cohort, 2, "Mean share, all cases").getCellType()).isEqualTo(CellType.BLANK);
            assertThat(cell(cohort, 2, "Complications of any kind").getCellType())
                    .isEqualTo(CellType.BLANK);
            assertThat(number(cohort, 2, "Cases in it (n)")).isZero();
        }
    }

    @Test
    void theRecentMeanTakesTheLatestCasesByDate() throws IOException {
        List<SurgicalCase> cases = new ArrayList<>();
        List<CaseRating> ratings = new ArrayList<>();
        int[] points = {2, 2, 3, 3, 4, 4, 5, 5};
        for (int i = 0; i < points.length; i++) {
            // codes run against the dates
            cases.add(operation("c" + (9 - i), "T1", i + 1));
            ratings.add(rating(
                    "c" + (9 - i), "A1", RatingState.SIGNED, false, trainer("x"), trainer("y"), mark("z", points[i])));
        }
        try (XSSFWorkbook book = write(Unit.data(cases, ratings, List.of()))) {
            Sheet cohort = book.getSheet("Cohort");
            // shares are points / 5: all 28 / 8 / 5 = 0.7; the last six 24 / 6 / 5 = 0.8
            assertThat(number(cohort, 1, "Mean share, all cases")).isCloseTo(0.7, within(1e-12));
            assertThat(number(cohort, 1, "Mean share, last 6")).isCloseTo(0.8, within(1e-12));
            assertThat(number(cohort, 1, "Of these (n)")).isEqualTo(6);
        }
    }

    @Test
    void aWorkbookOfNothingIsStillAWorkbook() throws IOException {
        try (XSSFWorkbook book = write(Unit.data(List.of(), List.of(), List.of()))) {
            assertThat(book.getNumberOfSheets()).isEqualTo(24);
            assertThat(book.getSheet("Ratings").getLastRowNum()).isZero();
        }
    }
}
