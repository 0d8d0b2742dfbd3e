package org.sideport.rubric;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.model.InputException;

class RubricCheckTest {

    /** Line numbers in the expectations are counted in this text, its first line being 1. */
    private static final String FAULTY = """
        {"id": "faulty", "version": "1.0", "title": " ", "procedure": "phaco", "source": "made for a test",
          "levels": [
            {"points": 1, "label": "low", "meaning": "x"},
            {"points": 2, "label": "high", "meaning": ""},
            {"points": 2, "label": "top", "meaning": "x"}
          ],
          "domains": [
            {"id": "d", "title": "D"},
            {"id": "d", "title": "D again"}
          ],
          "items": [
            {"id": "one", "domain": "d", "title": "One", "phase": "nowhere",
              "weight": 0,
              "critical_minimum": 7,
              "anchors": [
                {"points": 1, "text": "a"},
                {"points": 9, "text": "b"}]},
            {"id": "one", "domain": "elsewhere", "title": "Two", "colour": "red",
              "anchors": [{"points": 1, "text": "a"}, {"points": 1, "text": "b"}, {"points": 2, "text": "c"}]},
            {"id": "three", "domain": "d", "title": "Three", "kind": "check",
              "anchors": [{"points": 1, "text": "a"}]}
          ],
          "pass_standard": {
            "share": 1.5,
            "agreed_by": "panel",
            "agreed_on": "2026-02-30"}
        }
        """;

    @Test
    void everyFaultIsFoundAtOnceWithItsLine() {
        List<Finding> findings = RubricCheck.check(FAULTY, "faulty.json", ShippedRubrics.phacoProcedure());

        assertThat(findings)
                .extracting(f -> f.line() + " " + f.path())
                .containsExactlyInAnyOrder(
                        "1 /version",
                        "1 /title",
                        "4 /levels/1/meaning",
                        "5 /levels/2/points",
                        "9 /domains/1/id",
                        "12 /items/0/phase",
                        "13 /items/0/weight",
                        "14 /items/0/critical_minimum",
                        "15 /items/0/anchors",
                        "17 /items/0/anchors/1/points",
                        "18 /items/1/id",
                        "18 /items/1/domain",
                        "18 /items/1/colour",
                        "19 /items/1/anchors/1/points",
                        "21 /items/2/anchors",
                        "24 /pass_standard/share",
                        "26 /pass_standard/agreed_on");
        assertThat(findings)
                .allMatch(Finding::isError)
                .allMatch(f -> !f.remedy().isBlank());
        assertThat(findings).extracting(Finding::line).isSorted();
    }

    @Test
    void aFindingSaysWhatIsWrongAndHowToMendIt() {
        List<Finding> findings = RubricCheck.check(FAULTY, "faulty.json", null);

        assertThat(findings)
                .filteredOn(f -> f.path().equals("/items/0/critical_minimum"))
                .containsExactly(new Finding(
                        Finding.Severity.ERROR,
                        "/items/0/critical_minimum",
                        14,
                        27,
                        "7 is not a level of this item",
                        "write one of 1, 2"));
        assertThat(findings)
                .filteredOn(f -> f.path().equals("/items/0/anchors"))
                .extracting(Finding::text)
                .containsExactly("the anchor for 2 points is missing");
        // without a procedure its phases are not checked
        assertThat(findings).noneMatch(f -> f.path().equals("/items/0/phase"));
    }

