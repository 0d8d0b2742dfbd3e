package org.sideport.media;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileTime;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Progress;

/**
 * Keeps the frame times of files in a folder, so that a long recording is read through once only. Entries go by what is
 * in a file, not by its name: its size, its time of change, its first and its last part. An entry that is damaged or of an
 * older version is made anew; one that cannot be written costs time at the next opening and nothing else. Entries
 * that were not used for half a year are removed, and the least recently used where they grow too many. The folder may be
 * deleted at any time. Thread-safe.
 */
public final class FrameIndexCache {

    private static final int SAMPLE = 1 << 20;

    private static final String ENDING = ".idx";

    /** Entries, and what a broken end of the program left of one. */
    private static final String NAMES = "*.{idx,part}";

    /** About two thousand hours of recordings. */
    private static final long MOST_BYTES = 256L << 20;

    private static final Duration LONGEST_UNUSED = Duration.ofDays(180);

    private static final Duration LONGEST_WRITE = Duration.ofDays(1);

    private final Path folder;

    /** @param folder is made when first needed */
    public FrameIndexCache(Path folder) {
        this.folder = folder;
    }

    /**
     * The index of a file, from the cache if it is there.
     *
     * @throws MediaException if the file is missing or cannot be read
     * @throws java.util.concurrent.CancellationException if the progress is cancelled
     */
    FrameIndex index(Path file, Progress progress) {
        Path entry = entry(file);
        FrameIndex kept = entry == null ? null : read(entry);
        if (entry != null && kept != null) {
            touch(entry);
            return kept;
        }
        FrameIndex fresh = FrameIndexer.index(file, progress);
        if (entry != null) {
            write(entry, fresh);
            prune(MOST_BYTES, Instant.now().minus(LONGEST_UNUSED));
        }
        return fresh;
    }

    /** Removes what is kept of a file that is about to be deleted. */
    public void forget(Path file) {
        Path entry = entry(file);
        try {
            if (entry != null) {
                Files.deleteIfExists(entry);
            }
        } catch (IOException e) {
            // frame times only, and removed when they grow old
        }
    }

    /** Entries go by when they were used last. */
    private static void touch(Path entry) {
        try {
            Files.setLastModifiedTime(entry, FileTime.from(Instant.now()));
        } catch (IOException e) {
            // it may go earlier than it should
        }
    }

    /**
     * Removes entries that were not used since a moment, and then those unused the longest until the rest is small enough.
     * Other files in the folder are left alone. Done whenever an entry is written.
     *
     * @param mostBytes what entries may take together
     */
    void prune(long mostBytes, Instant unusedSince) {
        List<Entry> entries = new ArrayList<>();
        try (DirectoryStream<Path> files = Files.newDirectoryStream(folder, NAMES)) {
            for (Path file : files) {
                BasicFileAttributes about =
                        Files.readAttributes(file, BasicFileAttributes.class, LinkOption.NOFOLLOW_LINKS);
                if (about.isRegularFile()) {
                    entries.add(new Entry(file, about.lastModifiedTime().toInstant(), about.size()));
                }
            }
        } catch (IOException | DirectoryIteratorException e) {
            return;
        }
        entries.sort(Comparator.comparing(Entry::used).reversed());
        long total = 0;
        for (Entry entry : entries) {
            // what another program is writing just now is young
            boolean leftBehind = !entry.file().toString().endsWith(ENDING)
                    && entry.used().isBefore(Instant.now().minus(LONGEST_WRITE));
            total += entry.size();
            if (entry.used().isBefore(unusedSince) || total > mostBytes || leftBehind) {
                try {
                    Files.deleteIfExists(entry.file());
                } catch (IOException e) {
                    // another time
                }
            }
        }
    }

    private record Entry(Path file, Instant used, long size) {}

    private static @Nullable FrameIndex read(Path entry) {
        try {
            return Files.isRegularFile(entry) ? FrameIndexFile.fromBytes(Files.readAllBytes(entry)) : null;
        } catch (IOException e) {
            return null;
        }
    }

    private void write(Path entry, FrameIndex index) {
        try {
            Files.createDirectories(folder);
            Path partial = Files.createTempFile(folder, "index", ".part");
            try {
                Files.write(partial, FrameIndexFile.toBytes(index));
                Files.move(partial, entry, StandardCopyOption.REPLACE_EXISTING);
            } finally {
                Files.deleteIfExists(partial);
            }
        } catch (IOException e) {
            // a full or write-protected drive: the index in memory is as good
        }
    }

    /** Where the index of this file belongs; null if the file cannot be looked at, which opening it will tell better. */
    private @Nullable Path entry(Path file) {
        try (SeekableByteChannel in = Files.newByteChannel(file)) {
            MessageDigest digest = MessageDigest.getInstance("SHA-256");
            long size = in.size();
            digest.update(ByteBuffer.allocate(16)
                    .putLong(size)
                    .putLong(Files.getLastModifiedTime(file).toMillis())
                    .array());
            ByteBuffer sample = ByteBuffer.allocate((int) Math.min(SAMPLE, size));
            for (long from : new long[] {0, size - sample.capacity()}) {
                in.position(from);
                sample.clear();
                while (sample.hasRemaining()) {
                    if (in.read(sample) < 0) {
                        return null;
                    }
                }
                digest.update(sample.flip());
            }
            return folder.resolve(HexFormat.of().formatHex(digest.digest()) + ENDING);
        } catch (IOException e) {
            return null;
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }
}
