package org.sideport.store;

import java.io.IOException;
import java.nio.file.Path;

/** A second program: holds a workspace until its standard input ends. */
public final class HoldWorkspace {

    private HoldWorkspace() {}

    public static void main(String[] args) throws IOException {
        try (Workspace held = Workspace.open(Path.of(args[0]))) {
            System.out.println("held " + held.dir());
            while (System.in.read() >= 0) {
                // wait for the end
            }
        }
    }
}
