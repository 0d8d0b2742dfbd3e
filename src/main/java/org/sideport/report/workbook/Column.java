package org.sideport.report.workbook;

import java.util.Locale;
import java.util.function.Function;
import java.util.function.ToIntFunction;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * One column of a table sheet.
 *
 * @param header its name in English, unique in the sheet
 * @param meaning its definition for the sheet "Dictionary"
 * @param value reads the cell's value from a row: text, number, date or truth; {@code null} leaves the cell blank
 * @param source where the value comes from, for the dictionary
 * @param formula what a spreadsheet program computes in the row, equal to the value, with {@code {Header}} for the cell of
 *     another column in the same row; {@code null} for a column of plain values. Blank where it gives an empty text
 * @param name under which formulas know the column's cells; {@code null} for none
 * @param rests how many cases or marks the cell rests on; cells that rest on few are left blank in a shared workbook;
 *     {@code null} for a column that tells nothing of anybody
 * @param bar whether a grey bar shows the value from 0 to 1
 * @param input what may be typed into the cells; {@code null} for cells that are not to be typed in
 */
record Column<R>(
        String header,
        String meaning,
        Kind kind,
        Function<R, @Nullable Object> value,
        String source,
        @Nullable Function<R, @Nullable String> formula,
        @Nullable String name,
        @Nullable ToIntFunction<R> rests,
        boolean bar,
        @Nullable Input input) {

    private static final Pattern NOT_CODE = Pattern.compile("[^a-z0-9]+");
    private static final Pattern EDGES = Pattern.compile("^_|_$");

    /** A number that may be typed in, with its limits and what is said with them. */
    record Input(boolean whole, double least, double most, String prompt) {}

    /** What the cells hold and how they look. The formats are those of every spreadsheet program. */
    enum Kind {
        TEXT("General", ""),
        /** long text, wrapped */
        PROSE("General", ""),
        WHOLE("0", "number"),
        /** how many cases, marks or people; small ones are masked in a shared workbook */
        COUNT("0", "number"),
        NUMBER("General", "number"),
        /** 0 to 1, shown as per cent */
        SHARE("0.0%", "share, 0 to 1, shown as per cent"),
        /** difference of shares, with its sign */
        POINTS("+0.0%;-0.0%;0.0%", "difference of shares, shown in percentage points"),
        /** seconds as a number, so that it can be reckoned with */
        SECONDS("0.000", "seconds"),
        /** microseconds in, shown as a time of any length */
        CLOCK("[h]:mm:ss.000", "h:mm:ss"),
        FACTOR("0.00", "number"),
        /** a coefficient between 0 and 1 or a small variance */
        COEFFICIENT("0.0000", "number"),
        DATE("yyyy-mm-dd", "date"),
        DATE_TIME("yyyy-mm-dd hh:mm", "date and time, UTC");

        private final String format;
        private final String unit;

        Kind(String format, String unit) {
            this.format = format;
            this.unit = unit;
        }

        /** True if the values are lined up to the right; dates, all of one length, read like text. */
        boolean isNumber() {
            return switch (this) {
                case TEXT, PROSE, DATE, DATE_TIME -> false;
                default -> true;
            };
        }

        String format() {
            return format;
        }

        /** For the dictionary; empty for texts. */
        String unit() {
            return unit;
        }
    }

    /** The same in every language, for CSV and programs: small letters, digits and low lines. */
    String code() {
        return code(header);
    }

    static String code(String header) {
        String plain = header.replace("%", "percent").replace("Φ", "phi");
        String code = NOT_CODE.matcher(plain.toLowerCase(Locale.ROOT)).replaceAll("_");
        return EDGES.matcher(code).replaceAll("");
    }
}
