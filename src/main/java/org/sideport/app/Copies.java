package org.sideport.app;

import java.nio.file.Files;
import java.nio.file.Path;
import javafx.stage.FileChooser;

/** Choosing the copy of a store that a workspace is made of again. */
public final class Copies {

    private Copies() {}

    /** @param workspace whose folder of copies it begins in, if there is one */
    public static FileChooser chooser(Texts texts, Path workspace) {
        Path folder = workspace.resolve("backups");
        FileChooser chooser = new FileChooser();
        chooser.setTitle(texts.get("store.restore"));
        chooser.getExtensionFilters()
                .addAll(
                        new FileChooser.ExtensionFilter(texts.get("store.restore.kinds"), "*.zip", "*.db"),
                        new FileChooser.ExtensionFilter(texts.get("add.files.all"), "*.*"));
        if (Files.isDirectory(folder)) {
            chooser.setInitialDirectory(folder.toFile());
        }
        return chooser;
    }
}
