package org.sideport.cli;

import java.nio.file.Path;
import java.util.Locale;

/** Where the demo finds its files, and whether a window can be shown. */
final class DemoFiles {

    private DemoFiles() {}

    /** The folder {@code demo-data} of the program: the launcher says where the program is. */
    static Path folder() {
        return Path.of(System.getProperty("sideport.home", ".")).resolve("demo-data");
    }

    static boolean hasScreen() {
        boolean linux =
                System.getProperty("os.name", "").toLowerCase(Locale.ROOT).contains("linux");
        return !linux || System.getenv("DISPLAY") != null || System.getenv("WAYLAND_DISPLAY") != null;
    }
}
