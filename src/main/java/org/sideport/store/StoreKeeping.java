package org.sideport.store;

import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jdbi.v3.core.Jdbi;
import org.jspecify.annotations.Nullable;
import org.sideport.model.AuditHead;
import org.sideport.model.Progress;
import org.sqlite.SQLiteDataSource;

/** Looks after the store of a workspace that is open: backups, and what can be found wrong with it. */
public final class StoreKeeping {

    private static final Duration DAY = Duration.ofDays(1);

    private final Workspace workspace;
    private final Jdbi jdbi;
    private final SQLiteDataSource source;
    private final AuditHeadFile head;
    private final Backups backups;

    StoreKeeping(Workspace workspace, Jdbi jdbi, SQLiteDataSource source, AuditHeadFile head) {
        this.workspace = workspace;
        this.jdbi = jdbi;
        this.source = source;
        this.head = head;
        this.backups = new Backups(workspace.dir());
    }

    /** All backups in the folder of the workspace, newest first. */
    public List<StoreBackup> backups() {
        return backups.list();
    }

    /** Makes a backup and thins out the older ones. */
    public StoreBackup backUp(Instant now, Progress progress) {
        return backups.make(source, now, progress);
    }

    /** Makes a backup if the last is older than a day. @return {@code null} if none was due */
    public @Nullable StoreBackup backUpIfDue(Instant now, Progress progress) {
        return backups.isDue(now, DAY, madeAt()) ? backUp(now, progress) : null;
    }

    private Instant madeAt() {
        String at = jdbi.withHandle(handle -> handle.createQuery(
                        "select strftime('%Y-%m-%dT%H:%M:%SZ', min(installed_on)) from flyway_schema_history")
                .mapTo(String.class)
                .findOne()
                .orElse(null));
        return at == null ? Instant.EPOCH : Instant.parse(at);
    }

    /**
     * Writes all of the workspace but recordings and what can be measured anew into one file.
     *
     * @throws org.sideport.model.InputException if it cannot be written; what stood there is as it was then
     */
    public void writeArchive(Path file, String program, Instant now, Progress progress) {
        WorkspaceArchive.write(workspace, source, file, program, now, progress);
    }

    /** What SQLite finds wrong with the file: pages, and rows that belong to rows which are not there. */
    public List<String> faults() {
        try (Connection connection = source.getConnection()) {
            return StoreHealth.faults(connection);
        } catch (SQLException e) {
            return List.of(String.valueOf(e.getMessage()));
        }
    }

    /** Where the audit trail ends. */
    public AuditHead head() {
        return workspace.read(stores -> stores.audit().head());
    }

    /** What is wrong with the audit trail, in itself and beside the ends it is known to have had. */
    public List<AuditFault> auditFaults() {
        return workspace.read(stores -> {
            List<AuditFault> faults =
                    new ArrayList<>(AuditChain.faults(stores.audit().all()));
            AuditHead now = stores.audit().head();
            Optional<AuditHead> said = head.read();
            if (said.isEmpty() && now.count() > 0) {
                faults.add(new AuditFault(
                        now.count(),
                        AuditFault.Kind.CUT,
                        "the file " + AuditHeadFile.NAME + " is missing or cannot be read: whether the end was cut"
                                + " off cannot be told"));
            }
            said.flatMap(had -> AuditChain.reaching(stores.handle, had, now, "the file " + AuditHeadFile.NAME))
                    .ifPresent(faults::add);
            for (StoreBackup backup : backups.list()) {
                Backups.said(backup)
                        .flatMap(had -> AuditChain.reaching(
                                stores.handle,
                                had.head(),
                                now,
                                "the backup " + backup.file().getFileName()))
                        .ifPresent(faults::add);
            }
            return faults;
        });
    }

    /**
     * True if the trail has, as its line of this number, one with this digest: for an end that was noted elsewhere.
     */
    public boolean reaches(AuditHead noted) {
        return workspace.read(stores -> AuditHeadFile.reaches(stores.handle, noted));
    }

    /** Backups that are not as they were written. */
    public List<StoreBackup> damagedBackups(Progress progress) {
        return backups.list().stream()
                .filter(backup -> Backups.said(backup)
                        .filter(said ->
                                !said.sha256().equals(org.sideport.media.FileDigest.sha256(backup.file(), progress)))
                        .isPresent())
                .toList();
    }

    /** Takes the trail as it stands from now on; what was expected is kept in it. */
    public void acceptTrail() {
        String had = head.read().map(AuditHeadFile::text).map(String::strip).orElse("none");
        AuditHead[] now = new AuditHead[1];
        workspace.change(stores -> {
            stores.audit().add("audit.accept", "workspace", had, "");
            now[0] = stores.audit().head();
        });
        head.accept(now[0]);
    }

    private Path file() {
        return workspace.dir().resolve(Workspace.STORE_FILE);
    }

    /** Bytes of the store's file. */
    public long size() {
        try {
            return Files.size(file());
        } catch (java.io.IOException e) {
            return 0;
        }
    }
}
