package org.sideport.model;

/** How grave an event was, in the eyes of the annotator. */
public enum Severity {
    MINOR,
    MODERATE,
    MAJOR;

    /** As written in files: lower case. */
    public String id() {
        return name().toLowerCase(java.util.Locale.ROOT);
    }

    /**
     * @throws InputException if the text names no severity
     */
    public static Severity parse(String text) {
        for (Severity severity : values()) {
            if (severity.id().equals(text.trim().toLowerCase(java.util.Locale.ROOT))) {
                return severity;
            }
        }
        throw new InputException(
                "unknown severity \"" + text + "\"", null, "write minor, moderate or major, or leave it empty");
    }
}
