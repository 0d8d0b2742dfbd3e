package org.sideport.model;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;

/** What a recording may be used for. */
public enum ConsentPurpose {
    ASSESSMENT,
    TEACHING,
    RESEARCH;

    /** As written in JSON and in the store: lower case. */
    public String id() {
        return name().toLowerCase(Locale.ROOT);
    }

    /**
     * Purposes in a list with commas, semicolons or plus signs between them; empty text gives none.
     *
     * @throws InputException if one is not known
     */
    public static Set<ConsentPurpose> parseAll(String text) {
        Set<ConsentPurpose> found = EnumSet.noneOf(ConsentPurpose.class);
        for (String word : text.split("[,;+]")) {
            if (!word.isBlank()) {
                found.add(parse(word.strip()));
            }
        }
        return found;
    }

    private static ConsentPurpose parse(String word) {
        return Arrays.stream(values())
                .filter(p -> p.id().equals(word.toLowerCase(Locale.ROOT)))
                .findFirst()
                .orElseThrow(() -> new InputException(
                        "\"" + word + "\" is no purpose of consent",
                        null,
                        "write one or more of: "
                                + Arrays.stream(values())
                                        .map(ConsentPurpose::id)
                                        .collect(Collectors.joining(", "))));
    }
}
