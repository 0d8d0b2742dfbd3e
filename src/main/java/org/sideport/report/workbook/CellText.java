package org.sideport.report.workbook;

import java.util.regex.Pattern;

/** Makes any text safe for a cell of a workbook. */
final class CellText {

    /** The most characters (UTF-16 units) that a cell of the format holds. */
    static final int LONGEST = 32_767;

    private static final Pattern ESCAPE = Pattern.compile("_(?=x[0-9A-Fa-f]{4}_)");

    private CellText() {}

    /**
     * The text without characters that XML 1.0 cannot hold, line ends as line feeds, and cut with a note if it is too
     * long. Texts that read like the format's own escapes ({@code _x0041_}) are escaped so that they stay as they are.
     */
    static String clean(String text) {
        return isPlain(text) ? text : mend(text);
    }

    /** True for what most cells hold, so that it need not be looked at letter by letter again. */
    private static boolean isPlain(String text) {
        if (text.length() > LONGEST) {
            return false;
        }
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c < ' ' || c > '~' || (c == '_' && i + 1 < text.length() && text.charAt(i + 1) == 'x')) {
                return false;
            }
        }
        return true;
    }

    private static String mend(String text) {
        StringBuilder kept = new StringBuilder(Math.min(text.length(), LONGEST));
        String lines = text.replace("\r\n", "\n").replace('\r', '\n');
        lines.codePoints().filter(CellText::allowed).forEach(kept::appendCodePoint);
        return cut(ESCAPE.matcher(kept).replaceAll("_x005F_"), text.length());
    }

    private static boolean allowed(int c) {
        return c == '\t'
                || c == '\n'
                || (c >= 0x20 && c < 0x7F)
                || (c >= 0xA0 && c < 0xD800)
                || (c >= 0xE000 && c < 0xFFFE)
                || c > 0xFFFF;
    }

    private static String cut(String text, int whole) {
        if (text.length() <= LONGEST) {
            return text;
        }
        String note = " [… cut: the text has " + whole + " characters, a cell holds " + LONGEST + "]";
        int end = LONGEST - note.length();
        return text.substring(0, Character.isHighSurrogate(text.charAt(end - 1)) ? end - 1 : end) + note;
    }

    /**
     * True if a spreadsheet program could take the text for a formula, a number or a date once somebody edits the cell.
     * Full-width forms of the signs are taken too.
     */
    static boolean needsQuote(String text) {
        if (text.isEmpty()) {
            return false;
        }
        char first = text.charAt(0);
        return "=+-@\t\r\n'＝＋－＠".indexOf(first) >= 0 || Character.isDigit(first) || first == '.' || first == ',';
    }
}
