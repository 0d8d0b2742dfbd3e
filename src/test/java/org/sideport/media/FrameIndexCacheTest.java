package org.sideport.media;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.security.MessageDigest;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sideport.media.corpus.StampedFile;
import org.sideport.media.corpus.Stamps;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;

class FrameIndexCacheTest {

    private static final int DIGEST = 32;

    @TempDir
    Path folder;

    private Path video;
    private Path kept;
    private FrameIndexCache cache;

    @BeforeEach
    void make() throws Exception {
        video = folder.resolve("a.ts");
        StampedFile.frames(40, 25).as("libx264", "mpegts").b(2).write(video);
        kept = folder.resolve("workspace/index");
        cache = new FrameIndexCache(kept);
    }

    @Test
    void aFileIsReadThroughOnceAndShowsTheSameTheSecondTime() throws Exception {
        assertThat(reads(video)).isTrue();
        assertThat(entries()).hasSize(1);
        assertThat(reads(video)).isFalse();
        assertShowsAll();
    }

    /** Times, pictures and seeks of an index that was kept are those of the file. */
    private void assertShowsAll() {
        try (RecordingFrames frames = RecordingFrames.open(List.of(video), cache, Progress.NONE)) {
            assertThat(frames.frameCount()).isEqualTo(40);
            assertThat(frames.duration()).isEqualTo(MediaTime.ofMicros(1_600_000));
            for (int n = 39; n >= 0; n--) {
                assertThat(frames.frame(n).start().micros()).isEqualTo(n * 40_000L);
                assertThat(Stamps.read(frames.picture(frames.frame(n)))).isEqualTo(n);
            }
        }
    }

    @Test
    void theEntryGoesByContentNotByName() throws Exception {
        reads(video);
        Path renamed = Files.move(video, folder.resolve("b.ts"));
        assertThat(reads(renamed)).isFalse();
    }

    @Test
    void aFileThatHasChangedIsReadAnew() throws Exception {
        reads(video);
        FileTime before = Files.getLastModifiedTime(video);
        StampedFile.frames(41, 25).as("libx264", "mpegts").b(2).write(video);
        Files.setLastModifiedTime(video, before);
        assertThat(reads(video)).isTrue();
        assertThat(entries()).hasSize(2);
    }

    @ParameterizedTest
    @ValueSource(strings = {"empty", "short", "one bit", "rubbish", "folder"})
    void aDamagedEntryIsMadeAnew(String damage) throws Exception {
        reads(video);
        Path entry = entries().get(0);
        byte[] bytes = Files.readAllBytes(entry);
        byte[] flipped = bytes.clone();
        flipped[bytes.length / 2] ^= 1;
        switch (damage) {
            case "empty" -> Files.write(entry, new byte[0]);
            case "short" -> Files.write(entry, Arrays.copyOf(bytes, bytes.length - 9));
            case "one bit" -> Files.write(entry, flipped);
            case "rubbish" -> Files.write(entry, new byte[500]);
            default -> {
                Files.delete(entry);
                Files.createDirectory(entry);
            }
        }
        assertThat(reads(video)).isTrue();
        assertShowsAll();
        if (!damage.equals("folder")) {
            assertThat(Files.readAllBytes(entry)).isEqualTo(bytes);
        }
    }

    /** Bytes 4 to 11 hold the version of the format and that of the library. */
    @ParameterizedTest
    @ValueSource(ints = {4, 8})
    void anEntryOfAnotherVersionIsMadeAnew(int position) throws Exception {
        reads(video);
        Path entry = entries().get(0);
        byte[] bytes = Files.readAllBytes(entry);
        byte[] body = Arrays.copyOf(bytes, bytes.length - DIGEST);
        ByteBuffer.wrap(body).putInt(position, ByteBuffer.wrap(body).getInt(position) + 1);
        byte[] whole = Arrays.copyOf(body, bytes.length);
        System.arraycopy(MessageDigest.getInstance("SHA-256").digest(body), 0, whole, body.length, DIGEST);
        Files.write(entry, whole);
        assertThat(reads(video)).isTrue();
        assertThat(Files.readAllBytes(entry)).isEqualTo(bytes);
    }

    @Test
    void aFolderThatCannotBeMadeCostsOnlyTime() throws Exception {
        Files.createDirectories(kept.getParent());
        Files.write(kept, new byte[] {1});
        assertThat(reads(video)).isTrue();
        assertShowsAll();
        assertThat(Files.readAllBytes(kept)).containsExactly(1);
    }

