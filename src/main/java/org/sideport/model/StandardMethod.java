package org.sideport.model;

import java.util.Locale;

/** How a standard was found. */
public enum StandardMethod {
    /** judges say for each item what a person who only just passes would get */
    ANGOFF,
    /** scores regressed on global grades, read at the borderline grade */
    BORDERLINE_REGRESSION,
    /** mean score of the performances graded borderline */
    BORDERLINE_GROUP,
    /** between the scores of those not yet competent and of the competent */
    CONTRASTING_GROUPS,
    /** a share that a body agreed without a computation */
    AGREED;

    /** As written in files and in the store: lower case. */
    public String id() {
        return name().toLowerCase(Locale.ROOT);
    }

    /**
     * @throws InputException if there is no such method
     */
    public static StandardMethod parse(String text) {
        String wanted = text.strip().toUpperCase(Locale.ROOT).replace('-', '_');
        for (StandardMethod method : values()) {
            if (method.name().equals(wanted)) {
                return method;
            }
        }
        throw new InputException(
                "there is no method " + text,
                null,
                "take angoff, borderline_regression, borderline_group, contrasting_groups or agreed");
    }
}
