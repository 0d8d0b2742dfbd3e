package org.sideport.report;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.file.AccessDeniedException;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.UUID;
import org.sideport.model.InputException;

/** Writes a file whole or not at all: what stood there before stays until the new file is complete. */
public final class AtomicFile {

    /** Writes the content. */
    @FunctionalInterface
    public interface Content {
        void writeTo(OutputStream out) throws IOException;
    }

    private AtomicFile() {}

    /**
     * @throws InputException naming the path and a remedy if the file cannot be written there; nothing has changed then.
     *     What {@code content} throws by itself passes through, likewise without a change
     */
    public static void write(Path out, Content content) {
        Path target = target(out);
        Path folder = folder(target);
        Path part = folder.resolve("." + target.getFileName() + "." + UUID.randomUUID() + ".part");
        try {
            try {
                writePart(part, content);
                move(part, target);
            } finally {
                Files.deleteIfExists(part);
            }
        } catch (AccessDeniedException e) {
            throw new InputException(
                    "the file cannot be written",
                    out.toString(),
                    "close it if it is open in another program, check your rights in the folder, or choose another"
                            + " place",
                    e);
        } catch (IOException e) {
            String reason = e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
            throw new InputException(
                    "the file cannot be written: " + reason,
                    out.toString(),
                    "check that the disk has room and that the file is not open in another program, or choose another"
                            + " place",
                    e);
        }
    }

    private static void writePart(Path part, Content content) throws IOException {
        try (FileChannel channel = FileChannel.open(part, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
                OutputStream out = new BufferedOutputStream(Channels.newOutputStream(channel))) {
            content.writeTo(out);
            out.flush();
            // On the disk before it takes the old file's place.
            channel.force(true);
        }
    }

    private static void move(Path part, Path target) throws IOException {
        try {
            Files.move(part, target, StandardCopyOption.ATOMIC_MOVE);
        } catch (AtomicMoveNotSupportedException e) {
            Files.move(part, target, StandardCopyOption.REPLACE_EXISTING);
        }
    }

    private static Path target(Path out) {
        try {
            // A link keeps pointing at the file that is replaced.
            return Files.isSymbolicLink(out) && Files.exists(out) ? out.toRealPath() : out.toAbsolutePath();
        } catch (IOException e) {
            throw new InputException("the link cannot be followed", out.toString(), "choose another place", e);
        }
    }

    private static Path folder(Path target) {
        Path folder = target.getParent();
        if (folder == null || Files.isDirectory(target)) {
            throw new InputException("this is a folder", target.toString(), "add the name of a file");
        }
        if (!Files.isDirectory(folder)) {
            throw new InputException(
                    "there is no such folder", folder.toString(), "create it, or choose another place");
        }
        if (Files.exists(target) && !Files.isWritable(target)) {
            throw new InputException(
                    "the file is write-protected", target.toString(), "lift the protection, or choose another name");
        }
        for (String lock : new String[] {".~lock." + target.getFileName() + "#", "~$" + target.getFileName()}) {
            if (Files.exists(folder.resolve(lock))) {
                throw new InputException(
                        "the file seems to be open in a spreadsheet program",
                        target.toString(),
                        "close it there, or choose another name; if it is open nowhere, delete " + lock);
            }
        }
        return folder;
    }
}
