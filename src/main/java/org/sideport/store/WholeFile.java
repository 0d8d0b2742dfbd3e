package org.sideport.store;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;

/** Files of the workspace that are there whole or not at all, also when the power fails. */
final class WholeFile {

    /** Writes the content. */
    @FunctionalInterface
    interface Content {
        void writeTo(OutputStream out) throws IOException;
    }

    /** How files end that are not finished; they may be deleted whenever no program is at work. */
    static final String UNFINISHED = ".part";

    private WholeFile() {}

    static void write(Path file, String text) throws IOException {
        write(file, out -> out.write(text.getBytes(StandardCharsets.UTF_8)));
    }

    static void write(Path file, Content content) throws IOException {
        Path part = part(file);
        try {
            try (FileChannel channel = FileChannel.open(
                            part,
                            StandardOpenOption.CREATE,
                            StandardOpenOption.TRUNCATE_EXISTING,
                            StandardOpenOption.WRITE);
                    OutputStream out = new BufferedOutputStream(Channels.newOutputStream(channel))) {
                content.writeTo(out);
                out.flush();
                channel.force(true);
            }
            move(part, file);
        } finally {
            Files.deleteIfExists(part);
        }
    }

    static Path part(Path file) {
        return file.resolveSibling(file.getFileName() + UNFINISHED);
    }

    /** Waits until a file that was written otherwise is on the disk. */
    static void force(Path file) throws IOException {
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
            channel.force(true);
        }
    }

    /** Puts a file that is on the disk in the place of another. */
    static void move(Path from, Path to) throws IOException {
        try {
            Files.move(from, to, StandardCopyOption.ATOMIC_MOVE);
        } catch (AtomicMoveNotSupportedException e) {
            Files.move(from, to, StandardCopyOption.REPLACE_EXISTING);
        }
        forceName(to.getParent());
    }

    /** So that the new name outlasts a power cut; where the system cannot, it is left to the system. */
    private static void forceName(@org.jspecify.annotations.Nullable Path folder) {
        if (folder == null) {
            return;
        }
        try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
            channel.force(true);
        } catch (IOException e) {
            // Windows opens no folder
        }
    }
}