    @Test
    void theReaderNamesTheFirstFaultAndHowManyMoreThereAre() {
        assertThatThrownBy(() -> RubricReader.read(FAULTY, "faulty.json", ShippedRubrics.phacoProcedure()))
                .isInstanceOf(InputException.class)
                .hasMessageStartingWith("faulty.json, line 1, column ")
                .hasMessageContaining("/version")
                .hasMessageContaining("(and 16 more faults)");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
        "points": 1                      | "points": "1"            | is of the wrong type
        "procedure": "phaco"             | "procedure": "scleral"   | the rubric is for "scleral"
        "kind": "check"                  | "kind": "tick"           | not a possible value
        "not_applicable": []             | "not_applicable": ["x"]  | not a possible value
        , {"points": 2, "label": "high", "meaning": "x"} | `` | fewer than two levels
        "points": 2, "label": "high"     | "points": 0, "label": "high" | list the worst first
        "label": "high"                  | "label": "low"           | stands already at
        "source": "made for a test",     | ``                       | "source" is missing
        "weight": 1                      | "weight": 1e400          | write a number
        "weight": 1                      | "weight": -2             | too small
        """)
    void oneFaultIsFound(String sound, String faulty, String expected) {
        String json = """
            {"id": "sound", "version": "1.0.0", "title": "T", "procedure": "phaco", "source": "made for a test",
             "levels": [{"points": 1, "label": "low", "meaning": "x"}, {"points": 2, "label": "high", "meaning": "x"}],
             "domains": [{"id": "d", "title": "D"}],
             "items": [
               {"id": "one", "domain": "d", "title": "One", "weight": 1, "not_applicable": [],
                "anchors": [{"points": 1, "text": "a"}, {"points": 2, "text": "b"}]},
               {"id": "two", "domain": "d", "title": "Two", "kind": "check"}]}
            """;
        assertThat(RubricCheck.check(json, "sound.json", ShippedRubrics.phacoProcedure()))
                .isEmpty();
        String broken = json.replace(sound, faulty);
        assertThat(broken).isNotEqualTo(json);

        assertThat(RubricCheck.check(broken, "broken.json", ShippedRubrics.phacoProcedure()))
                .anyMatch(f -> f.isError() && (f.text() + " " + f.remedy()).contains(expected));
    }

    @Test
    void aSyntaxErrorIsOneFindingWithLineAndColumn() {
        // the comma is missing before "version", the eleventh character of line 2
        String json = "{\"id\": \"x\"\n         \"version\": \"1.0.0\"}";

        assertThat(RubricCheck.check(json, "broken.json", null)).singleElement().satisfies(finding -> {
            assertThat(finding.line()).isEqualTo(2);
            assertThat(finding.column()).isBetween(10, 11);
            assertThat(finding.remedy()).contains("comma");
        });
        assertThatThrownBy(() -> RubricReader.read(json, "broken.json"))
                .isInstanceOf(InputException.class)
                .hasMessageStartingWith("broken.json, line 2, column 1");
    }

    @Test
    void aKeyThatStandsTwiceIsASyntaxError() {
        assertThat(RubricCheck.check("{\"id\": \"x\",\n\"id\": \"y\"}", "twice.json", null))
                .singleElement()
                .satisfies(f -> assertThat(f.line()).isEqualTo(2));
    }

    @ParameterizedTest
    @CsvSource(textBlock = "[]\n'\"text\"'\n7\n''\n'{} {}'", delimiter = '|', quoteCharacter = '\'')
    void whatIsNoObjectIsRefusedInWords(String json) {
        assertThatThrownBy(() -> RubricReader.read(json, "odd.json"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("odd.json");
    }

    @Test
    void aMinimumThatNoLevelCanMissAndADomainWithoutItemsAreWarnings() {
        String json = """
            {"id": "w", "version": "1.0.0", "title": "T", "procedure": "phaco", "source": "s",
             "levels": [],
             "domains": [{"id": "d", "title": "D"}, {"id": "e", "title": "E"}],
             "items": [{"id": "one", "domain": "d", "title": "One", "kind": "check", "critical_minimum": 0}]}
            """;
        assertThat(RubricCheck.check(json, "w.json", null))
                .extracting(f -> f.severity() + " " + f.path())
                .containsExactly("WARNING /domains/1", "WARNING /items/0/critical_minimum");
        assertThat(RubricReader.read(json, "w.json").items()).hasSize(1);
    }

    /** Of bands, earlier versions and translations; line numbers are counted in this text. */
    private static final String MORE_FAULTS = """
        {"id": "more", "version": "2.0.0", "title": "T", "procedure": "phaco", "source": "s",
          "levels": [{"points": 0, "label": "a", "meaning": "x"}, {"points": 1, "label": "b", "meaning": "x"}],
          "domains": [{"id": "d", "title": "D"}],
          "items": [
            {"id": "n", "domain": "d", "title": "N", "kind": "count",
              "bands": [
                {"from": 1, "points": 2},
                {"from": 1, "points": 1},
                {"from": 2.5, "points": -1}]},
            {"id": "m", "domain": "d", "title": "M", "kind": "measured", "quantity": "phase_time",
              "critical_minimum": 1,
              "bands": [{"from": 0, "points": 0}, {"from": 9, "points": 1}]},
            {"id": "l", "domain": "d", "title": "L", "bands": [{"from": 0, "points": 1}],
              "not_applicable": ["not_visible", "not_visible"],
              "anchors": [{"points": 0, "text": "a"}, {"points": 1, "text": "b"}]},
            {"id": "Big", "domain": "d", "title": "B", "kind": "count", "bands": []}],
          "replaces": [
            {"version": "2.0.0"},
            {"version": "1.0.0", "items": {"old": "nowhere", "given": null}},
            {"version": "1.0.0"}],
          "translations": {
            "fr": {"title": "", "items": {"ghost": {"title": "x"}}, "domains": {"e": "x"},
              "levels": {"one": {"label": "x"}, "7": {"label": "x"}}},
            "English": {"title": "x"}}
        }
        """;

    @Test
    void bandsEarlierVersionsAndTranslationsAreCheckedInTheSameGo() {
        List<Finding> findings = RubricCheck.check(MORE_FAULTS, "more.json", ShippedRubrics.phacoProcedure());

        assertThat(findings)
                .extracting(f -> f.line() + " " + f.path())
                .containsExactlyInAnyOrder(
                        "7 /items/0/bands/0/from",
                        "8 /items/0/bands/1/from",
                        "9 /items/0/bands/2/from",
                        "9 /items/0/bands/2/points",
                        "10 /items/1/quantity",
                        "11 /items/1/critical_minimum",
                        "13 /items/2/bands",
                        "14 /items/2/not_applicable",
                        "16 /items/3/id",
                        "16 /items/3/bands",
                        "18 /replaces/0/version",
                        "19 /replaces/1/items/old",
                        "20 /replaces/2/version",
                        "22 /translations/fr/title",
                        "22 /translations/fr/items/ghost",
                        "22 /translations/fr/domains/e",
                        "23 /translations/fr/levels/one",
                        "23 /translations/fr/levels/7",
                        "24 /translations/English");
        assertThat(findings)
                .allMatch(f -> f.column() != null && f.column() > 0)
                .allMatch(f -> !f.text().isBlank() && !f.remedy().isBlank())
                .allMatch(f -> !f.remedy().startsWith("see "));
    }
}
