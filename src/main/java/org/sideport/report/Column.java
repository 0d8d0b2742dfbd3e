package org.sideport.report;

import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * One column of a table sheet.
 *
 * @param header its name, unique in the sheet
 * @param meaning its definition for the sheet "Read me"
 * @param value reads the cell's value from a row: text, number, date or truth; {@code null} leaves the cell blank
 */
record Column<R>(String header, String meaning, Kind kind, Function<R, @Nullable Object> value) {

    /** What the cells hold and how they look. The formats are those of every spreadsheet program. */
    enum Kind {
        TEXT("General"),
        /** long text, wrapped */
        PROSE("General"),
        WHOLE("0"),
        NUMBER("General"),
        /** 0 to 1, shown as per cent */
        SHARE("0.0%"),
        /** seconds as a number, so that it can be reckoned with */
        SECONDS("0.000"),
        /** microseconds in, shown as a time of any length */
        CLOCK("[h]:mm:ss.000"),
        FACTOR("0.00"),
        DATE("yyyy-mm-dd"),
        DATE_TIME("yyyy-mm-dd hh:mm");

        private final String format;

        Kind(String format) {
            this.format = format;
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
    }
}
