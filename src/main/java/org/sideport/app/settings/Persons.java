package org.sideport.app.settings;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

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
        try {
            byte[] digest = MessageDigest.getInstance("SHA-256")
                    .digest((System.getProperty("user.name", "") + (code.isEmpty() ? "" : "\n" + code))
                            .getBytes(StandardCharsets.UTF_8));
            return HexFormat.of().formatHex(digest).substring(0, LETTERS);
        } catch (NoSuchAlgorithmException impossible) {
            throw new IllegalStateException(impossible);
        }
    }
}
