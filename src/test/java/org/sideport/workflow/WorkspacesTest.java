package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.InputException;
import org.sideport.store.Workspace;

class WorkspacesTest {

    @TempDir
    Path temp;

    private Path home;
    private Workspaces workspaces;

    @BeforeEach
    void aHome() throws IOException {
        home = Files.createDirectories(temp.resolve("home"));
        workspaces = new Workspaces(
                Map.of("SIDEPORT_CONFIG", temp.resolve("settings").toString()), home);
    }

    private Path opened(@Nullable Path named) {
        try (Workspace workspace = workspaces.open(named)) {
            return workspace.dir();
        }
    }

    @Test
    void withoutAnythingBeforeAFolderAtHomeIsMade() {
        assertThat(opened(null)).isEqualTo(home.resolve("Sideport"));
        assertThat(Workspace.isWorkspace(home.resolve("Sideport"))).isTrue();
        assertThat(opened(null)).isEqualTo(home.resolve("Sideport"));
    }

    @Test
    void theOneUsedLastIsOpenedAgain() {
        Path a = temp.resolve("a");
        Path b = temp.resolve("b");
        workspaces.create(a).close();
        workspaces.openOrCreate(b).close();
        assertThat(opened(null)).isEqualTo(b);
        assertThat(opened(a)).isEqualTo(a);
        assertThat(opened(null)).isEqualTo(a);
        assertThat(temp.resolve("settings/last-workspace")).content().isEqualToIgnoringNewLines(a.toString());
    }

    @Test
    void whereTheLastOneIsGoneTheFolderAtHomeIsTaken() throws IOException {
        workspaces.create(temp.resolve("a")).close();
        Files.move(temp.resolve("a"), temp.resolve("moved"));
        assertThat(opened(null)).isEqualTo(home.resolve("Sideport"));
    }

    @Test
    void aFolderThatHoldsOtherThingsIsNotMadeAWorkspaceInPassing() throws IOException {
        Path full = Files.createDirectories(temp.resolve("full"));
        Files.writeString(full.resolve("letter.txt"), "dear");
        assertThatThrownBy(() -> workspaces.openOrCreate(full))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("no Sideport workspace");
        try (var entries = Files.list(full)) {
            assertThat(entries).hasSize(1);
        }
        assertThat(temp.resolve("settings/last-workspace")).doesNotExist();
    }

    @Test
    void settingsAreKeptWhereTheEnvironmentSays() {
        assertThat(workspaces.settingsFolder()).isEqualTo(temp.resolve("settings"));
        assertThat(new Workspaces(Map.of("XDG_CONFIG_HOME", temp.resolve("x").toString()), home).settingsFolder())
                .isEqualTo(temp.resolve("x/sideport"));
        assertThat(new Workspaces(Map.of("SIDEPORT_CONFIG", " "), home).settingsFolder())
                .isEqualTo(home.resolve(".config/sideport"));
    }

    @Test
    void settingsThatCannotBeWrittenKeepNobodyFromWorking() throws IOException {
        Files.writeString(temp.resolve("settings"), "a file where the folder should be");
        Path a = temp.resolve("a");
        workspaces.create(a).close();
        assertThat(opened(a)).isEqualTo(a);
    }
}
