package org.sideport.store;

import java.nio.file.Path;
import java.sql.SQLException;
import org.jdbi.v3.core.JdbiException;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sqlite.SQLiteErrorCode;

/** What the database refuses, in words that say how to mend it. */
final class StoreFaults {

    /** SQLite keeps the primary result code in the low byte of extended ones. */
    private static final int PRIMARY = 0xff;

    private StoreFaults() {}

    /** @param failed what could not be done */
    static RuntimeException explain(JdbiException fault, Path store, String failed) {
        for (Throwable cause = fault; cause != null; cause = cause.getCause()) {
            if (cause instanceof SQLException sql) {
                InputException explained = known(sql, store, failed);
                return explained == null ? fault : explained;
            }
        }
        return fault;
    }

    /** @param failed what could not be done */
    static RuntimeException explain(SQLException fault, Path store, String failed) {
        InputException explained = known(fault, store, failed);
        return explained == null ? new IllegalStateException(failed, fault) : explained;
    }

    static boolean isDamage(SQLException fault) {
        int code = fault.getErrorCode() & PRIMARY;
        return code == SQLiteErrorCode.SQLITE_CORRUPT.code || code == SQLiteErrorCode.SQLITE_NOTADB.code;
    }

    private static @Nullable InputException known(SQLException fault, Path store, String failed) {
        String what = failed + ": " + fault.getMessage();
        if (isDamage(fault)) {
            return new DamagedStoreException(what, store, fault);
        }
        String remedy = remedy(fault.getErrorCode() & PRIMARY);
        return remedy == null ? null : new InputException(what, store.toString(), remedy, fault);
    }

    private static @Nullable String remedy(int code) {
        if (code == SQLiteErrorCode.SQLITE_FULL.code) {
            return "the disk is full: free some space and try again";
        }
        if (code == SQLiteErrorCode.SQLITE_READONLY.code || code == SQLiteErrorCode.SQLITE_CANTOPEN.code) {
            return "the file may not be written: check the permissions of the workspace folder";
        }
        if (code == SQLiteErrorCode.SQLITE_BUSY.code || code == SQLiteErrorCode.SQLITE_LOCKED.code) {
            return "another program is using the file: close it and try again";
        }
        if (code == SQLiteErrorCode.SQLITE_IOERR.code) {
            return "the drive reports a fault, or is full: check it and try again";
        }
        return null;
    }
}
