package org.sideport.app.settings;

/** Which keys do the most frequent things, beside those of the sheet of keys. */
public enum KeyLayout {
    /** Only those of the sheet. */
    STANDARD,
    /** The number pad, for the right hand. */
    RIGHT_HAND,
    /** The left side of the letters, for the left hand; phases keep their other keys. */
    LEFT_HAND;

    /** The layout of a name; {@link #STANDARD} for one that is not known. */
    public static KeyLayout of(String name) {
        for (KeyLayout layout : values()) {
            if (layout.name().equals(name)) {
                return layout;
            }
        }
        return STANDARD;
    }
}
