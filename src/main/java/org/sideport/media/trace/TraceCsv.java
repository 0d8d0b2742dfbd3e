package org.sideport.media.trace;

import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import org.sideport.model.InputException;

/** Traces as a table: {@code time_us}, {@code segment} (from 0) and one column a trace; one moment a row. */
public final class TraceCsv {

    private TraceCsv() {}

    /**
     * @throws InputException if the file is there and may not be written over
     */
    public static void requireFree(Path file, boolean replace) {
        if (!replace && Files.exists(file)) {
            throw new InputException(
                    "the file is there already", file.toString(), "choose another name, or let it be replaced");
        }
    }

    /**
     * Writes the whole file or nothing.
     *
     * @throws InputException if the file is there and may not be written over, or the place cannot be written
     */
    public static void write(Traces traces, Path file, boolean replace) {
        requireFree(file, replace);
        Path target = file.toAbsolutePath();
        try {
            Path part = Files.createTempFile(target.getParent(), ".sideport-", ".csv");
            try {
                try (Writer out = Files.newBufferedWriter(part, StandardCharsets.UTF_8)) {
                    write(traces, out);
                }
                Files.move(part, target, StandardCopyOption.REPLACE_EXISTING);
            } finally {
                Files.deleteIfExists(part);
            }
        } catch (IOException e) {
            throw new InputException(
                    "the traces cannot be written: " + e.getMessage(),
                    file.toString(),
                    "choose a folder that exists and may be written to",
                    e);
        }
    }

    private static void write(Traces traces, Writer out) throws IOException {
        out.write("time_us,segment");
        for (TraceKind kind : TraceKind.values()) {
            out.write("," + kind.id());
        }
        out.write("\n");
        for (int i = 0; i < traces.size(); i++) {
            long time = traces.timeUs(i);
            out.write(time + "," + traces.segmentAt(time));
            for (TraceKind kind : TraceKind.values()) {
                out.write("," + traces.of(kind)[i]);
            }
            out.write("\n");
        }
    }
}
