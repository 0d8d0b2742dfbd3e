package org.sideport.media;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Progress;

/**
 * Keeps the frame times of files in a folder, so that a long recording is read through once only. Entries go by what is
 * in a file, not by its name: its size, its time of change, its first and its last part. An entry that is damaged or of an
 * older version is made anew; one that cannot be written costs time at the next opening and nothing else. The folder may
 * be deleted at any time. Thread-safe.
 */
public final class FrameIndexCache {

    private static final int SAMPLE = 1 << 20;

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
        if (kept != null) {
            return kept;
        }
        FrameIndex fresh = FrameIndexer.index(file, progress);
        if (entry != null) {
            write(entry, fresh);
        }
        return fresh;
    }

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
            return folder.resolve(HexFormat.of().formatHex(digest.digest()) + ".idx");
        } catch (IOException e) {
            return null;
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }
}
