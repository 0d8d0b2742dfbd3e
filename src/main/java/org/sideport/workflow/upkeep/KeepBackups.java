package org.sideport.workflow.upkeep;

import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.AuditHead;
import org.sideport.model.Progress;
import org.sideport.store.RestoreArchive;
import org.sideport.store.StoreBackup;
import org.sideport.store.Workspace;
import org.sideport.workflow.Program;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Copies of a workspace, and back. */
public final class KeepBackups {

    private final Workspace workspace;
    private final Clock clock;

    public KeepBackups(Workspace workspace, Clock clock) {
        this.workspace = workspace;
        this.clock = clock;
    }

    /** Copies of the store in the folder of the workspace, newest first. */
    public List<StoreBackup> list() {
        Access.require(workspace, Permission.KEEP_STORE);
        return workspace.keeping().backups();
    }

    /**
     * Copies the store into the folder of the workspace.
     *
     * @throws org.sideport.model.InputException if there is no room, or the store is damaged
     */
    public StoreBackup now(Progress progress) {
        Access.require(workspace, Permission.KEEP_STORE);
        return workspace.keeping().backUp(clock.instant(), progress);
    }

    /**
     * As {@link #now}, if the last is older than a day: in whoever's name, for nobody is asked.
     *
     * @return {@code null} if none was due, or the store is a shared database, which whoever keeps it copies
     */
    public @Nullable StoreBackup ifDue(Progress progress) {
        if (Workspace.isShared(workspace.dir())) {
            return null;
        }
        return workspace.keeping().backUpIfDue(clock.instant(), progress);
    }

    /** Writes the whole workspace but its recordings into one file. */
    public void archive(Path file, Progress progress) {
        Access.require(workspace, Permission.KEEP_STORE);
        workspace.change(stores -> stores.audit().add("workspace.backup", "workspace", "", ""));
        workspace.keeping().writeArchive(file, Program.VERSION, clock.instant(), progress);
    }

    /**
     * What was restored.
     *
     * @param head where the audit trail ended
     * @param problems what a check found; empty if it is whole
     */
    public record Restored(Path dir, AuditHead head, int cases, List<CheckWorkspace.Finding> problems) {

        public Restored {
            problems = List.copyOf(problems);
        }
    }

    /**
     * Makes a workspace out of a backup, brings it up to date and checks it. Nobody is asked for permission: who holds a
     * backup holds all that is in it.
     *
     * @throws org.sideport.model.InputException if the folder holds something, or the backup is not whole
     */
    public static Restored restore(Path backup, Path dir, Progress progress) {
        AuditHead head = RestoreArchive.restore(backup, dir, progress.part(0, 0.8));
        try (Workspace workspace = Workspace.open(dir)) {
            return new Restored(
                    workspace.dir(),
                    head,
                    workspace.read(stores -> (int) stores.summaries().counts().cases()),
                    CheckWorkspace.findings(workspace, false, progress.part(0.8, 1)).stream()
                            .filter(f -> f.kind() != CheckWorkspace.Kind.RECORDING)
                            .filter(f -> !f.isNote())
                            .toList());
        }
    }
}
