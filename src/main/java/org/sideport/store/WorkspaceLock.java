package org.sideport.store;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;

/** Keeps a second program out of a workspace. The system frees it when the process ends, however it ends. */
final class WorkspaceLock implements AutoCloseable {

    private static final String FILE = "sideport.lock";

    private final FileChannel channel;

    private WorkspaceLock(FileChannel channel) {
        this.channel = channel;
    }

    /**
     * @throws InputException if another program holds it, or the folder cannot be written
     */
    static WorkspaceLock take(Path dir) {
        FileChannel channel = null;
        try {
            channel = FileChannel.open(
                    dir.resolve(FILE), StandardOpenOption.CREATE, StandardOpenOption.READ, StandardOpenOption.WRITE);
            if (tryLock(channel) == null) {
                channel.close();
                throw new InputException(
                        "this workspace is open in another Sideport",
                        dir.toString(),
                        "close the other window or wait for the other command to end");
            }
            return new WorkspaceLock(channel);
        } catch (IOException e) {
            closeQuietly(channel);
            throw new InputException(
                    "the workspace cannot be written: " + e.getMessage(),
                    dir.toString(),
                    "check that the folder may be written to and the disk is not full",
                    e);
        }
    }

    private static @Nullable FileLock tryLock(FileChannel channel) throws IOException {
        try {
            // Only a byte far out is locked, so that the process number can be read by others.
            FileLock lock = channel.tryLock(Long.MAX_VALUE - 1, 1, false);
            if (lock != null) {
                channel.truncate(0);
                channel.write(
                        ByteBuffer.wrap((ProcessHandle.current().pid() + "\n").getBytes(StandardCharsets.US_ASCII)));
            }
            return lock;
        } catch (OverlappingFileLockException e) {
            return null;
        }
    }

    private static void closeQuietly(@Nullable FileChannel channel) {
        if (channel != null) {
            try {
                channel.close();
            } catch (IOException e) {
                // nothing was locked; the first fault is the one to tell
            }
        }
    }

    @Override
    public void close() {
        closeQuietly(channel);
    }
}
