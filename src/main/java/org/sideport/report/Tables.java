package org.sideport.report;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.sideport.report.Column.Kind;

/** Collects the columns of a table one after the other. */
final class Tables<R> {

    private final List<Column<R>> columns = new ArrayList<>();

    Tables<R> add(String header, Kind kind, String meaning, Function<R, @Nullable Object> value) {
        columns.add(new Column<>(header, meaning, kind, value));
        return this;
    }

    Table<R> table(String name, String purpose, List<R> rows) {
        return new Table<>(name, purpose, columns, rows);
    }

    /** Microseconds as seconds. */
    static @Nullable Double seconds(@Nullable Number us) {
        return us == null ? null : (Double) (us.doubleValue() / 1e6);
    }
}
