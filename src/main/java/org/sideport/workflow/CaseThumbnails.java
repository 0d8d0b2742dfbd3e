package org.sideport.workflow;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.sideport.media.FrameIndexCache;
import org.sideport.media.Thumbnail;
import org.sideport.model.InputException;
import org.sideport.model.MaskArea;
import org.sideport.model.Progress;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Small pictures of the cases, made once and kept in the workspace's index folder, the newest few thousand of them. */
public final class CaseThumbnails {

    /** Pixels; twice what a row of a list shows, for dense screens. */
    static final int HEIGHT = 64;

    private final Workspace workspace;
    private final FrameIndexCache cache;
    private final int most;

    public CaseThumbnails(Workspace workspace) {
        this(workspace, 5_000);
    }

    /** @param most how many are kept */
    CaseThumbnails(Workspace workspace, int most) {
        this.workspace = workspace;
        this.cache = new FrameIndexCache(workspace.indexDir());
        this.most = most;
    }

    /**
     * The file of the picture, made now if there is none yet.
     *
     * @return {@code null} if the case has no recording, or its files are not where they were
     * @throws InputException if there is no such case or its recording cannot be decoded
     */
    public @Nullable Path of(String code, Progress progress) {
        Recording recording = workspace
                .read(stores -> {
                    Access.requireWatch(stores, code);
                    return stores.cases().find(code);
                })
                .map(c -> c.recording())
                .orElse(null);
        if (recording == null) {
            return null;
        }
        Path file = folder().resolve(key(recording) + ".png");
        try {
            if (Files.isRegularFile(file)) {
                Files.setLastModifiedTime(file, FileTime.from(Instant.now()));
                return file;
            }
            if (!recording.segments().stream().allMatch(s -> Files.isRegularFile(s.file()))) {
                return null;
            }
            Files.createDirectories(folder());
        } catch (IOException e) {
            throw new InputException("the small picture cannot be kept: " + e.getMessage(), file.toString(), null, e);
        }
        Thumbnail.write(recording, cache, HEIGHT, file, progress);
        return file;
    }

    /** Deletes the picture of a recording that is about to be deleted. */
    public void forget(Recording recording) {
        Access.require(workspace, Permission.DELETE_CASE);
        if (!Files.isDirectory(folder())) {
            return;
        }
        // also those that were made for blinded assessors
        try (Stream<Path> all = Files.list(folder())) {
            for (Path file : all.filter(one -> one.getFileName().toString().startsWith(key(recording)))
                    .toList()) {
                Files.deleteIfExists(file);
            }
        } catch (IOException e) {
            throw new InputException(
                    "the small picture cannot be deleted: " + e.getMessage(), folder().toString(), null, e);
        }
    }

    /** Deletes all pictures, when a person signs out: what showed only to who signed in does not stay behind. */
    public void clear() {
        Access.require(workspace, Permission.SEE_CASE);
        keepNewest(0);
    }

    /** Deletes what has not been looked at for longest, where there are too many. */
    public void tidy() {
        Access.require(workspace, Permission.SEE_CASE);
        keepNewest(most);
    }

    private void keepNewest(int kept) {
        if (!Files.isDirectory(folder())) {
            return;
        }
        try (Stream<Path> files = Files.list(folder())) {
            List<Path> newestFirst = files.sorted(
                            Comparator.comparing(CaseThumbnails::used).reversed())
                    .toList();
            for (Path old : newestFirst.subList(Math.min(kept, newestFirst.size()), newestFirst.size())) {
                Files.deleteIfExists(old);
            }
        } catch (IOException e) {
            throw new InputException(
                    "old small pictures cannot be deleted: " + e.getMessage(), folder().toString(), null, e);
        }
    }

    private static FileTime used(Path file) {
        try {
            return Files.getLastModifiedTime(file);
        } catch (IOException e) {
            return FileTime.fromMillis(0);
        }
    }

    private Path folder() {
        return workspace.indexDir().resolve("thumbnails");
    }

    /** Of the content, so that a recording whose files moved keeps its picture; and of what of it is covered. */
    private static String key(Recording recording) {
        String content = recording.segments().stream().map(Segment::sha256).collect(Collectors.joining());
        String covered = recording.covered().stream().map(MaskArea::text).collect(Collectors.joining(" "));
        return uuid(content) + (covered.isEmpty() ? "" : "-" + uuid(covered));
    }

    private static String uuid(String text) {
        return UUID.nameUUIDFromBytes(text.getBytes(StandardCharsets.UTF_8)).toString();
    }
}
