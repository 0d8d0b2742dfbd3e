package org.sideport.workflow.assign;

import java.security.SecureRandom;
import org.sideport.store.Stores;

/** Draws what a blinded case is called: nothing can be told from it, not even in which order labels were drawn. */
final class Labels {

    /** Without letters and digits that are taken for one another. */
    private static final String LETTERS = "3467ACDEFGHJKMNPQRTUVWXY";

    private static final int SHORTEST = 3;
    /** Tries at each length; longer labels come when the short ones are used up. */
    private static final int TRIES = 20;

    private final SecureRandom random = new SecureRandom();

    String draw(Stores stores) {
        for (int length = SHORTEST; ; length++) {
            for (int i = 0; i < TRIES; i++) {
                StringBuilder label = new StringBuilder("M-");
                for (int j = 0; j < length; j++) {
                    label.append(LETTERS.charAt(random.nextInt(LETTERS.length())));
                }
                // a case of that code or an earlier label, also of one withdrawn
                if (!stores.cases().exists(label.toString())) {
                    return label.toString();
                }
            }
        }
    }
}