    @Test
    void severalFilesAreKeptEachAndTheFirstFaultIsNamed() throws Exception {
        List<Path> files = new ArrayList<>();
        for (int i = 0; i < 5; i++) {
            Path part = folder.resolve("part" + i + ".mp4");
            StampedFile.frames(10 + i, 25).stampsFrom(100 * i).write(part);
            files.add(part);
        }
        for (int round = 0; round < 2; round++) {
            try (RecordingFrames frames = RecordingFrames.open(files, cache, Progress.NONE)) {
                assertThat(frames.frameCount()).isEqualTo(10 + 11 + 12 + 13 + 14);
                assertThat(Stamps.read(frames.picture(frames.frame(10 + 11 + 5))))
                        .isEqualTo(205);
            }
            assertThat(entries()).hasSize(5);
        }
        files.add(2, folder.resolve("gone1.mp4"));
        files.add(folder.resolve("gone2.mp4"));
        assertThatThrownBy(() -> RecordingFrames.open(files, cache, Progress.NONE))
                .isInstanceOf(MediaException.class)
                .hasMessageContaining("gone1.mp4");
    }

    @Test
    void cancellingLeavesNothing() {
        Progress cancelled = new Progress() {
            @Override
            public void report(double fraction, String message) {}

            @Override
            public boolean isCancelled() {
                return true;
            }
        };
        assertThatThrownBy(() -> RecordingFrames.open(List.of(video, video), cache, cancelled))
                .isInstanceOf(CancellationException.class);
        assertThat(Files.exists(kept) ? kept.toFile().list() : new String[0]).allMatch(name -> name.endsWith(".idx"));
    }

    @Test
    void entriesUnusedForLongGoAndThenTheLeastRecentlyUsed() throws Exception {
        Files.createDirectories(kept);
        Instant now = Instant.now();
        for (int i = 0; i < 5; i++) {
            Path entry = Files.write(kept.resolve(i + ".idx"), new byte[1000]);
            Files.setLastModifiedTime(entry, FileTime.from(now.minus(Duration.ofDays(10 * i))));
        }
        Path foreign = Files.write(kept.resolve("other.trace"), new byte[9000]);
        Files.setLastModifiedTime(foreign, FileTime.from(now.minus(Duration.ofDays(900))));
        Path leftBehind = Files.write(kept.resolve("index1.part"), new byte[10]);
        Files.setLastModifiedTime(leftBehind, FileTime.from(now.minus(Duration.ofDays(2))));
        Path beingWritten = Files.write(kept.resolve("index2.part"), new byte[10]);
        // 40 days is too long; of the other four, 3500 bytes hold three
        cache.prune(3_500, now.minus(Duration.ofDays(35)));
        assertThat(entries())
                .containsExactly(
                        kept.resolve("0.idx"), kept.resolve("1.idx"), kept.resolve("2.idx"), beingWritten, foreign);
    }

    @Test
    void whatIsUsedStaysAndAnOldEntryGoesWhenAnotherIsWritten() throws Exception {
        reads(video);
        Path entry = entries().get(0);
        FileTime long1 = FileTime.from(Instant.now().minus(Duration.ofDays(200)));
        Files.setLastModifiedTime(entry, long1);
        Path unused = Files.write(kept.resolve("0.idx"), new byte[10]);
        Files.setLastModifiedTime(unused, long1);
        assertThat(reads(video)).isFalse();
        assertThat(Files.getLastModifiedTime(entry)).isGreaterThan(long1);
        Path other = folder.resolve("c.ts");
        StampedFile.frames(20, 25).as("libx264", "mpegts").write(other);
        reads(other);
        assertThat(entries()).hasSize(2).contains(entry).doesNotContain(unused);
    }

    /** Two million frames, a key packet for every eighth as at most: measured, not estimated. */
    @Test
    void anIndexTakesLessThan24BytesAFrame() {
        int count = 2_000_000;
        long before = used();
        long[] pts = new long[count];
        int[] frameOf = new int[count];
        List<KeyPacket> keys = new ArrayList<>(count / 8);
        for (int i = 0; i < count; i++) {
            pts[i] = i * 3_600L;
            frameOf[i] = i;
            if (i % 8 == 0) {
                keys.add(new KeyPacket(i, i, pts[i], pts[i], i, i, i));
            }
        }
        FrameIndex index = new FrameIndex(
                new TimeBase(1, 90_000),
                pts,
                count * 3_600L,
                frameOf,
                keys,
                new FrameIndex.Doubts(false, false, 0, 0, 0, List.of()));
        keys = null;
        long taken = used() - before;
        assertThat(index.size()).isEqualTo(count);
        assertThat(taken / (double) count).isBetween(8.0, 24.0);
    }

    private static long used() {
        for (int i = 0; i < 3; i++) {
            System.gc();
        }
        Runtime runtime = Runtime.getRuntime();
        return runtime.totalMemory() - runtime.freeMemory();
    }

    /** True if the file's packets were read, which alone reports progress. */
    private boolean reads(Path file) {
        List<String> messages = new ArrayList<>();
        cache.index(file, (fraction, message) -> messages.add(message));
        return !messages.isEmpty();
    }

    private List<Path> entries() throws Exception {
        try (Stream<Path> all = Files.list(kept)) {
            return all.sorted().toList();
        }
    }
}
