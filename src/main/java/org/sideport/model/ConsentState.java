package org.sideport.model;

import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;

/** Whether the patient agreed to the use of the recording. The consent itself is kept where the unit keeps it. */
public enum ConsentState {
    UNKNOWN,
    ASKED,
    GIVEN,
    REFUSED,
    WITHDRAWN;

    /** As written in JSON and in the store: lower case. */
    public String id() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** True where the recording should not be used unless local rules say otherwise. */
    public boolean isAgainst() {
        return this == REFUSED || this == WITHDRAWN;
    }

    /**
     * @throws InputException if the text is none of the states
     */
    public static ConsentState parse(String text) {
        String wanted = text.strip().toLowerCase(Locale.ROOT);
        return Arrays.stream(values())
                .filter(s -> s.id().equals(wanted))
                .findFirst()
                .orElseThrow(() -> new InputException(
                        "\"" + text + "\" is no state of consent",
                        null,
                        "write one of: "
                                + Arrays.stream(values()).map(ConsentState::id).collect(Collectors.joining(", "))));
    }
}
