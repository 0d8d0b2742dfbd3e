package org.sideport.media.trace;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import org.sideport.media.MediaException;
import org.sideport.media.MediaException.Reason;

/**
 * Names the content that traces were measured from: SHA-256 (FIPS 180-4) over the step and, of each file in order, its
 * size and a block from its head, its middle and its tail. Names and places of files do not count. A change inside a
 * file of the same size may go unseen where it touches none of the blocks; recorders write files once.
 */
public final class TraceKey {

    private static final int BLOCK = 1 << 18;

    private TraceKey() {}

    /**
     * @return 64 lower-case hex digits
     * @throws MediaException if a file cannot be read
     */
    public static String of(List<Path> files, long stepUs) {
        MessageDigest digest;
        try {
            digest = MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
        digest.update(
                ByteBuffer.allocate(12).putInt(files.size()).putLong(stepUs).flip());
        for (Path file : files) {
            if (!Files.isRegularFile(file)) {
                throw new MediaException(
                        Reason.NOT_FOUND,
                        "no such file",
                        file.toString(),
                        "check the path, or connect the drive it is on");
            }
            try (SeekableByteChannel channel = Files.newByteChannel(file)) {
                long size = channel.size();
                digest.update(ByteBuffer.allocate(8).putLong(size).flip());
                for (long at : new long[] {0, Math.max(0, (size - BLOCK) / 2), Math.max(0, size - BLOCK)}) {
                    ByteBuffer block = ByteBuffer.allocate(BLOCK);
                    channel.position(at);
                    while (block.hasRemaining() && channel.read(block) >= 0) {
                        // reads may be short
                    }
                    digest.update(block.flip());
                }
            } catch (IOException e) {
                throw new MediaException(
                        Reason.UNREADABLE,
                        "cannot be read: " + e.getMessage(),
                        file.toString(),
                        "check the drive, then copy the file again");
            }
        }
        return HexFormat.of().formatHex(digest.digest());
    }
}
