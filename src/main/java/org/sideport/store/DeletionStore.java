package org.sideport.store;

import java.sql.SQLException;
import java.time.LocalDate;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.UUID;
import org.jdbi.v3.core.Handle;
import org.sideport.model.Deletion;
import org.sideport.model.DeletionKind;

/**
 * The one path on which a case can go for good, signed ratings and all: the database lets them go only while a row of
 * {@code case_deletion} stands for the case, and takes such a row only where consent was refused or withdrawn or the day of
 * review has come.
 */
public final class DeletionStore {

    private final Handle handle;
    private final Veil veil;
    private final AfterCommit afterCommit;

    DeletionStore(Handle handle, Veil veil, AfterCommit afterCommit) {
        this.handle = handle;
        this.veil = veil;
        this.afterCommit = afterCommit;
    }

    /**
     * Deletes a case with all that came of it and writes a line into the log.
     *
     * @param by code of the person who confirmed it
     * @param on the day
     * @throws org.sideport.model.InputException if there is no such case
     * @throws org.jdbi.v3.core.JdbiException if the store sees no reason of this kind
     */
    public Deletion delete(String code, DeletionKind kind, String by, LocalDate on) {
        long id = veil.evenWithdrawn(code);
        overwriteWhatIsFreed();
        afterCommit.erase();
        Deletion deletion = new Deletion(UUID.randomUUID().toString(), on, by, kind);
        handle.execute(
                "insert into deletion_log (id, deleted_on, deleted_by, kind) values (?, ?, ?, ?)",
                deletion.id(),
                deletion.on().toString(),
                deletion.by(),
                deletion.kind().id());
        handle.execute("insert into case_deletion (case_id, log_id) values (?, ?)", id, deletion.id());
        handle.execute("delete from rating where case_id = ?", id);
        handle.execute("delete from surgical_case where id = ?", id);
        handle.execute("delete from case_deletion where case_id = ?", id);
        return deletion;
    }

    /** SQLite would leave the deleted text in the file until the room is used again. */
    private void overwriteWhatIsFreed() {
        try {
            if (handle.getConnection().getMetaData().getDatabaseProductName().equals("SQLite")) {
                handle.execute("pragma secure_delete = on");
            }
        } catch (SQLException e) {
            throw new IllegalStateException("every driver knows its product", e);
        }
    }

    /** Digests of the voices of a case's comments that no other case's comment has. */
    public Set<String> voicesOnlyOf(String code) {
        long id = veil.evenWithdrawn(code);
        Set<String> own = voices("=", id);
        own.removeAll(voices("<>", id));
        return own;
    }

    private Set<String> voices(String comparison, long caseId) {
        return new HashSet<>(handle.createQuery("select distinct s.sha256 from spoken_comment s join moment_comment c"
                        + " on c.id = s.comment_id where c.case_id " + comparison + " :case")
                .bind("case", caseId)
                .mapTo(String.class)
                .list());
    }

    /** How many marks in force or superseded, signed by whom ever, would go with a case. */
    public int signed(String code) {
        return handle.createQuery("select count(*) from rating where case_id = :case and state <> 'draft'")
                .bind("case", veil.evenWithdrawn(code))
                .mapTo(Integer.class)
                .one();
    }

    /** All lines, the newest day first; of one day in no order, for the log knows no hours. */
    public List<Deletion> log() {
        return handle.createQuery("select * from deletion_log order by deleted_on desc, id")
                .map((row, context) -> new Deletion(
                        row.getString("id"),
                        LocalDate.parse(row.getString("deleted_on")),
                        row.getString("deleted_by"),
                        DeletionKind.valueOf(row.getString("kind").toUpperCase(Locale.ROOT))))
                .list();
    }
}
