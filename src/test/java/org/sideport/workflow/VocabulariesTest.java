package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.InputException;
import org.sideport.model.Procedure;
import org.sideport.model.Rubric;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;

class VocabulariesTest {

    @TempDir
    Path temp;

    private Workspace workspace;
    private Path own;

    @BeforeEach
    void open() throws IOException {
        workspace = FreshWorkspace.in(temp);
        own = Files.createDirectories(temp.resolve("rubrics"));
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    /** The file as it lies in the repository. */
    private static String shipped(String name) throws IOException {
        return Files.readString(Path.of("rubrics", name));
    }

    @Test
    void whatComesWithTheProgramIsThereWithoutAnyFile() throws IOException {
        Vocabularies all = new Vocabularies(workspace);
        assertThat(all.procedures()).extracting(Procedure::id).containsExactly("phaco", "msics");
        assertThat(all.rubrics("phaco"))
                .extracting(Rubric::id)
                .containsExactly("phaco-competency", "phaco-global", "capsulorhexis", "phaco-errors", "teaching-case");
        assertThat(all.rubrics("msics")).extracting(Rubric::id).containsExactly("msics-competency");
        assertThat(all.rubrics("other")).isEmpty();
        assertThat(all.rubric("phaco-competency").json()).isEqualTo(shipped("phaco-competency.json"));
        assertThat(Vocabularies.shippedOnly().procedures()).isEqualTo(all.procedures());
    }

    @Test
    void anOwnFileGoesBeforeAShippedOneOfTheSameId() throws IOException {
        String text = shipped("phaco-competency.json").replace("\"version\": \"1.0.0\"", "\"version\": \"7.0.0\"");
        Files.writeString(own.resolve("ours.json"), text);
        Files.writeString(
                own.resolve("ours-procedure.json"),
                shipped("phaco-procedure.json").replace("\"name\": \"Suture\"", "\"name\": \"Stitch\""));
        Vocabularies all = new Vocabularies(workspace);
        assertThat(all.rubrics("phaco"))
                .filteredOn(r -> r.id().equals("phaco-competency"))
                .extracting(Rubric::version)
                .containsExactly("7.0.0");
        assertThat(all.rubric("phaco-competency").json()).isEqualTo(text);
        assertThat(all.procedure("phaco").find("stitch")).isPresent();
        assertThat(Vocabularies.shippedOnly()
                        .rubric("phaco-competency")
                        .rubric()
                        .version())
                .isEqualTo("1.0.0");
    }

    @Test
    void anotherOperationIsAnotherFileAndNoCode() throws IOException {
        Files.writeString(
                own.resolve("small-procedure.json"),
                shipped("phaco-procedure.json").replace("\"id\": \"phaco\"", "\"id\": \"small\""));
        Files.writeString(
                own.resolve("small.json"),
                shipped("phaco-competency.json")
                        .replace("\"id\": \"phaco-competency\"", "\"id\": \"small-competency\"")
                        .replace("\"procedure\": \"phaco\"", "\"procedure\": \"small\""));
        Files.writeString(own.resolve("rubric.schema.json"), "no rubric");
        Files.writeString(own.resolve("notes.txt"), "no rubric");
        Vocabularies all = new Vocabularies(workspace);
        assertThat(all.procedures()).extracting(Procedure::id).containsExactly("phaco", "msics", "small");
        assertThat(all.rubrics("small")).extracting(Rubric::id).containsExactly("small-competency");
    }

    @Test
    void anUnknownIdIsRefusedWithThoseThatAreKnown() {
        Vocabularies all = new Vocabularies(workspace);
        assertThatThrownBy(() -> all.procedure("other"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("there is no procedure \"other\"")
                .hasMessageContaining("known are: phaco")
                .hasMessageContaining("folder rubrics of the workspace");
        assertThatThrownBy(() -> all.rubric("other"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("there is no rubric \"other\"")
                .hasMessageContaining("known are: phaco-competency");
    }

    @Test
    void aBrokenOwnFileIsNamedWithTheLineOfItsFault() throws IOException {
        Path broken = Files.writeString(own.resolve("broken.json"), "{\n  \"id\": \"x\",\n  oops\n}");
        assertThatThrownBy(() -> new Vocabularies(workspace).rubricTexts())
                .isInstanceOf(InputException.class)
                .hasMessageContaining(broken.toString())
                .hasMessageContaining("line 3");
    }

    @Test
    void anOwnFileInAnotherEncodingIsNamedWithARemedy() throws IOException {
        Path file = Files.write(own.resolve("latin.json"), "{\"id\": \"für\"}".getBytes(StandardCharsets.ISO_8859_1));
        assertThatThrownBy(() -> new Vocabularies(workspace).rubricTexts())
                .isInstanceOf(InputException.class)
                .hasMessageContaining(file.toString())
                .hasMessageContaining("save it as UTF-8");
    }
}
