package org.sideport.model;

import java.util.Locale;

/** What became of a cut that was proposed. */
public enum CutState {
    /** nobody has decided; times across it stand as they are */
    PROPOSED,
    /** a person found that time is missing; times across it are unsure */
    ACCEPTED,
    /** a person found that nothing is missing */
    DISMISSED;

    /** As written in JSON and in the store: lower case. */
    public String id() {
        return name().toLowerCase(Locale.ROOT);
    }
}
