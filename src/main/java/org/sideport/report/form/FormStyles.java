package org.sideport.report.form;

import org.apache.poi.ss.usermodel.BorderStyle;
import org.apache.poi.ss.usermodel.CellStyle;
import org.apache.poi.ss.usermodel.FillPatternType;
import org.apache.poi.ss.usermodel.Font;
import org.apache.poi.ss.usermodel.HorizontalAlignment;
import org.apache.poi.ss.usermodel.VerticalAlignment;
import org.apache.poi.ss.usermodel.Workbook;
import org.apache.poi.xssf.usermodel.XSSFColor;

/** The cell styles of a form; only inputs are unlocked. */
final class FormStyles {

    /** Light enough to write on, told from the paper on grey printers by its border. */
    private static final XSSFColor INPUT = new XSSFColor(new byte[] {(byte) 0xFF, (byte) 0xF8, (byte) 0xE1});

    private static final XSSFColor BAND = new XSSFColor(new byte[] {(byte) 0xE9, (byte) 0xEC, (byte) 0xEF});

    final CellStyle title;
    final CellStyle prose;
    final CellStyle header;
    final CellStyle domain;
    final CellStyle item;
    final CellStyle number;
    final CellStyle anchor;
    final CellStyle markInput;
    final CellStyle textInput;
    final CellStyle closed;

    FormStyles(Workbook book) {
        title = style(book, font(book, 14, true), null, false, true);
        prose = style(book, font(book, 10, false), null, false, true);
        header = style(book, font(book, 10, true), BAND, true, true);
        domain = style(book, font(book, 11, true), BAND, true, true);
        item = style(book, font(book, 10, false), null, true, true);
        number = style(book, font(book, 10, false), null, true, true);
        anchor = style(book, font(book, 9, false), null, true, true);
        markInput = style(book, font(book, 12, true), INPUT, true, false);
        markInput.setAlignment(HorizontalAlignment.CENTER);
        textInput = style(book, font(book, 10, false), INPUT, true, false);
        // whatever is typed stays what it is: no formula, no date
        textInput.setDataFormat(book.createDataFormat().getFormat("@"));
        closed = style(book, font(book, 10, false), BAND, true, true);
    }

    private static Font font(Workbook book, int points, boolean bold) {
        Font font = book.createFont();
        font.setFontHeightInPoints((short) points);
        font.setBold(bold);
        return font;
    }

    private static CellStyle style(
            Workbook book,
            Font font,
            @org.jspecify.annotations.Nullable XSSFColor fill,
            boolean border,
            boolean locked) {
        CellStyle style = book.createCellStyle();
        style.setFont(font);
        style.setWrapText(true);
        style.setVerticalAlignment(VerticalAlignment.TOP);
        style.setAlignment(HorizontalAlignment.LEFT);
        style.setLocked(locked);
        if (fill != null) {
            style.setFillForegroundColor(fill);
            style.setFillPattern(FillPatternType.SOLID_FOREGROUND);
        }
        if (border) {
            style.setBorderBottom(BorderStyle.THIN);
            style.setBorderTop(BorderStyle.THIN);
            style.setBorderLeft(BorderStyle.THIN);
            style.setBorderRight(BorderStyle.THIN);
        }
        return style;
    }
}
