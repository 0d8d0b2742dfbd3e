package org.sideport.report;

import java.util.List;

/**
 * One sheet with a header row and a row for each thing.
 *
 * @param name of the sheet
 * @param purpose what a row is and what belongs to it, for the sheet "Read me"
 */
record Table<R>(String name, String purpose, List<Column<R>> columns, List<R> rows) {
    Table {
        columns = List.copyOf(columns);
        rows = List.copyOf(rows);
    }
}
