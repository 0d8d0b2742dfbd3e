package org.sideport.media.trace;

import java.io.BufferedOutputStream;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.zip.CRC32;
import org.jspecify.annotations.Nullable;
import org.sideport.media.FrameIndexCache;
import org.sideport.media.TimeHole;
import org.sideport.model.InputException;
import org.sideport.model.Progress;

/**
 * Traces kept in a file, so that a recording is decoded once. The file names its format's version and the content it was
 * measured from, and ends with its CRC-32; one that is old, damaged or of another content is as good as none.
 */
public final class TraceFile {

    private static final int MAGIC = 0x53505452;
    /** To be raised with every change of the format or of how anything is measured. */
    static final int VERSION = 1;

    private static final int TRAILER = 8;
    private static final String ENDING = ".traces";

    private TraceFile() {}

    /**
     * The kept traces of a recording if they fit; else they are measured and kept.
     *
     * @param folder where traces are kept; made if missing
     * @throws InputException if {@code hz} is out of range or the folder cannot be written
     * @throws org.sideport.media.MediaException if a file is missing or cannot be decoded
     * @throws java.util.concurrent.CancellationException if the progress is cancelled; nothing is kept then
     */
    public static Traces readOrCompute(Path folder, List<Path> files, double hz, Progress progress) {
        return readOrCompute(folder, files, null, hz, progress);
    }

    /**
     * As {@link #readOrCompute(Path, List, double, Progress)}, with frame times that were read before.
     *
     * @param cache {@code null} to read them anew
     */
    public static Traces readOrCompute(
            Path folder, List<Path> files, @Nullable FrameIndexCache cache, double hz, Progress progress) {
        String key = TraceKey.of(files, TraceComputer.stepUs(hz));
        Path file = in(folder, key);
        Optional<Traces> kept = read(file, key);
        if (kept.isPresent()) {
            return kept.get();
        }
        Traces fresh = TraceComputer.compute(files, cache, hz, progress);
        write(file, key, fresh);
        return fresh;
    }

    /** Where the traces of this key are kept. */
    public static Path in(Path folder, String key) {
        return folder.resolve(key.substring(0, Math.min(32, key.length())) + ENDING);
    }

    /**
     * Writes the whole file or nothing, in place of an older one.
     *
     * @param key of the content, see {@link TraceKey}
     * @throws InputException if the place cannot be written
     */
    public static void write(Path file, String key, Traces traces) {
        Path target = file.toAbsolutePath();
        try {
            Files.createDirectories(target.getParent());
            Path part = Files.createTempFile(target.getParent(), ".sideport-", ENDING);
            try {
                byte[] body = body(key, traces);
                try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(part))) {
                    out.write(body);
                    out.write(ByteBuffer.allocate(TRAILER)
                            .putLong(crc(body, body.length))
                            .array());
                }
                Files.move(part, target, StandardCopyOption.REPLACE_EXISTING);
            } finally {
                Files.deleteIfExists(part);
            }
        } catch (IOException e) {
            throw new InputException(
                    "the traces cannot be kept: " + e.getMessage(),
                    file.toString(),
                    "choose a folder that may be written to",
                    e);
        }
    }

    /** The traces of this content, or nothing where the file is missing, damaged, old or of another content. */
    public static Optional<Traces> read(Path file, String key) {
        if (!Files.isRegularFile(file)) {
            return Optional.empty();
        }
        try {
            byte[] bytes = Files.readAllBytes(file);
            int length = bytes.length - TRAILER;
            if (length < TRAILER || ByteBuffer.wrap(bytes).getLong(length) != crc(bytes, length)) {
                return Optional.empty();
            }
            return parse(new DataInputStream(new ByteArrayInputStream(bytes, 0, length)), key);
        } catch (IOException | RuntimeException e) {
            // whatever is wrong with it, it is measured anew
            return Optional.empty();
        }
    }

    private static long crc(byte[] bytes, int length) {
        CRC32 crc = new CRC32();
        crc.update(bytes, 0, length);
        return crc.getValue();
    }

    private static byte[] body(String key, Traces traces) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (DataOutputStream out = new DataOutputStream(bytes)) {
            out.writeInt(MAGIC);
            out.writeInt(VERSION);
            out.writeUTF(key);
            out.writeLong(traces.startUs());
            out.writeLong(traces.stepUs());
            out.writeLong(traces.durationUs());
            out.writeInt(traces.segmentStartsUs().size());
            for (long start : traces.segmentStartsUs()) {
                out.writeLong(start);
            }
            out.writeInt(traces.holes().size());
            for (TimeHole hole : traces.holes()) {
                out.writeInt(hole.segment());
                out.writeLong(hole.startUs());
                out.writeLong(hole.endUs());
            }
            out.writeInt(TraceKind.values().length);
            out.writeInt(traces.size());
            for (TraceKind kind : TraceKind.values()) {
                ByteBuffer values = ByteBuffer.allocate(4 * traces.size());
                values.asFloatBuffer().put(traces.of(kind));
                out.write(values.array());
            }
        }
        return bytes.toByteArray();
    }

    private static Optional<Traces> parse(DataInputStream in, String key) throws IOException {
        if (in.readInt() != MAGIC || in.readInt() != VERSION || !in.readUTF().equals(key)) {
            return Optional.empty();
        }
        long start = in.readLong();
        long step = in.readLong();
        long duration = in.readLong();
        List<Long> segments = new ArrayList<>();
        for (int left = in.readInt(); left > 0; left--) {
            segments.add(in.readLong());
        }
        List<TimeHole> holes = new ArrayList<>();
        for (int left = in.readInt(); left > 0; left--) {
            holes.add(new TimeHole(in.readInt(), in.readLong(), in.readLong()));
        }
        int kinds = in.readInt();
        int size = in.readInt();
        if (kinds != TraceKind.values().length || in.available() != 4L * kinds * size) {
            return Optional.empty();
        }
        Map<TraceKind, float[]> values = new EnumMap<>(TraceKind.class);
        for (TraceKind kind : TraceKind.values()) {
            float[] trace = new float[size];
            ByteBuffer.wrap(in.readNBytes(4 * size)).asFloatBuffer().get(trace);
            values.put(kind, trace);
        }
        return Optional.of(new Traces(start, step, duration, segments, holes, values));
    }
}
