package org.sideport.workflow;

import org.sideport.media.IdentityHints;
import org.sideport.model.InputException;

/** Keeps what may tell who the patient is out of the store. It guesses by shape; a single name cannot be told. */
final class Identity {

    private Identity() {}

    /**
     * @param what the field, for the message
     * @throws InputException if the text holds what looks like a date, a long number or a person's name
     */
    static void refuse(String what, String text) {
        String found = IdentityHints.inText(text);
        if (found != null) {
            throw new InputException(
                    what + " holds what looks like " + found + ": \"" + text + "\"",
                    null,
                    "no patient's name, number or date of birth is kept here: write a code, or leave it out");
        }
    }
}
