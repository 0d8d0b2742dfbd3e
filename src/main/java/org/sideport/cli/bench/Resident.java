package org.sideport.cli.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;

/** The memory of this process that is in the machine's memory: all of it, Java's and the libraries'. Linux only. */
final class Resident {

    private static final Path STATUS = Path.of("/proc/self/status");

    private @Nullable Double most;

    void look() {
        Double now = nowMb();
        Double before = most;
        if (now != null && (before == null || now > before)) {
            most = now;
        }
    }

    @Nullable
    Double mostMb() {
        return most;
    }

    /** {@code null} where the system does not tell. */
    static @Nullable Double nowMb() {
        try {
            for (String line : Files.readAllLines(STATUS)) {
                if (line.startsWith("VmRSS:")) {
                    return Double.parseDouble(line.replaceAll("[^0-9]", "")) / 1024;
                }
            }
            return null;
        } catch (IOException e) {
            return null;
        }
    }
}
