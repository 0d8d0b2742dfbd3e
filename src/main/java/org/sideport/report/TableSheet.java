package org.sideport.report;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import org.apache.poi.ss.SpreadsheetVersion;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.PrintSetup;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.usermodel.Sheet;
import org.apache.poi.ss.usermodel.Workbook;
import org.apache.poi.ss.util.CellRangeAddress;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.report.Column.Kind;

/** Writes {@link Table}s into a workbook. */
final class TableSheet {

    /** Microseconds of a day: the format counts time in days. */
    private static final double DAY_US = 86_400e6;
    /** Characters that a landscape A4 page still shows legibly across when it is scaled to fit; by trial. */
    private static final int PAGE_CHARACTERS = 340;

    /** The highest row that the format allows, in points. */
    private static final float HIGHEST = 409;

    private final Workbook book;
    private final Styles styles;
    private final String foot;

    TableSheet(Workbook book, Styles styles, String foot) {
        this.book = book;
        this.styles = styles;
        this.foot = foot;
    }

    <R> void write(Table<R> table, Progress progress) {
        int most = SpreadsheetVersion.EXCEL2007.getMaxRows() - 1;
        if (table.rows().size() > most) {
            throw new InputException(
                    "the sheet " + table.name() + " would have " + table.rows().size() + " rows, a sheet holds " + most,
                    null,
                    "export fewer cases");
        }
        Sheet sheet = book.createSheet(table.name());
        List<Column<R>> columns = table.columns();
        int[] widths = columns.stream().mapToInt(c -> Widths.header(c.header())).toArray();
        writeHeader(sheet.createRow(0), columns, widths);
        int rowNumber = 0;
        for (R row : table.rows()) {
            if (rowNumber % 256 == 0) {
                progress.check();
                progress.report((double) rowNumber / table.rows().size(), table.name());
            }
            writeRow(sheet.createRow(++rowNumber), columns, row, widths);
        }
        int total = 0;
        for (int c = 0; c < widths.length; c++) {
            int units = Widths.units(widths[c]);
            sheet.setColumnWidth(c, units);
            total += units / 256;
        }
        sheet.createFreezePane(1, 1);
        sheet.setAutoFilter(new CellRangeAddress(0, rowNumber, 0, columns.size() - 1));
        print(sheet, (total + PAGE_CHARACTERS - 1) / PAGE_CHARACTERS);
        sheet.setRepeatingRows(new CellRangeAddress(0, 0, -1, -1));
        sheet.setRepeatingColumns(new CellRangeAddress(-1, -1, 0, 0));
    }

    /** First of all rows, as rows leave the memory soon after they are written. */
    private <R> void writeHeader(Row header, List<Column<R>> columns, int[] widths) {
        int lines = 1;
        for (int c = 0; c < widths.length; c++) {
            int width = Math.max(Widths.NARROWEST, widths[c]) - 2;
            lines = Math.max(lines, Widths.lines(columns.get(c).header(), width));
        }
        header.setHeightInPoints(lines * Widths.LINE + 3);
        for (int c = 0; c < columns.size(); c++) {
            Cell cell = header.createCell(c);
            cell.setCellValue(columns.get(c).header());
            cell.setCellStyle(styles.header(columns.get(c).kind()));
        }
    }

    private <R> void writeRow(Row target, List<Column<R>> columns, R row, int[] widths) {
        int lines = 1;
        for (int c = 0; c < columns.size(); c++) {
            Column<R> column = columns.get(c);
            Object value = column.value().apply(row);
            if (value != null && !value.equals("")) {
                Cell cell = target.createCell(c);
                widths[c] = Math.max(widths[c], writeCell(cell, column.kind(), value) + 3);
                if (column.kind() == Kind.PROSE) {
                    lines = Math.max(lines, Widths.lines(cell.getStringCellValue(), Widths.WIDEST + 6));
                }
            }
        }
        if (lines > 1) {
            target.setHeightInPoints(Math.min(HIGHEST, lines * Widths.LINE));
        }
    }

    /** Writes the value and tells how many characters it shows. */
    private int writeCell(Cell cell, Kind kind, Object value) {
        cell.setCellStyle(styles.of(kind));
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
        int digits = String.valueOf((long) Math.abs(value)).length();
        return switch (kind) {
            case CLOCK -> 12;
            case SECONDS -> digits + 4;
            case SHARE -> 6;
            case FACTOR -> digits + 3;
            default -> digits + 1;
        };
    }

    /** @param pages how many pages the columns are spread over */
    void print(Sheet sheet, int pages) {
        sheet.setFitToPage(true);
        PrintSetup setup = sheet.getPrintSetup();
        setup.setPaperSize(PrintSetup.A4_PAPERSIZE);
        setup.setLandscape(true);
        setup.setFitWidth((short) Math.max(1, pages));
        setup.setFitHeight((short) 0);
        sheet.getHeader().setLeft("&A");
        sheet.getHeader().setRight(Cautions.SHORT);
        sheet.getFooter().setLeft(foot.replace("&", "&&"));
        sheet.getFooter().setRight("Page &P of &N");
    }

    /** Writes plain text with a style of its own; returns the cell's text. */
    static void text(Row row, int column, @Nullable String text, org.apache.poi.ss.usermodel.CellStyle style) {
        if (text != null && !text.isEmpty()) {
            Cell cell = row.createCell(column);
            cell.setCellValue(CellText.clean(text));
            cell.setCellStyle(style);
        }
    }
}
