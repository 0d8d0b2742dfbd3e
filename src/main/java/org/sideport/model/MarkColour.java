package org.sideport.model;

import java.util.Locale;

/** Colours of drawings: five of the set of Okabe and Ito (2008), which people with any colour vision can tell apart. */
public enum MarkColour {
    YELLOW,
    SKY_BLUE,
    VERMILION,
    GREEN,
    PURPLE;

    /** As written in files and style classes: lower case with hyphens. */
    public String id() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /**
     * @throws InputException if the text names no colour
     */
    public static MarkColour parse(String text) {
        for (MarkColour colour : values()) {
            if (colour.id().equals(text)) {
                return colour;
            }
        }
        throw new InputException("unknown colour \"" + text + "\"", null, null);
    }
}
