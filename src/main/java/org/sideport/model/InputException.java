package org.sideport.model;

import org.jspecify.annotations.Nullable;

/**
 * Input that cannot be used: says what is wrong, where, and how to mend it. Faces show {@link #getMessage()} as it is
 * and end with exit code 2; nothing has been changed when it is thrown.
 */
public class InputException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    private final String what;
    private final @Nullable String where;
    private final @Nullable String remedy;

    public InputException(String what, @Nullable String where, @Nullable String remedy) {
        this(what, where, remedy, null);
    }

    public InputException(String what, @Nullable String where, @Nullable String remedy, @Nullable Throwable cause) {
        super(compose(what, where, remedy), cause);
        this.what = what;
        this.where = where;
        this.remedy = remedy;
    }

    private static String compose(String what, @Nullable String where, @Nullable String remedy) {
        return (where == null ? "" : where + ": ") + what + (remedy == null ? "" : " — " + remedy);
    }

    /** The same problem, with its place named. */
    public InputException at(String place) {
        return new InputException(what, where == null ? place : place + ", " + where, remedy, this);
    }

    public String what() {
        return what;
    }

    public @Nullable String where() {
        return where;
    }

    public @Nullable String remedy() {
        return remedy;
    }
}
