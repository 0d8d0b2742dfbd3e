package org.sideport.store;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;

/** The store's file is not what the program wrote. Names the last backup, if there is one. */
public final class DamagedStoreException extends InputException {

    private static final long serialVersionUID = 1L;

    DamagedStoreException(String what, Path store, @Nullable Throwable cause) {
        super(what, store.toString(), remedy(store), cause);
    }

    /** "put back a copy of it", with the way to the last one. */
    static String remedy(Path store) {
        Path dir = store.toAbsolutePath().getParent();
        Path last = dir == null
                ? null
                : Backups.list(dir).stream().findFirst().map(StoreBackup::file).orElse(null);
        return last == null
                ? "the file is damaged: put back a copy of it; there is no backup in the folder of the workspace"
                : "the file is damaged: put back a copy of it; the last backup is " + last
                        + ": bring it back into a new folder with: sideport workspace restore \"" + last
                        + "\" NEW-FOLDER";
    }
}
