package org.sideport.player;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class VlcPlacesTest {

    @TempDir
    Path folder;

    private VlcPlaces places(Path... folders) {
        return new VlcPlaces(
                List.of(folders),
                Pattern.compile("libvlc\\.so(?:\\.\\d+)*"),
                Pattern.compile("libvlccore\\.so(?:\\.\\d+)*"));
    }

    @Test
    void takesTheFirstFolderThatHoldsBothLibraries() throws Exception {
        Path half = Files.createDirectory(folder.resolve("half"));
        Files.createFile(half.resolve("libvlc.so.5.6.1"));
        Path whole = Files.createDirectory(folder.resolve("whole"));
        Files.createFile(whole.resolve("libvlc.so.5"));
        Files.createFile(whole.resolve("libvlccore.so.9"));

        assertThat(places(folder.resolve("nowhere"), half, whole).discover()).isEqualTo(whole.toString());
    }

    @Test
    void doesNotLookIntoSubfolders() throws Exception {
        Path deep = Files.createDirectories(folder.resolve("a/b"));
        Files.createFile(deep.resolve("libvlc.so.5"));
        Files.createFile(deep.resolve("libvlccore.so.9"));

        assertThat(places(folder).discover()).isNull();
    }
}
