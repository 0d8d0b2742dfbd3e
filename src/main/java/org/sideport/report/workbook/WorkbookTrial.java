package org.sideport.report.workbook;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.DateUtil;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.usermodel.Sheet;
import org.apache.poi.xssf.streaming.SXSSFWorkbook;
import org.jspecify.annotations.Nullable;
import org.sideport.model.ItemScore;
import org.sideport.model.Progress;
import org.sideport.model.Rating;
import org.sideport.model.RatingState;
import org.sideport.model.Rubric;
import org.sideport.model.SurgicalCase;
import org.sideport.report.workbook.WorkbookData.CaseRating;
import org.sideport.rubric.ShippedRubrics;

/** How quick a workbook of very many made-up marks is written, beside the library's own streaming of the same cells. */
public final class WorkbookTrial {

    private static final int WINDOW = 200;
    private static final OffsetDateTime WHEN = OffsetDateTime.of(2026, 3, 31, 16, 5, 0, 0, ZoneOffset.UTC);

    private final WorkbookData data;

    /** @param rows of the sheet "Ratings", about */
    public WorkbookTrial(int rows) {
        Rubric rubric = ShippedRubrics.phacoCompetency();
        Random random = new Random(5);
        List<SurgicalCase> cases = new ArrayList<>();
        List<CaseRating> ratings = new ArrayList<>();
        for (int i = 1; i <= rows / rubric.items().size(); i++) {
            String code = "C-" + i;
            cases.add(new SurgicalCase(
                    code,
                    "T" + (10 + i % 40),
                    LocalDate.of(2020, 1, 1).plusDays(i / 4),
                    rubric.procedure(),
                    Map.of("eye", "left"),
                    null));
            ratings.add(
                    new CaseRating(code, rating(rubric, random, "A" + i % 9), rubric, RatingState.SIGNED, WHEN, ""));
        }
        data = new WorkbookData(
                cases,
                ratings,
                List.of(),
                List.of(),
                "Trainee",
                List.of(),
                List.of(ShippedRubrics.phacoProcedure()),
                WorkbookData.USUAL_RECENT_CASES,
                WHEN,
                "bench");
    }

    private static Rating rating(Rubric rubric, Random random, String assessor) {
        List<ItemScore> scores = new ArrayList<>();
        for (Rubric.Item item : rubric.items()) {
            List<Integer> points = rubric.pointsOf(item);
            scores.add(new ItemScore.Marked(
                    item.id(),
                    points.get(random.nextInt(points.size())),
                    random.nextInt(8) == 0 ? "Second instrument out of view for most of it." : ""));
        }
        return new Rating(rubric.id(), rubric.version(), assessor, false, true, scores, "Calm throughout.");
    }

    /** Ours, whole: the file as it is kept. */
    public void own(Path out) {
        CompetencyWorkbook.write(data, out, Progress.NONE);
    }

    /** The cells of all tables, as numbers and texts. */
    public List<Object[][]> cells() {
        Cells reading = new Cells(WorkbookOptions.USUAL);
        List<Object[][]> all = new ArrayList<>();
        for (Table<?> table : WorkbookTables.of(data, WorkbookOptions.USUAL, new Headings("en"))
                .all()) {
            all.add(cells(table, reading));
        }
        return all;
    }

    private static <R> Object[][] cells(Table<R> table, Cells reading) {
        Object[][] rows = new Object[table.rows().size() + 1][];
        rows[0] = table.columns().stream().map(c -> (Object) c.header()).toArray();
        for (int r = 1; r < rows.length; r++) {
            R row = table.rows().get(r - 1);
            rows[r] = table.columns().stream()
                    .map(c -> plain(reading.value(c, row)))
                    .toArray();
        }
        return rows;
    }

    private static Object plain(@Nullable Object value) {
        if (value instanceof Number number) {
            return number.doubleValue();
        }
        if (value instanceof LocalDate day) {
            return DateUtil.getExcelDate(day);
        }
        if (value instanceof OffsetDateTime time) {
            return DateUtil.getExcelDate(time.toLocalDateTime());
        }
        if (value instanceof Boolean truth) {
            return truth ? "yes" : "no";
        }
        return value == null ? "" : value.toString();
    }

    /** The library alone: these cells and nothing else. */
    public static void bare(List<Object[][]> tables, Path out) throws IOException {
        try (SXSSFWorkbook book = new SXSSFWorkbook(WINDOW);
                OutputStream stream = new BufferedOutputStream(Files.newOutputStream(out))) {
            for (Object[][] table : tables) {
                Sheet sheet = book.createSheet();
                for (int r = 0; r < table.length; r++) {
                    Row row = sheet.createRow(r);
                    for (int c = 0; c < table[r].length; c++) {
                        Object value = table[r][c];
                        if (!value.equals("")) {
                            Cell cell = row.createCell(c);
                            if (value instanceof Double number) {
                                cell.setCellValue(number);
                            } else {
                                cell.setCellValue(value.toString());
                            }
                        }
                    }
                }
            }
            book.write(stream);
        }
    }
}
