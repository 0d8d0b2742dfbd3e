package org.sideport.report.workbook;

import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Set;
import org.apache.poi.ss.usermodel.CellStyle;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.usermodel.Sheet;
import org.apache.poi.ss.usermodel.Workbook;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Procedure;
import org.sideport.model.Rubric;
import org.sideport.report.Cautions;
import org.sideport.report.workbook.Column.Kind;

/** The first sheet: cautions, versions, and the definition of every column, taken from the columns themselves. */
final class ReadMeSheet {

    static final String NAME = "Read me";

    private static final int FIRST = 26;
    private static final int SECOND = 30;
    private static final int THIRD = 95;

    private final Sheet sheet;
    private final Styles styles;
    private int next;

    private ReadMeSheet(Sheet sheet, Styles styles) {
        this.sheet = sheet;
        this.styles = styles;
    }

    static Sheet write(
            Workbook book,
            Styles styles,
            WorkbookData data,
            WorkbookOptions options,
            Set<Rubric> rubrics,
            List<Table<?>> tables) {
        Sheet sheet = book.createSheet(NAME);
        new ReadMeSheet(sheet, styles).write(data, options, rubrics, tables);
        return sheet;
    }

    private void write(WorkbookData data, WorkbookOptions options, Set<Rubric> rubrics, List<Table<?>> tables) {
        sheet.setColumnWidth(0, FIRST * 256);
        sheet.setColumnWidth(1, SECOND * 256);
        sheet.setColumnWidth(2, THIRD * 256);
        TableSheet.text(row(1.5f), 0, "Competency workbook", styles.title());
        line("Made by", "Sideport " + data.programVersion(), null);
        line(
                "Made on",
                data.created()
                        .withOffsetSameInstant(ZoneOffset.UTC)
                        .format(DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm 'UTC'")),
                null);
        if (options.shared()) {
            line(
                    "Shared view",
                    null,
                    "single cases, marks and tags are left out; counts from 1 to " + (options.maskBelow() - 1)
                            + " stand as <" + options.maskBelow()
                            + " and what rests on so few is blank; nothing is computed live");
        }
        if (!options.leftOut().isEmpty()) {
            line("Left out", null, options.leftOut());
        }
        section("Before you read on", null, null);
        for (String caution : Cautions.LINES) {
            // Runs on over the empty cells beside it.
            TableSheet.text(row(1), 0, caution, styles.of(Kind.TEXT));
        }
        section("Conventions", null, null);
        line("Blank cell", null, "not known or not applicable; never 0");
        line("People and cases", null, "codes only; the workbook holds no name, number or birth date of a patient");
        line(
                "Dates and times",
                null,
                "dates are yyyy-mm-dd; durations are true time cells (h:mm:ss, beyond 24 hours too) with the same value"
                        + " in seconds beside them where one reckons with them");
        line(
                "Quantiles",
                null,
                "type 7 of Hyndman & Fan 1996 (The American Statistician 50:361), the PERCENTILE and QUARTILE of"
                        + " spreadsheets");
        line(
                "Share",
                null,
                "share of the applicable maximum: items done by the trainer, not visible or not performed leave both"
                        + " the sum and the maximum, so that they never count as zero");
        if (!options.shared()) {
            line(
                    "Live formulas",
                    null,
                    "means, counts, limits and coefficients are formulas over the sheets beside them, with the"
                            + " program's own value kept in the cell. Type only into framed cells (Settings, D-study)");
        }
        line("Grey bars", null, "how much of 1; no bar and no shade means good or bad");
        line(
                "Last " + data.recentCases() + " cases",
                null,
                "the latest cases that have a rating that counts. About six different cases bring the reliability of"
                        + " ratings of technical skill above 0.80 (from the variances pooled by Andersen et al. 2021, doi"
                        + " 10.1097/ACM.0000000000004150, if all other variance averages down)");
        section("Rubrics", "Version", "Title and source");
        for (Rubric rubric : rubrics) {
            line(rubric.id(), rubric.version(), rubric.title() + ". " + rubric.source());
            Rubric.PassStandard standard = rubric.passStandard();
            line(
                    null,
                    "Pass standard",
                    standard == null
                            ? "none agreed, so there is no verdict"
                            : String.format(
                                    java.util.Locale.ROOT,
                                    "%.1f %% of the applicable maximum, agreed by %s on %s",
                                    standard.share() * 100,
                                    standard.agreedBy(),
                                    standard.agreedOn()));
        }
        if (rubrics.isEmpty()) {
            line(null, null, "no ratings in this workbook");
        }
        section("Procedures", "Version", "Title and source");
        for (Procedure procedure : data.procedures()) {
            line(procedure.id(), procedure.version(), procedure.title() + ". " + procedure.source());
        }
        section("Sheets", "Rows", "What a row is");
        for (Table<?> table : tables) {
            line(table.name(), String.valueOf(table.rows().size()), table.purpose());
        }
        line("Dictionary", null, "every column of every sheet: its meaning, unit and source");
    }

    private Row row(float lines) {
        Row row = sheet.createRow(next++);
        row.setHeightInPoints(lines * Widths.LINE);
        return row;
    }

    private void section(String first, @Nullable String second, @Nullable String third) {
        row(0.6f);
        Row row = row(1.2f);
        CellStyle header = styles.header(Kind.TEXT);
        TableSheet.text(row, 0, first, header);
        for (int c = 1; c < 3; c++) {
            String text = c == 1 ? second : third;
            if (text == null) {
                row.createCell(c).setCellStyle(header);
            } else {
                TableSheet.text(row, c, text, header);
            }
        }
    }

    private void line(@Nullable String first, @Nullable String second, @Nullable String third) {
        int lines = 1;
        lines = Math.max(lines, first == null ? 0 : Widths.lines(first, FIRST - 2));
        lines = Math.max(lines, second == null ? 0 : Widths.lines(second, SECOND - 2));
        lines = Math.max(lines, third == null ? 0 : Widths.lines(third, THIRD + 5));
        Row row = row(lines);
        TableSheet.text(row, 0, first, quotable(first));
        TableSheet.text(row, 1, second, quotable(second));
        TableSheet.text(row, 2, third, quotable(third));
    }

    private CellStyle quotable(@Nullable String text) {
        return text != null && CellText.needsQuote(text) ? styles.quoted(Kind.PROSE) : styles.of(Kind.PROSE);
    }
}
