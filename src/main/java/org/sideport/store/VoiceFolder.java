package org.sideport.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.sideport.media.FileDigest;
import org.sideport.model.InputException;
import org.sideport.model.Progress;

/** The folder "voice" of a workspace: one sound file for each voice, named by its digest. */
public final class VoiceFolder {

    private static final String ENDING = ".ogg";
    private static final String UNFINISHED = ".part";

    private final Path folder;

    public VoiceFolder(Path workspace) {
        folder = workspace.resolve("voice");
    }

    /** A file to record into; it becomes a voice by {@link #keep}. */
    public Path begin(String name) {
        try {
            Files.createDirectories(folder);
        } catch (IOException e) {
            throw new InputException(
                    "the folder for voices cannot be made: " + e.getMessage(),
                    folder.toString(),
                    "check the drive and its rights",
                    e);
        }
        return folder.resolve(name + UNFINISHED);
    }

    /** Gives a finished file its name. @return its digest */
    public String keep(Path part) {
        String sha256 = FileDigest.sha256(part, Progress.NONE);
        Path kept = file(sha256);
        try {
            if (Files.exists(kept)) {
                Files.delete(part);
            } else {
                Files.move(part, kept, StandardCopyOption.ATOMIC_MOVE);
            }
        } catch (IOException e) {
            throw new InputException(
                    "the sound cannot be kept: " + e.getMessage(),
                    part.toString(),
                    "check the drive and its free space",
                    e);
        }
        return sha256;
    }

    /** Where a voice is, or would be. */
    public Path file(String sha256) {
        return folder.resolve(sha256 + ENDING);
    }

    /** Recordings that were never finished, because the program was stopped meanwhile. */
    public List<Path> unfinished() {
        return list(name -> name.endsWith(UNFINISHED));
    }

    /** Sound files that no comment uses. @param used digests of all voices */
    public List<Path> unused(Set<String> used) {
        return list(name -> name.matches("[0-9a-f]{64}\\" + ENDING)
                && !used.contains(name.substring(0, name.length() - ENDING.length())));
    }

    private List<Path> list(java.util.function.Predicate<String> wanted) {
        if (!Files.isDirectory(folder)) {
            return List.of();
        }
        List<Path> found = new ArrayList<>();
        try (Stream<Path> files = Files.list(folder)) {
            files.filter(file -> wanted.test(String.valueOf(file.getFileName())))
                    .sorted()
                    .forEach(found::add);
        } catch (IOException e) {
            throw new InputException("the voices cannot be listed: " + e.getMessage(), folder.toString(), null, e);
        }
        return found;
    }
}
