package org.sideport.model;

import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;

/** How a case's consent stands to one use of it, where that use is not agreed to. */
public enum ConsentSituation {
    /** Nobody recorded anything. */
    UNKNOWN(ConsentRuling.WARN),
    /** Asked for, not answered. */
    ASKED(ConsentRuling.WARN),
    /** Given, but for other uses only. */
    OTHER_PURPOSE(ConsentRuling.REFUSE),
    REFUSED(ConsentRuling.REFUSE);

    private final ConsentRuling usual;

    ConsentSituation(ConsentRuling usual) {
        this.usual = usual;
    }

    /** What happens unless the unit decided otherwise: common practice, no source; local law decides. */
    public ConsentRuling usual() {
        return usual;
    }

    /** As stored and written on the command line: lower case. */
    public String id() {
        return name().toLowerCase(Locale.ROOT);
    }

    /**
     * @throws InputException if the text is none of them
     */
    public static ConsentSituation parse(String text) {
        return Arrays.stream(values())
                .filter(s -> s.id().equals(text.strip().toLowerCase(Locale.ROOT)))
                .findFirst()
                .orElseThrow(() -> new InputException(
                        "\"" + text + "\" is nothing that a unit can decide about",
                        null,
                        "write one of: "
                                + Arrays.stream(values())
                                        .map(ConsentSituation::id)
                                        .collect(Collectors.joining(", "))
                                + "; a withdrawn case is always hidden"));
    }
}
