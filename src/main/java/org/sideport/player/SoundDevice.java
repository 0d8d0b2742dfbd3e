package org.sideport.player;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;

/** Whether this machine can make sound. Without, LibVLC tries again and again and fills standard error. */
final class SoundDevice {

    private SoundDevice() {}

    static boolean isThere() {
        boolean linux =
                System.getProperty("os.name", "").toLowerCase(Locale.ROOT).contains("linux");
        return !linux || isThere(Path.of("/proc/asound/cards"), System.getenv());
    }

    /**
     * On Linux: a sound card known to the kernel, or a sound server of the person's.
     *
     * @param cards the kernel's list of sound cards
     */
    static boolean isThere(Path cards, Map<String, String> environment) {
        String runtime = environment.getOrDefault("XDG_RUNTIME_DIR", "");
        if (!environment.getOrDefault("PULSE_SERVER", "").isEmpty()
                || (!runtime.isEmpty() && Files.exists(Path.of(runtime, "pulse", "native")))) {
            return true;
        }
        try {
            return Files.exists(cards) && !Files.readString(cards).contains("no soundcards");
        } catch (IOException e) {
            return true;
        }
    }
}
