package org.sideport.report.workbook;

import java.util.function.ToIntFunction;
import org.jspecify.annotations.Nullable;
import org.sideport.report.workbook.Column.Kind;

/** What the cells of a table show, the same on the sheet and in CSV. */
record Cells(WorkbookOptions options) {

    <R> @Nullable Object value(Column<R> column, R row) {
        if (!options.shared()) {
            return column.value().apply(row);
        }
        ToIntFunction<R> rests = column.rests();
        if (rests != null && options.masks(rests.applyAsInt(row))) {
            return null;
        }
        Object value = column.value().apply(row);
        return column.kind() == Kind.COUNT && value instanceof Number n && options.masks(n.intValue())
                ? (Object) ("<" + options.maskBelow())
                : value;
    }

    /** Formulas need the single cases, which a shared workbook does not hold. */
    <R> @Nullable String formula(Column<R> column, R row) {
        return options.shared() || column.formula() == null
                ? null
                : column.formula().apply(row);
    }
}
