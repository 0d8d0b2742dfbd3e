package org.sideport.app;

import org.sideport.model.Hidden;
import org.sideport.model.SurgicalCase;

/** What of a case is written on a screen where some of it is hidden. */
public final class Veiled {

    private Veiled() {}

    public static String trainee(SurgicalCase one, Texts texts) {
        return one.hides(Hidden.TRAINEE) ? texts.get("blind.hidden") : one.trainee();
    }

    public static String day(SurgicalCase one, Texts texts) {
        return one.hides(Hidden.DATE) ? texts.get("blind.hidden") : texts.day(one.date());
    }
}
