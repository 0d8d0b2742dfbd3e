package org.sideport.report.workbook;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import java.util.function.ToIntFunction;
import org.jspecify.annotations.Nullable;
import org.sideport.report.workbook.Column.Kind;

/** Collects the columns of a table one after the other. */
final class Tables<R> {

    private final List<Column<R>> columns = new ArrayList<>();
    private String source;
    private @Nullable ToIntFunction<R> rests;

    /** @param source where the values of the columns that follow come from */
    Tables(String source) {
        this.source = source;
    }

    /** Of the columns that follow. */
    Tables<R> source(String now) {
        source = now;
        return this;
    }

    /** The columns that follow rest on so many cases or marks. */
    Tables<R> restOn(@Nullable ToIntFunction<R> n) {
        rests = n;
        return this;
    }

    Tables<R> add(String header, Kind kind, String meaning, Function<R, @Nullable Object> value) {
        columns.add(new Column<>(header, meaning, kind, value, source, null, null, rests, false, null));
        return this;
    }

    private Column<R> last() {
        return columns.remove(columns.size() - 1);
    }

    /** The column added last is computed by the spreadsheet program too. */
    Tables<R> formula(String formula) {
        return formula(row -> formula);
    }

    /** As {@link #formula(String)}; {@code null} for a row without one. */
    Tables<R> formula(Function<R, @Nullable String> formula) {
        Column<R> c = last();
        columns.add(new Column<>(
                c.header(),
                c.meaning(),
                c.kind(),
                c.value(),
                "live formula; " + c.source(),
                formula,
                c.name(),
                c.rests(),
                c.bar(),
                c.input()));
        return this;
    }

    /** The cells of the column added last are known to formulas by this name. */
    Tables<R> named(String name) {
        Column<R> c = last();
        columns.add(new Column<>(
                c.header(),
                c.meaning(),
                c.kind(),
                c.value(),
                c.source(),
                c.formula(),
                name,
                c.rests(),
                c.bar(),
                c.input()));
        return this;
    }

    /** The column added last has grey bars. */
    Tables<R> bars() {
        Column<R> c = last();
        columns.add(new Column<>(
                c.header(),
                c.meaning(),
                c.kind(),
                c.value(),
                c.source(),
                c.formula(),
                c.name(),
                c.rests(),
                true,
                null));
        return this;
    }

    /** The cells of the column added last are to be typed in. */
    Tables<R> input(Column.Input input) {
        Column<R> c = last();
        columns.add(new Column<>(
                c.header(),
                c.meaning(),
                c.kind(),
                c.value(),
                "to be typed in; " + c.source(),
                c.formula(),
                c.name(),
                c.rests(),
                c.bar(),
                input));
        return this;
    }

    /** As {@link #input(Column.Input)}, each cell with limits of its own. */
    Tables<R> framed() {
        return input(new Column.Input(false, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY, ""));
    }

    /** A table whose rows are single cases, marks or tags: left out of a shared workbook. */
    Table<R> table(String name, String purpose, List<R> rows) {
        return new Table<>(name, purpose, columns, rows, true);
    }

    /** A table whose rows are over several cases, so that it can be shared. */
    Table<R> summary(String name, String purpose, List<R> rows) {
        return new Table<>(name, purpose, columns, rows, false);
    }

    /** Microseconds as seconds. */
    static @Nullable Double seconds(@Nullable Number us) {
        return us == null ? null : (Double) (us.doubleValue() / 1e6);
    }
}
