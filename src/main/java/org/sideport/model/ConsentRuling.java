package org.sideport.model;

import java.util.Arrays;
import java.util.Locale;

/** What becomes of a use that is not agreed to. */
public enum ConsentRuling {
    ALLOW,
    WARN,
    REFUSE;

    /** As stored and written on the command line: lower case. */
    public String id() {
        return name().toLowerCase(Locale.ROOT);
    }

    /**
     * @throws InputException if the text is none of them
     */
    public static ConsentRuling parse(String text) {
        return Arrays.stream(values())
                .filter(r -> r.id().equals(text.strip().toLowerCase(Locale.ROOT)))
                .findFirst()
                .orElseThrow(
                        () -> new InputException("\"" + text + "\" is no ruling", null, "write allow, warn or refuse"));
    }
}
