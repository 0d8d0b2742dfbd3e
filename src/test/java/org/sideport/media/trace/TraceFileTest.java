package org.sideport.media.trace;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.zip.CRC32;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.media.TimeHole;
import org.sideport.media.VideoOptions;
import org.sideport.media.VideoWriter;
import org.sideport.model.InputException;
import org.sideport.model.Progress;

class TraceFileTest {

    @TempDir
    Path folder;

    @Test
    void whatWasKeptComesBack() {
        Traces traces = traces(37);
        Path file = folder.resolve("deep/a.traces");
        TraceFile.write(file, "key", traces);
        Traces back = TraceFile.read(file, "key").orElseThrow();
        assertSame(back, traces);
        assertThat(TraceFile.read(file, "another")).isEmpty();
        assertThat(TraceFile.read(folder.resolve("none"), "key")).isEmpty();
    }

    /** Every single byte changed, and every length cut to: nothing that is read is wrong. */
    @Test
    void damageIsNeverTakenForTraces() throws IOException {
        Path file = folder.resolve("a.traces");
        TraceFile.write(file, "key", traces(3));
        byte[] bytes = Files.readAllBytes(file);
        for (int i = 0; i < bytes.length; i++) {
            byte[] damaged = bytes.clone();
            damaged[i] ^= 0x10;
            Files.write(file, damaged);
            assertThat(TraceFile.read(file, "key")).as("byte " + i).isEmpty();
        }
        for (int length = 0; length < bytes.length; length++) {
            Files.write(file, Arrays.copyOf(bytes, length));
            assertThat(TraceFile.read(file, "key")).as("length " + length).isEmpty();
        }
        Files.write(file, bytes);
        assertThat(TraceFile.read(file, "key")).isPresent();
    }

    /** The version stands in bytes 4 to 7; with a checksum that fits, it alone decides. */
    @Test
    void anotherVersionIsAsGoodAsNone() throws IOException {
        Path file = folder.resolve("a.traces");
        TraceFile.write(file, "key", traces(3));
        byte[] bytes = Files.readAllBytes(file);
        ByteBuffer.wrap(bytes).putInt(4, TraceFile.VERSION + 1);
        CRC32 crc = new CRC32();
        crc.update(bytes, 0, bytes.length - 8);
        ByteBuffer.wrap(bytes).putLong(bytes.length - 8, crc.getValue());
        Files.write(file, bytes);
        assertThat(TraceFile.read(file, "key")).isEmpty();
    }

    @Test
    void aDamagedFileIsMeasuredAnewAndAGoodOneIsNot() throws IOException {
        Path video = video("v.mp4", 90);
        Path kept = folder.resolve("kept");
        Traces first = TraceFile.readOrCompute(kept, List.of(video), 5, Progress.NONE);
        Path file;
        try (var files = Files.list(kept)) {
            file = files.toList().get(0);
        }
        // a good file is believed: other traces under the same key are what comes back
        String key = TraceKey.of(List.of(video), 200_000);
        assertThat(TraceFile.in(kept, key)).isEqualTo(file);
        TraceFile.write(file, key, traces(5));
        assertThat(TraceFile.readOrCompute(kept, List.of(video), 5, Progress.NONE)
                        .size())
                .isEqualTo(5);
        Files.write(file, new byte[] {1, 2, 3});
        assertSame(TraceFile.readOrCompute(kept, List.of(video), 5, Progress.NONE), first);
        assertSame(TraceFile.read(file, key).orElseThrow(), first);
        // nothing half-written stays
        try (var files = Files.list(kept)) {
            assertThat(files).containsExactly(file);
        }
    }

    @Test
    void theKeyIsOfTheContentAndOfTheStepAndNotOfTheName() throws IOException {
        Path one = video("one.mp4", 60);
        Path other = video("other.mp4", 200);
        Path copy = Files.copy(one, folder.resolve("renamed.mp4"));
        String key = TraceKey.of(List.of(one), 200_000);
        assertThat(TraceKey.of(List.of(copy), 200_000)).isEqualTo(key);
        assertThat(TraceKey.of(List.of(other), 200_000)).isNotEqualTo(key);
        assertThat(TraceKey.of(List.of(one), 100_000)).isNotEqualTo(key);
        assertThat(TraceKey.of(List.of(one, other), 200_000)).isNotEqualTo(TraceKey.of(List.of(other, one), 200_000));
        assertThatThrownBy(() -> TraceKey.of(List.of(folder.resolve("gone.mp4")), 200_000))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("gone.mp4");
    }

    private static void assertSame(Traces actual, Traces expected) {
        assertThat(actual.startUs()).isEqualTo(expected.startUs());
        assertThat(actual.stepUs()).isEqualTo(expected.stepUs());
        assertThat(actual.durationUs()).isEqualTo(expected.durationUs());
        assertThat(actual.segmentStartsUs()).isEqualTo(expected.segmentStartsUs());
        assertThat(actual.holes()).isEqualTo(expected.holes());
        for (TraceKind kind : TraceKind.values()) {
            assertThat(actual.of(kind)).containsExactly(expected.of(kind));
        }
    }

    private static Traces traces(int size) {
        Map<TraceKind, float[]> values = new EnumMap<>(TraceKind.class);
        for (TraceKind kind : TraceKind.values()) {
            float[] trace = new float[size];
            for (int i = 0; i < size; i++) {
                trace[i] = kind.ordinal() * 1000 + i + 0.25f;
            }
            values.put(kind, trace);
        }
        return new Traces(
                0, 200_000, 7_654_321, List.of(0L, 4_000_000L), List.of(new TimeHole(1, 5_000_000, 6_000_000)), values);
    }

    private Path video(String name, int grey) throws IOException {
        Path file = folder.resolve(name);
        try (VideoWriter writer = VideoWriter.open(file, VideoOptions.silent(64, 48, 1000, 100, 20))) {
            for (int i = 0; i < 12; i++) {
                int[] pixels = new int[64 * 48];
                Arrays.fill(pixels, 0xFF000000 | (grey + i) * 0x010101);
                writer.frame(pixels, i * 100L);
            }
            writer.finish();
        }
        return file;
    }
}
