package org.sideport.rubric;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;

/** Counted and measured items, earlier versions and translations in rubric and rating files. */
class RubricKindsTest {

    private static final String ERRORS = """
            {"id": "errors", "domain": "d", "title": "Errors", "kind": "count", "phase": "rhexis",
              "not_applicable": ["not_visible"],
              "bands": [{"from": 0, "points": 3, "text": "none"}, {"from": 1, "points": 1}, {"from": 3, "points": 0}]}
            """;
    private static final String TIME = """
            {"id": "time", "domain": "d", "title": "Time", "kind": "measured", "phase": "rhexis", "unit": "s",
              "quantity": "phase_time", "bands": [{"from": 0, "points": 2}, {"from": 90.5, "points": 0}]}
            """;

    private static String rubric(String more, String... items) {
        return "{\"id\": \"r\", \"version\": \"2.0.0\", \"title\": \"R\", \"procedure\": \"phaco\","
                + " \"source\": \"made for a test\", \"levels\": [], " + more
                + "\"domains\": [{\"id\": \"d\", \"title\": \"D\"}], \"items\": [" + String.join(",", items) + "]}";
    }

    @Test
    void bandsUnitAndQuantityAreRead() {
        Rubric read = RubricReader.read(rubric("", ERRORS, TIME), "r.json", ShippedRubrics.phacoProcedure());
        Rubric.Item errors = read.items().get(0);
        assertThat(errors.kind()).isEqualTo(Rubric.Kind.COUNT);
        assertThat(errors.bands())
                .containsExactly(new Rubric.Band(0, 3, "none"), new Rubric.Band(1, 1, ""), new Rubric.Band(3, 0, ""));
        assertThat(read.pointsOf(errors)).containsExactly(0, 1, 3);
        assertThat(read.maximumOf(errors)).isEqualTo(3);
        Rubric.Item time = read.items().get(1);
        assertThat(time.quantity()).isEqualTo(Rubric.Quantity.PHASE_TIME);
        assertThat(time.unit()).isEqualTo("s");
        assertThat(time.takes(90.25)).isTrue();
        assertThat(time.takes(-0.1)).isFalse();
        assertThat(errors.takes(1.5)).isFalse();
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
            "kind": "count"                                                                        | needs at least two bands
            "kind": "count", "bands": [{"from": 1, "points": 1}, {"from": 2, "points": 0}]          | a count starts at 0
            "kind": "count", "bands": [{"from": 0, "points": 1}, {"from": 1.5, "points": 0}]        | a count is a whole number
            "kind": "count", "bands": [{"from": 0, "points": 1}, {"from": 0, "points": 0}]          | starts no later
            "kind": "count", "bands": [{"from": 0, "points": 0}, {"from": 1, "points": 0}]          | no band gives a point
            "kind": "count", "anchors": [{"points": 1, "text": "x"}]                                | a count has no anchors
            "kind": "check", "bands": [{"from": 0, "points": 1}]                                    | only a count or a measured item has bands
            "kind": "measured", "critical_minimum": 1, "bands": [{"from": 0, "points": 1}, {"from": 1, "points": 0}] | cannot fail a rating by itself
            "kind": "measured", "quantity": "phase_time", "bands": [{"from": 0, "points": 1}, {"from": 1, "points": 0}] | names its phase
            "kind": "measured", "quantity": "weight"                                                | not a possible value
            """)
    void aFaultOfANumberedItemIsFound(String keys, String expected) {
        String json = rubric("", "{\"id\": \"x\", \"domain\": \"d\", \"title\": \"X\", " + keys + "}");
        assertThat(RubricCheck.check(json, "r.json", null))
                .anySatisfy(f -> assertThat(f.text()).contains(expected))
                .allSatisfy(f -> assertThat(f.line()).isNotNull());
    }

    @Test
    void itemsCanBeFollowedFromEarlierVersions() {
        Rubric read = RubricReader.read(
                rubric(
                        "\"replaces\": [{\"version\": \"1.0.0\", \"items\": {\"slips\": \"errors\", \"old\": null}}],",
                        ERRORS,
                        TIME),
                "r.json");
        assertThat(read.itemOf("1.0.0", "slips")).map(Rubric.Item::id).contains("errors");
        assertThat(read.itemOf("1.0.0", "time")).map(Rubric.Item::id).contains("time");
        assertThat(read.itemOf("1.0.0", "old")).isEmpty();
        assertThat(read.itemOf("2.0.0", "errors")).map(Rubric.Item::id).contains("errors");
        assertThat(read.itemOf("0.9.0", "errors"))
                .as("a version that is not known")
                .isEmpty();
        String wrong = rubric("\"replaces\": [{\"version\": \"2.0.0\", \"items\": {\"slips\": \"nowhere\"}}],", ERRORS);
        assertThat(RubricCheck.check(wrong, "r.json", null))
                .extracting(Finding::text)
                .containsExactlyInAnyOrder("the rubric replaces its own version", "there is no item \"nowhere\"");
    }

    @Test
    void aTranslationTakesThePlaceOfTheWordsAndOfNothingElse() {
        Rubric read = RubricReader.read(
                rubric(
                        "\"translations\": {\"fr\": {\"title\": \"Grille\", \"items\": {\"errors\":"
                                + " {\"title\": \"Erreurs\", \"anchors\": {\"3\": \"aucune\"}}}}},",
                        ERRORS,
                        TIME),
                "r.json");
        Rubric french = read.in("fr");
        assertThat(french.title()).isEqualTo("Grille");
        assertThat(french.items().get(0).title()).isEqualTo("Erreurs");
        assertThat(french.items().get(0).bands().get(0)).isEqualTo(new Rubric.Band(0, 3, "aucune"));
        assertThat(french.items().get(1)).isEqualTo(read.items().get(1));
        assertThat(french.id()).isEqualTo("r");
        assertThat(read.in("de")).isEqualTo(read);
        String unknown = rubric("\"translations\": {\"fr\": {\"items\": {\"nothing\": {\"title\": \"x\"}}}},", ERRORS);
        assertThat(RubricCheck.check(unknown, "r.json", null))
                .extracting(Finding::text)
                .containsExactly("there is no item \"nothing\" to translate");
    }

    @Test
    void aRatingGivesTheNumberAndGetsThePoints() {
        Rubric rubric = RubricReader.read(rubric("", ERRORS, TIME), "r.json");
        Rating read = RatingReader.read(
                "{\"rubric\": \"r\", \"version\": \"2.0.0\", \"actions\": [\"steady the second hand\"], \"scores\":"
                        + " [{\"item\": \"errors\", \"value\": 2, \"evidence_us\": [61000000, 75000000]},"
                        + " {\"item\": \"time\", \"value\": 90.5}]}",
                "r.json",
                rubric);
        assertThat(read.scores())
                .containsExactly(
                        new ItemScore.Marked(
                                "errors",
                                1,
                                2.0,
                                "",
                                List.of(MediaTime.ofMicros(61_000_000), MediaTime.ofMicros(75_000_000))),
                        new ItemScore.Marked("time", 0, 90.5, "", List.of()));
        assertThat(read.actions()).containsExactly("steady the second hand");
        assertThat(RatingReader.read(RatingWriter.write(read), "w.json", rubric))
                .isEqualTo(read);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
            {"item": "errors", "value": 1.5}              | cannot be 1.5
            {"item": "errors", "value": -1}               | cannot be -1
            {"item": "errors", "value": 1, "points": 3}   | of 1 does not get 3 points
            {"item": "errors", "value": 1, "level": 3}    | more than one of
            {"item": "errors", "points": 2}               | cannot be given 2 points
            {"item": "time"}                              | neither points nor not_applicable
            """)
    void aNumberThatDoesNotFitIsRefused(String score, String expected) {
        Rubric rubric = RubricReader.read(rubric("", ERRORS, TIME), "r.json");
        String json = "{\"rubric\": \"r\", \"version\": \"2.0.0\", \"scores\": [" + score + "]}";
        assertThatThrownBy(() -> RatingReader.read(json, "r.json", rubric))
                .isInstanceOf(InputException.class)
                .hasMessageContaining(expected);
    }

    @Test
    void moreThanThreeActionsAreRefused() {
        Rubric rubric = RubricReader.read(rubric("", ERRORS), "r.json");
        assertThatThrownBy(() -> RatingReader.read(
                        "{\"rubric\": \"r\", \"version\": \"2.0.0\", \"scores\": [],"
                                + " \"actions\": [\"a\", \"b\", \"c\", \"d\"]}",
                        "r.json",
                        rubric))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("/actions");
    }
}
