package org.sideport.report.workbook;

import java.util.List;
import java.util.Locale;

/**
 * One sheet with a header row and a row for each thing.
 *
 * @param name of the sheet, the same in every language
 * @param purpose what a row is and what belongs to it, for the sheet "Read me"
 * @param single whether a row is a single case, mark or tag rather than a summary
 */
record Table<R>(String name, String purpose, List<Column<R>> columns, List<R> rows, boolean single) {
    Table {
        columns = List.copyOf(columns);
        rows = List.copyOf(rows);
    }

    /** For file names and named ranges. */
    String code() {
        return name.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "_");
    }
}
