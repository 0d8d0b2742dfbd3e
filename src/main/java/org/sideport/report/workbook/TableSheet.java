package org.sideport.report.workbook;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import org.apache.poi.ss.SpreadsheetVersion;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.CellStyle;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.usermodel.Sheet;
import org.apache.poi.ss.usermodel.Workbook;
import org.apache.poi.ss.util.CellRangeAddress;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.report.workbook.Column.Kind;

/** Writes {@link Table}s into a workbook. */
final class TableSheet {

    /** Microseconds of a day: the format counts time in days. */
    private static final double DAY_US = 86_400e6;
    /** Characters that a landscape A4 page still shows legibly across when it is scaled to fit; by trial. */
    private static final int PAGE_CHARACTERS = 300;

    /** The highest row that the format allows, in points. */
    private static final float HIGHEST = 409;

    private final Workbook book;
    private final Styles styles;
    private final Cells cells;
    private final Headings headings;
    private final PrintSetUp print;

    TableSheet(Workbook book, Styles styles, Cells cells, Headings headings, PrintSetUp print) {
        this.book = book;
        this.styles = styles;
        this.cells = cells;
        this.headings = headings;
        this.print = print;
    }

    <R> Sheet write(Table<R> table, Progress progress) {
        int most = SpreadsheetVersion.EXCEL2007.getMaxRows() - 1;
        if (table.rows().size() > most) {
            throw new InputException(
                    "the sheet " + table.name() + " would have " + table.rows().size() + " rows, a sheet holds " + most,
                    null,
                    "export fewer cases");
        }
        Sheet sheet = book.createSheet(table.name());
        List<Column<R>> columns = table.columns();
        List<String> headers = columns.stream().map(headings::of).toList();
        int[] widths = headers.stream().mapToInt(Widths::header).toArray();
        writeHeader(sheet.createRow(0), columns, headers, widths);
        Formulas<R> formulas = new Formulas<>(columns, cells);
        int rowNumber = 0;
        for (R row : table.rows()) {
            if (rowNumber % 256 == 0) {
                progress.check();
                progress.report((double) rowNumber / table.rows().size(), table.name());
            }
            writeRow(sheet.createRow(++rowNumber), columns, row, widths, formulas);
        }
        int total = 0;
        for (int c = 0; c < widths.length; c++) {
            int units = Widths.units(widths[c]);
            sheet.setColumnWidth(c, units);
            total += units / 256;
        }
        sheet.createFreezePane(1, 1);
        sheet.setAutoFilter(new CellRangeAddress(0, rowNumber, 0, columns.size() - 1));
        print.apply(sheet, (total + PAGE_CHARACTERS - 1) / PAGE_CHARACTERS);
        sheet.setRepeatingRows(new CellRangeAddress(0, 0, -1, -1));
        sheet.setRepeatingColumns(new CellRangeAddress(-1, -1, 0, 0));
        SheetHelps.add(sheet, table, !cells.options().shared());
        return sheet;
    }

    /** First of all rows, as rows leave the memory soon after they are written. */
    private <R> void writeHeader(Row header, List<Column<R>> columns, List<String> headers, int[] widths) {
        int lines = 1;
        for (int c = 0; c < widths.length; c++) {
            int width = Math.max(Widths.NARROWEST, widths[c]) - 2;
            lines = Math.max(lines, Widths.lines(headers.get(c), width));
        }
        header.setHeightInPoints(lines * Widths.LINE + 3);
        for (int c = 0; c < columns.size(); c++) {
            Cell cell = header.createCell(c);
            cell.setCellValue(CellText.clean(headers.get(c)));
            cell.setCellStyle(styles.header(columns.get(c).kind()));
        }
    }

    private <R> void writeRow(Row target, List<Column<R>> columns, R row, int[] widths, Formulas<R> formulas) {
        int lines = 1;
        for (int c = 0; c < columns.size(); c++) {
            Column<R> column = columns.get(c);
            Object value = cells.value(column, row);
            String formula = formulas.any() ? formulas.of(column, row, target.getRowNum()) : null;
            boolean empty = value == null || value.equals("");
            if (empty && formula == null) {
                if (column.input() != null) {
                    target.createCell(c).setCellStyle(styles.input(column.kind()));
                }
                continue;
            }
            Cell cell = target.createCell(c);
            if (formula != null) {
                // the value is kept beside the formula, for programs that do not compute
                cell.setCellFormula(formula);
            }
            int shown = writeCell(cell, column, value == null ? "" : value);
            widths[c] = Math.max(widths[c], shown + 3);
            if (column.kind() == Kind.PROSE) {
                lines = Math.max(lines, Widths.lines(cell.getStringCellValue(), Widths.WIDEST + 6));
            }
        }
        if (lines > 1) {
            target.setHeightInPoints(Math.min(HIGHEST, lines * Widths.LINE));
        }
    }

    /** Writes the value and tells how many characters it shows. */
    private int writeCell(Cell cell, Column<?> column, Object value) {
        Kind kind = column.kind();
        cell.setCellStyle(column.input() != null ? styles.input(kind) : styles.of(kind));
        if (value instanceof Boolean truth) {
            cell.setCellValue(truth ? "yes" : "no");
            return 3;
        }
        if (value instanceof LocalDate date) {
            cell.setCellValue(date);
            return 10;
        }
        if (value instanceof OffsetDateTime time) {
            // Cells know no time zone; the headers of such columns say UTC.
            LocalDateTime utc = time.withOffsetSameInstant(ZoneOffset.UTC).toLocalDateTime();
            cell.setCellValue(utc);
            return 16;
        }
        if (value instanceof Number number) {
            double plain = number.doubleValue();
            cell.setCellValue(kind == Kind.CLOCK ? plain / DAY_US : plain);
            return shown(kind, plain);
        }
        String text = CellText.clean(value.toString());
        if (CellText.needsQuote(text)) {
            cell.setCellStyle(styles.quoted(kind));
        }
        cell.setCellValue(text);
        return Widths.text(text);
    }

    private static int shown(Kind kind, double value) {
        int digits = String.valueOf((long) Math.abs(value)).length() + (value < 0 ? 1 : 0);
        return switch (kind) {
            case CLOCK -> 12;
            case SECONDS -> digits + 4;
            case SHARE, POINTS -> 7;
            case FACTOR -> digits + 3;
            case COEFFICIENT -> digits + 5;
            default -> digits + 1;
        };
    }

    /** Writes plain text with a style of its own; returns the cell's text. */
    static void text(Row row, int column, @Nullable String text, CellStyle style) {
        if (text != null && !text.isEmpty()) {
            Cell cell = row.createCell(column);
            cell.setCellValue(CellText.clean(text));
            cell.setCellStyle(style);
        }
    }
}
