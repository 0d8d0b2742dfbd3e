package org.sideport.model;

import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;

/** Why an item has no mark. It never counts as zero. */
public enum NotApplicable {
    DONE_BY_TRAINER,
    NOT_VISIBLE,
    NOT_PERFORMED;

    /** As written in files: lower case. */
    public String id() {
        return name().toLowerCase(Locale.ROOT);
    }

    /**
     * @throws InputException if the text names no reason
     */
    public static NotApplicable parse(String text) {
        for (NotApplicable reason : values()) {
            if (reason.id().equals(text.trim().toLowerCase(Locale.ROOT))) {
                return reason;
            }
        }
        throw new InputException(
                "unknown reason \"" + text + "\" for not applicable",
                null,
                "write one of " + Arrays.stream(values()).map(NotApplicable::id).collect(Collectors.joining(", ")));
    }
}
