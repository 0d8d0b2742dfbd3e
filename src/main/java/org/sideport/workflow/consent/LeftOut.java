package org.sideport.workflow.consent;

import org.sideport.model.ConsentPurpose;
import org.sideport.model.Plural;

/**
 * How many cases do not count for a purpose, since their consent and the unit's rules do not allow it. Withdrawn cases are
 * not among them: nobody is told of these.
 */
public record LeftOut(int cases, ConsentPurpose purpose) {

    public static final LeftOut NONE = new LeftOut(0, ConsentPurpose.ASSESSMENT);

    /** "2 cases left out: no consent for assessment use"; empty if there is none. */
    public String sentence() {
        return cases == 0 ? "" : Plural.of(cases, "case") + " left out: no consent for " + purpose.id() + " use";
    }
}
