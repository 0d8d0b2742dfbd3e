package org.sideport.workflow.consent;

import org.sideport.model.ConsentPurpose;
import org.sideport.model.ConsentSituation;

/**
 * What must be said with a use of a case that nothing forbids.
 *
 * @param code of the case
 * @param why in English, such as "nothing is recorded of a consent"
 */
public record ConsentDoubt(String code, ConsentSituation situation, ConsentPurpose purpose, String why) {

    /** As a sentence, in English. */
    public String text() {
        return "Case " + code + ": " + why + ". Local rules decide whether it may be used.";
    }
}
