package org.sideport.model;

/** Who operated during a phase span. */
public enum Operator {
    TRAINEE,
    TRAINER,
    ASSISTED;

    /** As written in files: lower case. */
    public String id() {
        return name().toLowerCase(java.util.Locale.ROOT);
    }

    /**
     * @throws InputException if the text names no operator
     */
    public static Operator parse(String text) {
        for (Operator operator : values()) {
            if (operator.id().equals(text.trim().toLowerCase(java.util.Locale.ROOT))) {
                return operator;
            }
        }
        throw new InputException(
                "unknown operator \"" + text + "\"", null, "write trainee, trainer or assisted, or leave it empty");
    }
}
