package org.sideport.rubric;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.InputException;
import org.sideport.model.Rubric;
import org.sideport.model.RubricWords;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class RubricWriterTest {

    @Test
    void whatIsWrittenIsReadAgainAndWrittenAlikeEachTime() {
        for (String name : ShippedRubrics.RUBRICS) {
            Rubric rubric = RubricReader.read(ShippedRubrics.text(name), name);
            String json = RubricWriter.json(rubric);

            assertThat(RubricReader.read(json, name)).as(name).isEqualTo(rubric);
            assertThat(RubricWriter.json(RubricReader.read(json, name))).isEqualTo(json);
        }
    }

    @Test
    void translationsEarlierVersionsAndAStandardAreWrittenToo() {
        Rubric plain = ShippedRubrics.phacoCompetency();
        Rubric rubric = new Rubric(
                plain.id(),
                "2.0.0",
                plain.title(),
                plain.procedure(),
                plain.source(),
                plain.guidance(),
                plain.levels(),
                plain.domains(),
                plain.items(),
                new Rubric.PassStandard(0.725, "panel", "2026-02-28"),
                List.of(new Rubric.Predecessor(
                        "1.0.0",
                        new java.util.LinkedHashMap<>(
                                Map.of("gone", plain.items().get(0).id())))),
                Map.of(
                        "fr",
                        new RubricWords(
                                "Titre",
                                "",
                                Map.of(plain.levels().get(0).points(), new RubricWords.LevelWords("bas", "")),
                                Map.of(plain.domains().get(0).id(), "Domaine"),
                                Map.of(plain.items().get(0).id(), new RubricWords.ItemWords("Un", "", "", Map.of())))));

        assertThat(RubricReader.read(RubricWriter.json(rubric), "r.json")).isEqualTo(rubric);
    }

    /** The dialect's own meta-schema, which the validator brings along, is the judge. */
    @Test
    void theSchemasAreWrittenInTheDialectOf2020AndPassItsMetaSchema() {
        for (String name : List.of("rubric.schema.json", "procedure.schema.json", "rating.schema.json")) {
            JsonNode schema = JsonMapper.shared().readTree(ShippedRubrics.text(name));
            assertThat(schema.path("$schema").asString()).isEqualTo("https://json-schema.org/draft/2020-12/schema");
            assertThat(SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                            .getSchema(SchemaLocation.of("https://json-schema.org/draft/2020-12/schema"))
                            .validate(schema))
                    .as(name)
                    .isEmpty();
        }
        assertThat(SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                        .getSchema(SchemaLocation.of("https://json-schema.org/draft/2020-12/schema"))
                        .validate(JsonMapper.shared().readTree("{\"type\": 7}")))
                .as("the judge sees a fault")
                .isNotEmpty();
    }

    /** A text editor looks where "$schema" points, from the file's own folder. */
    @Test
    void everyShippedFileAndEveryWrittenOneNamesItsSchemaBesideIt() {
        for (String name : ShippedRubrics.RUBRICS) {
            assertThat(named(ShippedRubrics.text(name))).isEqualTo("rubric.schema.json");
            assertThat(named(RubricWriter.json(RubricReader.read(ShippedRubrics.text(name), name))))
                    .isEqualTo("rubric.schema.json");
        }
        for (String name : ShippedRubrics.PROCEDURES) {
            assertThat(named(ShippedRubrics.text(name))).isEqualTo("procedure.schema.json");
        }
        assertThat(Path.of("rubrics", "rubric.schema.json")).isRegularFile();
        assertThat(Path.of("rubrics", "procedure.schema.json")).isRegularFile();
    }

    private static String named(String json) {
        return JsonMapper.shared().readTree(json).path("$schema").asString("");
    }

    @Test
    void aFileThatCannotBeWrittenLeavesTheOldOneAndNothingBesideIt(@TempDir Path folder) throws IOException {
        Path file = folder.resolve("r.json");
        RubricWriter.write(file, "first");
        RubricWriter.write(file, "second");
        assertThat(file).hasContent("second");

        // a folder in the way cannot be replaced by a file
        Path inTheWay = Files.createDirectories(folder.resolve("way.json").resolve("full"));
        assertThatThrownBy(() -> RubricWriter.write(folder.resolve("way.json"), "text"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("way.json");
        assertThat(inTheWay).isDirectory();
        try (var files = Files.list(folder)) {
            assertThat(files.map(f -> f.getFileName().toString())).containsExactlyInAnyOrder("r.json", "way.json");
        }
    }
}
