package org.sideport.workflow.handout;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.UUID;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.sideport.model.InputException;

/**
 * The folder of media beside a page: made under another name, and in its place only when all is in it. One that holds
 * anything else than such media is never touched.
 */
final class HandoutFolder implements AutoCloseable {

    static final String FILM = "recording.mp4";

    private static final Pattern OURS = Pattern.compile("recording\\.mp4|voice-\\d+\\.ogg|still-\\d+\\.jpg");

    private final Path target;
    private final Path part;

    private HandoutFolder(Path target, Path part) {
        this.target = target;
        this.part = part;
    }

    /**
     * @param page beside which it lies: {@code case.html} has {@code case-media}
     * @throws InputException if something else lies there, or nothing can be written there
     */
    static HandoutFolder beside(Path page) {
        Path at = page.toAbsolutePath();
        String name = at.getFileName().toString();
        int dot = name.lastIndexOf('.');
        Path target = at.resolveSibling((dot > 0 ? name.substring(0, dot) : name) + "-media");
        Path parent = at.getParent();
        if (parent == null || !Files.isDirectory(parent)) {
            throw new InputException(
                    "there is no such folder", String.valueOf(parent), "create it, or choose another place");
        }
        if (Files.exists(target) && !isOurs(target)) {
            throw new InputException(
                    "something else lies where the page's media go",
                    target.toString(),
                    "move it away, or choose another name for the page");
        }
        Path part = target.resolveSibling("." + target.getFileName() + "." + UUID.randomUUID() + ".part");
        try {
            Files.createDirectory(part);
        } catch (IOException e) {
            throw unwritable(target, e);
        }
        return new HandoutFolder(target, part);
    }

    private static boolean isOurs(Path folder) {
        if (!Files.isDirectory(folder)) {
            return false;
        }
        return files(folder).stream()
                .allMatch(f -> Files.isRegularFile(f)
                        && OURS.matcher(f.getFileName().toString()).matches());
    }

    private static List<Path> files(Path folder) {
        try (Stream<Path> files = Files.list(folder)) {
            return files.toList();
        } catch (IOException e) {
            throw unwritable(folder, e);
        }
    }

    /** As it will be called. */
    String name() {
        return target.getFileName().toString();
    }

    Path file(String name) {
        return part.resolve(name);
    }

    void copy(Path from, String name) {
        try {
            Files.copy(from, file(name));
        } catch (IOException e) {
            throw unwritable(target, e);
        }
    }

    void write(byte[] content, String name) {
        try {
            Files.write(file(name), content);
        } catch (IOException e) {
            throw unwritable(target, e);
        }
    }

    /** Puts it where it belongs, in place of an earlier one; an empty one is not put anywhere. */
    void commit() {
        boolean empty = files(part).isEmpty();
        try {
            Path old = null;
            if (Files.exists(target)) {
                old = target.resolveSibling("." + target.getFileName() + "." + UUID.randomUUID() + ".old");
                Files.move(target, old, StandardCopyOption.ATOMIC_MOVE);
            }
            if (!empty) {
                Files.move(part, target, StandardCopyOption.ATOMIC_MOVE);
            }
            if (old != null) {
                delete(old);
            }
        } catch (IOException e) {
            throw unwritable(target, e);
        }
    }

    private static void delete(Path folder) throws IOException {
        for (Path file : files(folder)) {
            Files.delete(file);
        }
        Files.delete(folder);
    }

    @Override
    public void close() {
        if (Files.exists(part)) {
            try {
                delete(part);
            } catch (IOException e) {
                throw unwritable(part, e);
            }
        }
    }

    private static InputException unwritable(Path at, IOException e) {
        return new InputException(
                "the folder of the page's media cannot be written: " + e.getMessage(),
                at.toString(),
                "check your rights and the room on the disk, or choose another place",
                e);
    }
}
