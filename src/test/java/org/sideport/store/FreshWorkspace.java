package org.sideport.store;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.sideport.model.InputException;

/**
 * Empty workspaces for tests that are not about making one: each is a copy of one that the program made, since going through
 * all migrations takes longer than what most tests do with it.
 */
public final class FreshWorkspace {

    private static final class Template {
        static final byte[] STORE = make();

        private static byte[] make() {
            try {
                Path dir = Files.createTempDirectory("sideport-template");
                Workspace.create(dir).close();
                byte[] store = Files.readAllBytes(dir.resolve(Workspace.STORE_FILE));
                try (var files = Files.list(dir)) {
                    for (Path file : files.toList()) {
                        Files.deleteIfExists(file);
                    }
                }
                Files.delete(dir);
                return store;
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
    }

    private FreshWorkspace() {}

    /**
     * As {@link Workspace#create(Path)}.
     *
     * @throws InputException if there is one already
     */
    public static Workspace in(Path dir) {
        if (Workspace.isWorkspace(dir)) {
            return Workspace.create(dir);
        }
        try {
            Files.createDirectories(dir);
            Files.write(dir.resolve(Workspace.STORE_FILE), Template.STORE);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return Workspace.open(dir);
    }
}
