package org.sideport.cli.bench;

import java.util.Locale;
import org.sideport.model.InputException;

/** Whether there is a screen to draw on, a virtual one will do. */
final class ScreenNeeded {

    private ScreenNeeded() {}

    /** @param name what is to be measured */
    static void require(String name) {
        boolean linux =
                System.getProperty("os.name", "").toLowerCase(Locale.ROOT).contains("linux");
        if (linux && System.getenv("DISPLAY") == null && System.getenv("WAYLAND_DISPLAY") == null) {
            throw new InputException(
                    "there is no screen here to draw on",
                    null,
                    "run it under a virtual screen: xvfb-run -a ./sideport bench " + name);
        }
    }
}
