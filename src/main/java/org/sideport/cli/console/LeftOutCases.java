package org.sideport.cli.console;

import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.workflow.consent.LeftOut;

/** Says which cases a figure is without. */
public final class LeftOutCases {

    private LeftOutCases() {}

    public static Map<String, @Nullable Object> json(LeftOut leftOut) {
        return Json.object(
                "cases", leftOut.cases(), "no_consent_for", leftOut.purpose().id());
    }

    public static void say(LeftOut leftOut, Console console) {
        if (leftOut.cases() > 0) {
            console.say(leftOut.sentence() + ".");
        }
    }
}
