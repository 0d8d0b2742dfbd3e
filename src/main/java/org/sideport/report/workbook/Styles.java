package org.sideport.report.workbook;

import java.util.EnumMap;
import java.util.Map;
import org.apache.poi.ss.usermodel.BorderStyle;
import org.apache.poi.ss.usermodel.CellStyle;
import org.apache.poi.ss.usermodel.Color;
import org.apache.poi.ss.usermodel.FillPatternType;
import org.apache.poi.ss.usermodel.Font;
import org.apache.poi.ss.usermodel.HorizontalAlignment;
import org.apache.poi.ss.usermodel.VerticalAlignment;
import org.apache.poi.ss.usermodel.Workbook;
import org.apache.poi.xssf.usermodel.XSSFColor;
import org.sideport.report.workbook.Column.Kind;

/** The cell styles of one workbook, each made once: a workbook holds a limited number. */
final class Styles {

    private static final Color HEADER = new XSSFColor(new byte[] {(byte) 0xE9, (byte) 0xEC, (byte) 0xEF});

    private static final Color FIELD = new XSSFColor(new byte[] {(byte) 0xF8, (byte) 0xF6, (byte) 0xEA});

    static final String FACE = "Arial";

    private final Map<Kind, CellStyle> plain = new EnumMap<>(Kind.class);
    private final Map<Kind, CellStyle> quoted = new EnumMap<>(Kind.class);
    private final Map<Kind, CellStyle> input = new EnumMap<>(Kind.class);
    private final CellStyle textHeader;
    private final CellStyle numberHeader;
    private final CellStyle title;

    Styles(Workbook book) {
        // on every machine, or in its measures: another face in each row would be ugly
        book.getFontAt(0).setFontName(FACE);
        for (Kind kind : Kind.values()) {
            plain.put(kind, style(book, kind, false));
            quoted.put(kind, style(book, kind, true));
            input.put(kind, framed(style(book, kind, false)));
        }
        Font boldFont = font(book, 11);
        textHeader = header(book, boldFont, HorizontalAlignment.LEFT);
        numberHeader = header(book, boldFont, HorizontalAlignment.RIGHT);
        title = book.createCellStyle();
        title.setFont(font(book, 16));
    }

    private static Font font(Workbook book, int points) {
        Font font = book.createFont();
        font.setFontName(FACE);
        font.setBold(true);
        font.setFontHeightInPoints((short) points);
        return font;
    }

    private static CellStyle header(Workbook book, Font font, HorizontalAlignment alignment) {
        CellStyle header = book.createCellStyle();
        header.setFont(font);
        header.setWrapText(true);
        header.setVerticalAlignment(VerticalAlignment.BOTTOM);
        align(header, alignment);
        header.setFillForegroundColor(HEADER);
        header.setFillPattern(FillPatternType.SOLID_FOREGROUND);
        header.setBorderBottom(BorderStyle.THIN);
        return header;
    }

    private static void align(CellStyle style, HorizontalAlignment alignment) {
        style.setAlignment(alignment);
        // Keeps a number off the text in the next column.
        style.setIndention((short) 1);
    }

    private static CellStyle style(Workbook book, Kind kind, boolean quote) {
        CellStyle style = book.createCellStyle();
        style.setDataFormat(book.createDataFormat().getFormat(kind.format()));
        style.setVerticalAlignment(VerticalAlignment.TOP);
        align(style, kind.isNumber() ? HorizontalAlignment.RIGHT : HorizontalAlignment.LEFT);
        style.setWrapText(kind == Kind.PROSE);
        style.setQuotePrefixed(quote);
        return style;
    }

    /** Looks like a field to be filled in. */
    private static CellStyle framed(CellStyle style) {
        style.setBorderTop(BorderStyle.THIN);
        style.setBorderBottom(BorderStyle.THIN);
        style.setBorderLeft(BorderStyle.THIN);
        style.setBorderRight(BorderStyle.THIN);
        style.setFillForegroundColor(FIELD);
        style.setFillPattern(FillPatternType.SOLID_FOREGROUND);
        return style;
    }

    CellStyle of(Kind kind) {
        return get(plain, kind);
    }

    /** For a cell that is to be typed in. */
    CellStyle input(Kind kind) {
        return get(input, kind);
    }

    /** For text that must not become anything else when somebody edits the cell. */
    CellStyle quoted(Kind kind) {
        return get(quoted, kind);
    }

    private static CellStyle get(Map<Kind, CellStyle> styles, Kind kind) {
        CellStyle style = styles.get(kind);
        if (style == null) {
            throw new IllegalStateException(kind.name());
        }
        return style;
    }

    /** Headers stand above their values: numbers to the right. */
    CellStyle header(Kind kind) {
        return kind.isNumber() ? numberHeader : textHeader;
    }

    CellStyle title() {
        return title;
    }
}
