package org.sideport.player;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the kernel writes: Linux, Documentation/sound/designs/procfile.rst, "cards"; the text without one is from memory. */
class SoundDeviceTest {

    @TempDir
    Path folder;

    @Test
    void aListedCardIsASoundDevice() throws IOException {
        Path cards = Files.writeString(folder.resolve("cards"), " 0 [PCH            ]: HDA-Intel - HDA Intel PCH\n");
        assertThat(SoundDevice.isThere(cards, Map.of())).isTrue();
    }

    @Test
    void noListAndAnEmptyOneAreNot() throws IOException {
        Path cards = Files.writeString(folder.resolve("cards"), "--- no soundcards ---\n");
        assertThat(SoundDevice.isThere(cards, Map.of())).isFalse();
        assertThat(SoundDevice.isThere(folder.resolve("none"), Map.of())).isFalse();
    }

    @Test
    void aSoundServerIsASoundDeviceWithoutACard() throws IOException {
        Files.createDirectories(folder.resolve("pulse"));
        Files.createFile(folder.resolve("pulse").resolve("native"));
        assertThat(SoundDevice.isThere(folder.resolve("none"), Map.of("XDG_RUNTIME_DIR", folder.toString())))
                .isTrue();
        assertThat(SoundDevice.isThere(folder.resolve("none"), Map.of("PULSE_SERVER", "host")))
                .isTrue();
    }
}
