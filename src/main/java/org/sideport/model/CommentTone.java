package org.sideport.model;

import java.util.Locale;

/** What a comment is meant as. */
public enum CommentTone {
    /** something done well */
    PRAISE,
    /** something to do better */
    IMPROVE,
    /** something to be answered */
    QUESTION;

    /** As written in files: lower case. */
    public String id() {
        return name().toLowerCase(Locale.ROOT);
    }

    /**
     * @throws InputException if the text names no tone
     */
    public static CommentTone parse(String text) {
        for (CommentTone tone : values()) {
            if (tone.id().equals(text.strip().toLowerCase(Locale.ROOT))) {
                return tone;
            }
        }
        throw new InputException("unknown tone \"" + text + "\"", null, "write praise, improve or question");
    }
}
