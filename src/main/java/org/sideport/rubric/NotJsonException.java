package org.sideport.rubric;

import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.rubric.Finding.Severity;

/** The text is no JSON object; remembers the place. */
final class NotJsonException extends InputException {

    private static final long serialVersionUID = 1L;

    private final @Nullable Integer line;
    private final @Nullable Integer column;

    NotJsonException(
            String what,
            String file,
            @Nullable Integer line,
            @Nullable Integer column,
            String remedy,
            @Nullable Throwable cause) {
        super(what, line == null ? file : file + ", line " + line + ", column " + column, remedy, cause);
        this.line = line;
        this.column = column;
    }

    Finding finding() {
        String remedy = remedy();
        return new Finding(Severity.ERROR, "", line, column, what(), remedy == null ? "" : remedy);
    }
}
