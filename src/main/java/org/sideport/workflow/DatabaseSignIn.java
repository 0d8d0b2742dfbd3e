package org.sideport.workflow;

import java.nio.file.Path;
import org.sideport.model.InputException;
import org.sideport.store.DatabaseLogin;
import org.sideport.store.Workspace;

/** Signs in to the shared database that a workspace's folder names: it is the database that knows the person. */
public final class DatabaseSignIn {

    private final Path folder;

    public DatabaseSignIn(Path folder) {
        this.folder = folder;
    }

    /**
     * @param code the name of the login
     * @param password not kept; the driver wants it as text
     * @throws org.sideport.store.LoginRefusedException if the two do not belong together
     * @throws InputException if the database cannot be reached or read
     */
    public Workspace open(String code, char[] password) {
        return Workspace.open(folder, new DatabaseLogin(code.strip(), new String(password)));
    }
}
