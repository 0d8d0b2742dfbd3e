package org.sideport.report;

import java.util.EnumMap;
import java.util.Map;
import org.apache.poi.ss.usermodel.BorderStyle;
import org.apache.poi.ss.usermodel.CellStyle;
import org.apache.poi.ss.usermodel.FillPatternType;
import org.apache.poi.ss.usermodel.Font;
import org.apache.poi.ss.usermodel.IndexedColors;
import org.apache.poi.ss.usermodel.VerticalAlignment;
import org.apache.poi.ss.usermodel.Workbook;
import org.sideport.report.Column.Kind;

/** The cell styles of one workbook, each made once: a workbook holds a limited number. */
final class Styles {

    private final Map<Kind, CellStyle> plain = new EnumMap<>(Kind.class);
    private final Map<Kind, CellStyle> quoted = new EnumMap<>(Kind.class);
    private final CellStyle header;
    private final CellStyle title;
    private final CellStyle bold;

    Styles(Workbook book) {
        for (Kind kind : Kind.values()) {
            plain.put(kind, style(book, kind, false));
            quoted.put(kind, style(book, kind, true));
        }
        Font boldFont = font(book, 11);
        header = book.createCellStyle();
        header.setFont(boldFont);
        header.setWrapText(true);
        header.setVerticalAlignment(VerticalAlignment.BOTTOM);
        header.setFillForegroundColor(IndexedColors.GREY_25_PERCENT.getIndex());
        header.setFillPattern(FillPatternType.SOLID_FOREGROUND);
        header.setBorderBottom(BorderStyle.THIN);
        title = book.createCellStyle();
        title.setFont(font(book, 16));
        bold = book.createCellStyle();
        bold.setFont(boldFont);
        bold.setVerticalAlignment(VerticalAlignment.TOP);
    }

    private static Font font(Workbook book, int points) {
        Font font = book.createFont();
        font.setBold(true);
        font.setFontHeightInPoints((short) points);
        return font;
    }

    private static CellStyle style(Workbook book, Kind kind, boolean quote) {
        CellStyle style = book.createCellStyle();
        style.setDataFormat(book.createDataFormat().getFormat(kind.format()));
        style.setVerticalAlignment(VerticalAlignment.TOP);
        style.setWrapText(kind == Kind.PROSE);
        style.setQuotePrefixed(quote);
        return style;
    }

    CellStyle of(Kind kind) {
        return get(plain, kind);
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

    CellStyle header() {
        return header;
    }

    CellStyle title() {
        return title;
    }

    CellStyle bold() {
        return bold;
    }
}
