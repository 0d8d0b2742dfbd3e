package org.sideport.app.keys;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.Settings;
import org.sideport.app.Shortcut;
import org.sideport.model.Procedure;
import org.sideport.model.Procedure.Term;
import org.sideport.rubric.ProcedureReader;

/** With the shipped procedure: "1" starts the incision, "2" the capsulotomy, "t" the rhexis. */
class PhaseKeysTest {

    @TempDir
    Path folder;

    private Procedure file;
    private PhaseKeys keys;

    @BeforeEach
    void read() throws IOException {
        Path path = Path.of(System.getProperty("sideport.home", "."), "rubrics", "phaco-procedure.json");
        file = ProcedureReader.read(Files.readString(path), path.toString());
        keys = new PhaseKeys(new Settings(folder.resolve("window.properties")));
    }

    private Term term(String id) {
        return keys.applied(file).find(id).orElseThrow();
    }

    private String startedBy(String key) {
        return PhaseKeys.termOf(keys.applied(file), key).map(Term::id).orElse("");
    }

    @Test
    void withoutChangesTheKeysAreTheFiles() {
        assertThat(keys.applied(file)).isEqualTo(file);
        assertThat(keys.isChanged(file)).isFalse();
        assertThat(startedBy("T")).isEqualTo("rhexis");
    }

    @Test
    void aChangedKeyStartsItsPhaseAndTheOldOneNothing() {
        assertThat(keys.set(file, term("rhexis"), "ö")).isEmpty();
        assertThat(startedBy("ö")).isEqualTo("rhexis");
        assertThat(startedBy("t")).isEmpty();
        assertThat(keys.isChanged(file)).isTrue();
    }

    @Test
    void changesOutliveTheProgramAndTheFileStaysAsItIs() {
        keys.set(file, term("rhexis"), "ö");
        keys = new PhaseKeys(new Settings(folder.resolve("window.properties")));
        assertThat(startedBy("ö")).isEqualTo("rhexis");
        assertThat(file.find("rhexis").orElseThrow().key()).isEqualTo("t");
    }

    @Test
    void aKeyOfAnotherPhaseIsRefusedByName() {
        assertThat(keys.set(file, term("rhexis"), "1"))
                .hasValueSatisfying(conflict -> assertThat(
                                ((PhaseKeys.Conflict.WithTerm) conflict).term().id())
                        .isEqualTo("incision"));
        assertThat(startedBy("1")).isEqualTo("incision");

        // given up there, it is free here
        assertThat(keys.set(file, term("incision"), "")).isEmpty();
        assertThat(keys.set(file, term("rhexis"), "1")).isEmpty();
        assertThat(startedBy("1")).isEqualTo("rhexis");
    }

    @Test
    void aKeyThatDoesSomethingElseOnTheScreenIsRefused() {
        assertThat(keys.set(file, term("rhexis"), "m")).contains(new PhaseKeys.Conflict.WithShortcut(Shortcut.EVENT));
        assertThat(keys.set(file, term("rhexis"), ","))
                .contains(new PhaseKeys.Conflict.WithShortcut(Shortcut.START_EARLIER));
        assertThat(keys.set(file, term("rhexis"), " ")).contains(new PhaseKeys.Conflict.NoKey());
        assertThat(keys.set(file, term("rhexis"), "ab")).contains(new PhaseKeys.Conflict.NoKey());
        assertThat(keys.isChanged(file)).isFalse();
    }

    @Test
    void allKeysCanBeSetBackToTheFiles() {
        keys.set(file, term("rhexis"), "ö");
        keys.set(file, term("incision"), "");
        keys.reset(file);
        assertThat(keys.applied(file)).isEqualTo(file);
    }

    @Test
    void whoeverShowsKeysHearsOfChanges() {
        int[] heard = {0};
        keys.onChange(() -> heard[0]++);
        keys.set(file, term("rhexis"), "ö");
        keys.set(file, term("rhexis"), "1");
        keys.reset(file);
        assertThat(heard[0]).isEqualTo(2);
    }
}
