package org.sideport.rubric;

import java.util.Comparator;
import org.jspecify.annotations.Nullable;

/**
 * One fault of a file.
 *
 * @param path JSON Pointer (RFC 6901) of the place, such as {@code /items/3/weight}; empty for the whole file
 * @param line from 1; {@code null} where the place has no line
 * @param column from 1; {@code null} likewise
 * @param text what is wrong
 * @param remedy how to mend it
 */
public record Finding(
        Severity severity,
        String path,
        @Nullable Integer line,
        @Nullable Integer column,
        String text,
        String remedy) {

    public enum Severity {
        /** The file cannot be used. */
        ERROR,
        /** The file can be used, but somebody should look. */
        WARNING
    }

    static final Comparator<Finding> IN_FILE_ORDER =
            Comparator.comparing((Finding f) -> orZero(f.line)).thenComparing(f -> orZero(f.column));

    private static int orZero(@Nullable Integer number) {
        return number == null ? 0 : number;
    }

    public boolean isError() {
        return severity == Severity.ERROR;
    }

    /** Line, column and path for people, as far as they are known: {@code line 4, column 7, /items/3/weight}. */
    public String place() {
        String at = line == null ? "" : "line " + line + (column == null ? "" : ", column " + column);
        return at.isEmpty() || path.isEmpty() ? at + path : at + ", " + path;
    }
}
