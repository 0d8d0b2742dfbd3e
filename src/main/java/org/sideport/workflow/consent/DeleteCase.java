package org.sideport.workflow.consent;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.sideport.media.FrameIndexCache;
import org.sideport.model.Deletion;
import org.sideport.model.DeletionKind;
import org.sideport.model.InputException;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import org.sideport.model.SurgicalCase;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.CaseThumbnails;
import org.sideport.workflow.Codes;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Deletes a case for good, with its marks, comments and files: plan first, then confirm. */
public final class DeleteCase {

    private final Workspace workspace;

    public DeleteCase(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * What would be deleted. Nothing is changed.
     *
     * @throws InputException if there is no such case, or no reason to delete it: consent refused or withdrawn, or the day of
     *     review come
     */
    public DeletionPlan plan(String code, LocalDate today) {
        Access.require(workspace, Permission.DELETE_CASE);
        return workspace.read(stores -> plan(stores, code, today));
    }

    private DeletionPlan plan(Stores stores, String code, LocalDate today) {
        SurgicalCase gone = stores.cases().evenWithdrawn(code);
        DeletionKind kind = reason(gone, today);
        List<Path> files = new ArrayList<>();
        List<Path> elsewhere = new ArrayList<>();
        List<Path> missing = new ArrayList<>();
        List<Path> shared = new ArrayList<>();
        Recording recording = gone.recording();
        for (Segment segment : recording == null ? List.<Segment>of() : recording.segments()) {
            Path file = segment.file();
            boolean ofOthers = stores.cases().usingContent(segment.sha256()).stream()
                    .anyMatch(other -> !other.equalsIgnoreCase(gone.code()));
            if (!Files.isRegularFile(file)) {
                missing.add(file);
            } else if (!isInWorkspace(file) || !isSize(file, segment.size())) {
                elsewhere.add(file);
            } else if (ofOthers) {
                shared.add(file);
            } else {
                files.add(file);
            }
        }
        for (String voice : stores.deletions().voicesOnlyOf(code)) {
            Path file = workspace.voices().file(voice);
            if (Files.isRegularFile(file)) {
                files.add(file);
            }
        }
        return new DeletionPlan(gone.code(), kind, stores.deletions().signed(code), files, elsewhere, missing, shared);
    }

    private static DeletionKind reason(SurgicalCase gone, LocalDate today) {
        LocalDate reviewBy = gone.reviewBy();
        return switch (gone.consent().state()) {
            case WITHDRAWN -> DeletionKind.WITHDRAWN;
            case REFUSED -> DeletionKind.REFUSED;
            default -> {
                if (reviewBy == null || reviewBy.isAfter(today)) {
                    throw new InputException(
                            "case " + gone.code() + " cannot be deleted: consent was neither refused nor withdrawn, and"
                                    + (reviewBy == null
                                            ? " there is no day by which it has to be looked at again"
                                            : " it need not be looked at again before " + reviewBy),
                            null,
                            "record the refusal or withdrawal, or the day, in its sheet (sideport case edit)");
                }
                yield DeletionKind.RETENTION;
            }
        };
    }

    /** A link that leads out of the folder is elsewhere. */
    private boolean isInWorkspace(Path file) {
        try {
            return file.toRealPath().startsWith(workspace.dir().toRealPath());
        } catch (IOException e) {
            return false;
        }
    }

    private static boolean isSize(Path file, long size) {
        try {
            return Files.size(file) == size;
        } catch (IOException e) {
            return false;
        }
    }

    /** What was done, and what is left to a person. */
    public record Done(Deletion deletion, DeletionPlan plan) {}

    /**
     * Deletes files first and the case then, so that what stops in between leaves the case on the list and can be done again.
     *
     * @param confirmed the plan as the person saw it
     * @param givenBy code of the person who confirms
     * @throws InputException if a file cannot be deleted (the case stays then), or the case has changed since the plan
     */
    public Done delete(DeletionPlan confirmed, String givenBy, LocalDate today) {
        String by = Codes.require("the person who deletes", givenBy);
        Access.require(workspace, Permission.DELETE_CASE);
        Access.requireOwn(workspace.caller(), by);
        DeletionPlan now = plan(confirmed.code(), today);
        if (now.kind() != confirmed.kind() || now.signed() > confirmed.signed()) {
            throw new InputException(
                    "case " + now.code() + " has changed meanwhile", null, "look again at what would be deleted");
        }
        forgetPictures(now);
        Set<Path> folders = new LinkedHashSet<>();
        for (Path file : now.files()) {
            delete(file);
            Path folder = file.getParent();
            if (folder != null) {
                folders.add(folder);
            }
        }
        folders.forEach(this::removeIfEmpty);
        Deletion deletion = workspace.write(stores -> {
            Deletion made = stores.deletions().delete(now.code(), now.kind(), by, today);
            stores.audit().add("case.delete", made.id(), "", now.kind().id());
            return made;
        });
        return new Done(deletion, now);
    }

    private void forgetPictures(DeletionPlan plan) {
        FrameIndexCache cache = new FrameIndexCache(workspace.indexDir());
        plan.files().forEach(cache::forget);
        Recording recording = workspace
                .read(stores -> stores.cases().evenWithdrawn(plan.code()))
                .recording();
        if (recording != null) {
            new CaseThumbnails(workspace).forget(recording);
        }
    }

    private static void delete(Path file) {
        try {
            Files.deleteIfExists(file);
        } catch (IOException e) {
            throw new InputException(
                    "the file cannot be deleted: " + e.getMessage() + "; the case is still there",
                    file.toString(),
                    "close it wherever it is open, check your rights, then delete the case again",
                    e);
        }
    }

    /** The folder of an imported bundle's recording goes with its last file; the workspace's own folders stay. */
    private void removeIfEmpty(Path folder) {
        Path own = workspace.dir().resolve("recordings");
        if (!folder.startsWith(own) || folder.equals(own)) {
            return;
        }
        try {
            Files.deleteIfExists(folder);
        } catch (IOException e) {
            // it still holds something
        }
    }
}
