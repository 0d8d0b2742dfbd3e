package org.sideport.app.settings;

import org.sideport.model.Sha256;

/** Tells the people apart who open one workspace from accounts of their own, without writing down a name. */
public final class Persons {

    private static final int LETTERS = 8;

    private Persons() {}

    /** A short mark of the account on this machine, always the same. */
    public static String mark() {
        return mark("");
    }

    /**
     * As {@link #mark()}, of somebody who signed in.
     *
     * @param code of the person; empty for nobody
     */
    public static String mark(String code) {
        return Sha256.of(System.getProperty("user.name", "") + (code.isEmpty() ? "" : "\n" + code))
                .substring(0, LETTERS);
    }
}
