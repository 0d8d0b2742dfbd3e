package org.sideport.workflow.exchange;

import java.util.List;

/**
 * Something that whoever takes a bundle in has to answer, or should know.
 *
 * @param values what the kind tells of, in its order: codes as text, counts as numbers
 * @param text all of it as an English sentence, with the options of the command line
 */
public record ImportRemark(Kind kind, List<Object> values, String text) {

    /** What it is about, and its values. */
    public enum Kind {
        /** Is the trainee of that code the same person as here? Code, number of that person's cases here. */
        SAME_TRAINEE,
        /** Other trainee, or another operation? The bundle's trainee, the case, its trainee here. */
        OTHER_TRAINEE,
        /** Consent and the unit's rules refuse it. The case. */
        NOT_ALLOWED,
        /** No consent is recorded. The case. */
        NO_CONSENT,
        /** The case here has no recording and gets none. The case. */
        NO_RECORDING,
        /** People of the bundle whose codes are in use here: their codes in one text. */
        CODES_IN_USE
    }

    public ImportRemark {
        values = List.copyOf(values);
    }

    static ImportRemark of(Kind kind, String text, Object... values) {
        return new ImportRemark(kind, List.of(values), text);
    }
}
