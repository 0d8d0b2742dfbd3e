package org.sideport.app;

import java.nio.file.Path;
import javafx.application.Application;
import org.sideport.store.Workspace;

/** Starts the window. Apart from the application class, because JavaFX may lie on the class path. */
public final class AppLauncher {

    private AppLauncher() {}

    /**
     * Opens the window on a workspace, which is made if the folder is none, and returns when it is closed. At most once
     * in a program's life.
     *
     * @throws org.sideport.model.InputException if the folder cannot be used
     */
    public static void launch(Path workspaceDir) {
        // opened once before, so that what is wrong with it is said on the terminal and not by a window that dies
        boolean there = Workspace.isWorkspace(workspaceDir);
        Path folder;
        try (Workspace workspace = there ? Workspace.open(workspaceDir) : Workspace.create(workspaceDir)) {
            folder = workspace.dir();
        }
        Application.launch(SideportApp.class, folder.toString());
    }
}
