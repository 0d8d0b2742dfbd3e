package org.sideport.workflow;

import java.io.IOException;
import java.nio.file.FileVisitOption;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.media.FileDigest;
import org.sideport.media.MediaException;
import org.sideport.model.Hidden;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import org.sideport.model.SurgicalCase;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;

/** Finds the files of a recording, also after they were moved: by size, then by SHA-256. */
public final class OpenRecording {

    /** Deep enough for a shelf of folders by year and list; a whole home folder is not searched. */
    private static final int DEPTH = 4;

    private final Workspace workspace;

    public OpenRecording(Workspace workspace) {
        this.workspace = workspace;
    }

    /** As {@link #locate(SurgicalCase, List, Progress)}, looking in the workspace and near the other recordings. */
    public Recording locate(SurgicalCase wanted) {
        return locate(wanted, List.of(), Progress.NONE);
    }

    /**
     * The recording with its files where they are now; a new place is remembered.
     *
     * @param alsoIn further folders to search
     * @throws InputException if the case has no recording, or a file is nowhere to be found
     */
    public Recording locate(SurgicalCase wanted, List<Path> alsoIn, Progress progress) {
        workspace.read(stores -> {
            Access.requireWatch(stores, wanted.code());
            return true;
        });
        Recording recording = wanted.recording();
        if (recording == null) {
            throw new InputException(
                    "case " + wanted.code() + " has no recording",
                    null,
                    "its timings and marks were brought in without one");
        }
        if (wanted.hides(Hidden.FILE_NAMES) && !recording.segments().stream().allMatch(OpenRecording::isThere)) {
            workspace.change(stores -> stores.cases().nameNeutrally(wanted.code()));
        }
        List<Segment> found = new ArrayList<>();
        boolean moved = false;
        for (Segment segment : recording.segments()) {
            if (isThere(segment)) {
                found.add(segment);
            } else {
                found.add(segment.withFile(search(wanted, segment, alsoIn, progress)));
                moved = true;
            }
        }
        if (moved) {
            workspace.change(stores -> stores.cases().moveSegments(wanted.code(), found));
        }
        if (wanted.hides(Hidden.FILE_NAMES)) {
            return neutral(wanted);
        }
        return new Recording(found, recording.covered());
    }

    /** The files under their neutral names, which lead to where they are now. */
    private Recording neutral(SurgicalCase wanted) {
        Recording named =
                workspace.read(stores -> stores.cases().get(wanted.code())).recording();
        if (named == null || !named.segments().stream().allMatch(OpenRecording::isThere)) {
            throw new InputException(
                    "the files of " + wanted.code() + " cannot be given neutral names here",
                    null,
                    "keep the recordings on the drive of the workspace, or let the director not hide file names");
        }
        return named;
    }

    /** Cheap on purpose, as it runs at each opening: a file of the same name and size is taken for the same. */
    private static boolean isThere(Segment segment) {
        try {
            return Files.isRegularFile(segment.file()) && Files.size(segment.file()) == segment.size();
        } catch (IOException e) {
            return false;
        }
    }

    private Path search(SurgicalCase wanted, Segment segment, List<Path> alsoIn, Progress progress) {
        for (Path folder : folders(segment, alsoIn)) {
            progress.check();
            Path match = within(folder, segment, progress);
            if (match != null) {
                return match;
            }
        }
        throw new InputException(
                "a file of case " + wanted.code() + " is not where it was",
                segment.file().toString(),
                "connect the drive it is on, or move it into the workspace folder " + workspace.dir());
    }

    private Set<Path> folders(Segment segment, List<Path> alsoIn) {
        Set<Path> folders = new LinkedHashSet<>(alsoIn);
        folders.add(workspace.dir());
        Path parent = segment.file().getParent();
        if (parent != null) {
            folders.add(parent);
        }
        for (SurgicalCase other : workspace.read(stores -> stores.cases().all())) {
            Recording recording = other.recording();
            if (recording != null) {
                for (Segment s : recording.segments()) {
                    Path folder = s.file().getParent();
                    if (folder != null) {
                        folders.add(folder);
                    }
                }
            }
        }
        return folders;
    }

    /** A folder or file that cannot be read, or a link that leads in a circle, cannot be the answer: the rest is searched. */
    private static @Nullable Path within(Path folder, Segment segment, Progress progress) {
        List<Path> sameSize = new ArrayList<>();
        try {
            Files.walkFileTree(folder, Set.of(FileVisitOption.FOLLOW_LINKS), DEPTH, new SimpleFileVisitor<>() {
                @Override
                public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) {
                    progress.check();
                    if (attributes.isRegularFile() && attributes.size() == segment.size()) {
                        sameSize.add(file);
                    }
                    return FileVisitResult.CONTINUE;
                }

                @Override
                public FileVisitResult visitFileFailed(Path file, IOException e) {
                    return FileVisitResult.CONTINUE;
                }

                @Override
                public FileVisitResult postVisitDirectory(Path dir, @Nullable IOException e) {
                    return FileVisitResult.CONTINUE;
                }
            });
        } catch (IOException e) {
            return null;
        }
        for (Path file : sameSize) {
            try {
                if (FileDigest.sha256(file, progress).equals(segment.sha256())) {
                    return file;
                }
            } catch (MediaException e) {
                // not readable: the next may be
            }
        }
        return null;
    }
}
