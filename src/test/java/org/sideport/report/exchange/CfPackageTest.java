package org.sideport.report.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.sideport.model.Rubric;
import org.sideport.rubric.RubricReader;
import org.sideport.rubric.ShippedRubrics;
import tools.jackson.databind.JsonNode;

/** 1EdTech CASE 1.1, information model (names of classes and attributes as media facts of the standard; tables from memory). */
class CfPackageTest {

    private static final Instant MADE = Instant.parse("2026-01-02T03:04:05Z");

    static List<Rubric> shipped() {
        return ShippedRubrics.RUBRICS.stream()
                .map(name -> RubricReader.read(ShippedRubrics.text(name), name))
                .toList();
    }

    @ParameterizedTest
    @MethodSource("shipped")
    void everyShippedRubricComesBackAsItWas(Rubric rubric) {
        String text = CfPackageWriter.write(rubric, MADE);
        assertThat(CfPackageReader.read(text, "x.json", "phaco")).containsExactly(rubric);
        JsonNode root = StandardJson.parse(text, "x");
        // what the model demands of every object: identifier (UUID), uri, lastChangeDateTime
        for (String array : List.of("CFItems", "CFAssociations", "CFRubrics")) {
            for (JsonNode node : root.path(array)) {
                required(node);
            }
        }
        required(root.path("CFDocument"));
        assertThat(root.at("/CFDocument/creator").asString()).isNotEmpty();
        JsonNode cf = root.at("/CFRubrics/0");
        assertThat(cf.path("CFRubricCriteria").size()).isEqualTo(rubric.items().size());
        for (JsonNode criterion : cf.path("CFRubricCriteria")) {
            required(criterion);
            assertThat(criterion.path("rubricId")).isEqualTo(cf.path("identifier"));
            String item = criterion.at("/CFItemURI/identifier").asString();
            assertThat(root.path("CFItems")
                            .valueStream()
                            .map(i -> i.path("identifier").asString()))
                    .contains(item);
            for (JsonNode level : criterion.path("CFRubricCriterionLevels")) {
                required(level);
                assertThat(level.path("rubricCriterionId")).isEqualTo(criterion.path("identifier"));
                assertThat(level.path("score").isIntegralNumber()).isTrue();
            }
        }
        // each item hangs below a domain, each domain below the document
        assertThat(root.path("CFAssociations").size())
                .isEqualTo(rubric.items().size() + rubric.domains().size());
    }

    private static void required(JsonNode node) {
        assertThat(node.path("identifier").asString()).matches("[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}");
        assertThat(node.path("uri").asString()).startsWith("urn:uuid:");
        assertThat(Instant.parse(node.path("lastChangeDateTime").asString())).isEqualTo(MADE);
    }

    @Test
    void wordsAndWeightsThatAnotherProgramChangedAreTaken() {
        Rubric rubric = ShippedRubrics.phacoCompetency();
        Rubric.Item first = rubric.items().get(0);
        String text = CfPackageWriter.write(rubric, MADE)
                .replace("\"description\" : \"" + first.title() + "\"", "\"description\" : \"New words\"")
                .replaceFirst("\"weight\" : [0-9.]+", "\"weight\" : 7.5");
        Rubric read = CfPackageReader.read(text, "x.json", "phaco").get(0);
        assertThat(read.items().get(0).title()).isEqualTo("New words");
        assertThat(read.items().get(0).weight()).isEqualTo(7.5);
        assertThat(read.items().get(0).id()).isEqualTo(first.id());
        assertThat(read.items().subList(1, read.items().size()))
                .isEqualTo(rubric.items().subList(1, rubric.items().size()));
    }

    private static final String FOREIGN = """
        {"CFDocument": {"identifier": "6e0b7a52-0000-4000-8000-000000000001", "uri": "https://example.org/doc/1",
          "title": "Skills of a workshop", "creator": "Example unit", "lastChangeDateTime": "2025-01-24T00:00:00+00:00"},
         "CFItems": [{"identifier": "6e0b7a52-0000-4000-8000-000000000002", "uri": "https://example.org/item/2",
           "fullStatement": "Holds the tool", "humanCodingScheme": "W.1", "notes": "Look at the hand.",
           "lastChangeDateTime": "2025-01-24T00:00:00+00:00"}],
         "CFRubrics": [{"identifier": "6e0b7a52-0000-4000-8000-000000000003", "uri": "https://example.org/rubric/3",
           "title": "Workshop rubric", "description": "For practice", "lastChangeDateTime": "2025-01-24T00:00:00+00:00",
           "CFRubricCriteria": [
            {"identifier": "6e0b7a52-0000-4000-8000-000000000004", "category": "Handling", "weight": 2,
             "CFItemURI": {"title": "", "identifier": "6e0b7a52-0000-4000-8000-000000000002", "uri": "x"},
             "CFRubricCriterionLevels": [
              {"quality": "Good", "description": "Steady", "score": 3.0},
              {"quality": "Fair", "description": "Some tremor", "score": 2},
              {"quality": "Poor", "score": 1}]},
            {"description": "Cleans up", "category": "Order", "CFRubricCriterionLevels": [
              {"quality": "No", "score": 0}, {"quality": "Yes", "score": 1}]}]}]}
        """;

    @Test
    void aRubricOfAnotherProgram() {
        Rubric rubric = CfPackageReader.read(FOREIGN, "x.json", "phaco").get(0);
        assertThat(rubric.id()).isEqualTo("workshop-rubric");
        assertThat(rubric.title()).isEqualTo("Workshop rubric");
        assertThat(rubric.source()).contains("Example unit", "https://example.org/rubric/3");
        assertThat(rubric.levels()).extracting(Rubric.Level::label).containsExactly("Poor", "Fair", "Good");
        assertThat(rubric.domains()).extracting(Rubric.Domain::title).containsExactly("Handling", "Order");
        Rubric.Item first = rubric.items().get(0);
        assertThat(first.title()).isEqualTo("Holds the tool");
        assertThat(first.guidance()).isEqualTo("Look at the hand.");
        assertThat(first.weight()).isEqualTo(2);
        assertThat(first.anchors()).extracting(Rubric.Anchor::text).containsExactly("Poor", "Some tremor", "Steady");
        assertThat(rubric.items().get(1).kind()).isEqualTo(Rubric.Kind.CHECK);
    }

    @Test
    void badPackagesAreNamedByTheirPlace() {
        refused(
                FOREIGN.replace("\"score\": 2}", "\"score\": 2.5}"),
                "/CFRubricCriteria/0/CFRubricCriterionLevels/1/score");
        refused(FOREIGN.replace("\"score\": 2}", "\"score\": 1}"), "/CFRubricCriteria/0/CFRubricCriterionLevels/");
        refused(
                FOREIGN.replace("{\"quality\": \"No\", \"score\": 0}, ", ""),
                "/CFRubricCriteria/1/CFRubricCriterionLevels");
        refused("{\"CFDocument\": {}}", "/CFRubrics");
        refused("{\"CFDocument\": ", "line 1");
    }

    private static void refused(String text, String place) {
        assertThatThrownBy(() -> CfPackageReader.read(text, "x.json", "phaco")).hasMessageContaining(place);
    }
}
