package org.sideport.rubric;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;

class RatingReaderTest {

    private static final Rubric RUBRIC = ShippedRubrics.phacoCompetency();

    private static String rating(String scores) {
        return "{\"rubric\": \"phaco-competency\", \"version\": \"1.0.0\", \"assessor\": \"A1\",\n \"scores\": [\n"
                + scores + "]}";
    }

    @Test
    void pointsLevelsReasonsAndCommentsAreRead() {
        Rating rating = RatingReader.read("""
                {"rubric": "phaco-competency", "version": "1.0.0", "assessor": "A1", "self": true, "blind": false,
                 "scores": [{"item": "rhexis_start", "points": 4, "comment": "good"},
                            {"item": "sculpting", "level": 2.0},
                            {"item": "closure", "not_applicable": "done_by_trainer"}],
                 "comment": "all in all"}
                """, "r.json", RUBRIC);

        assertThat(rating)
                .isEqualTo(new Rating(
                        "phaco-competency",
                        "1.0.0",
                        "A1",
                        true,
                        false,
                        List.of(
                                new ItemScore.Marked("rhexis_start", 4, "good"),
                                new ItemScore.Marked("sculpting", 2, ""),
                                new ItemScore.Excused("closure", NotApplicable.DONE_BY_TRAINER, "")),
                        "all in all"));
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '`', textBlock = """
                    {"item": "unknown", "points": 3}                                    | no item "unknown"
                    {"item": "closure", "points": 5}                                    | cannot be given 5 points — give one of 1, 2, 3, 4
                    {"item": "closure", "points": 2.5}                                  | wrong type
                    {"item": "closure", "points": 2, "not_applicable": "not_visible"}   | more than one of
                    {"item": "closure", "points": 2, "level": 2}                        | more than one of
                    {"item": "closure"}                                                 | neither points nor not_applicable
                    {"item": "closure", "not_applicable": "not_performed"}              | give it points, or one of done_by_trainer, not_visible
                    {"item": "closure", "not_applicable": "tired"}                      | not a possible value
                    {"points": 3}                                                       | "item" is missing
                    """)
    void aWrongScoreIsRefusedWithItsLine(String score, String expected) {
        String json = rating("{\"item\": \"rhexis_start\", \"points\": 3},\n" + score);

        assertThatThrownBy(() -> RatingReader.read(json, "r.json", RUBRIC))
                .isInstanceOf(InputException.class)
                .hasMessageStartingWith("r.json, line 4")
                .hasMessageContaining("/scores/1")
                .hasMessageContaining(expected);
    }

    @Test
    void anItemMarkedTwiceIsRefused() {
        String json = rating("{\"item\": \"closure\", \"points\": 3},\n{\"item\": \"closure\", \"points\": 3}");

        assertThatThrownBy(() -> RatingReader.read(json, "r.json", RUBRIC))
                .hasMessageContaining("line 4")
                .hasMessageContaining("marked twice, first at /scores/0");
    }

    @Test
    void anotherRubricOrVersionIsRefused() {
        String json = rating("");

        assertThatThrownBy(() -> RatingReader.read(json.replace("\"1.0.0\"", "\"1.1.0\""), "r.json", RUBRIC))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("/version: the rating was made with phaco-competency 1.1.0");
        assertThatThrownBy(() -> RatingReader.read(json.replace("phaco-competency", "other"), "r.json", RUBRIC))
                .hasMessageContaining("/rubric: the rating was made with other 1.0.0");
        assertThat(RatingReader.rubricOf(json, "r.json")).isEqualTo(new RubricRef("phaco-competency", "1.0.0"));
    }

    @Test
    void whatIsWrittenIsReadBackTheSame(@TempDir Path folder) throws Exception {
        Rating rating = new Rating(
                "phaco-competency",
                "1.0.0",
                "A2",
                false,
                true,
                List.of(
                        new ItemScore.Marked("view", 1, "quote \" backslash \\ newline \n emoji 👁 end"),
                        new ItemScore.Excused("difficulty", NotApplicable.NOT_PERFORMED, "calm")),
                "=1+1");
        Path file = folder.resolve("r.json");
        Files.writeString(file, RatingWriter.write(rating));

        assertThat(RatingReader.read(file, RUBRIC)).isEqualTo(rating);
    }

    @Test
    void aFileThatIsMissingOrNotTextIsRefused(@TempDir Path folder) throws Exception {
        Path binary = folder.resolve("b.json");
        Files.write(binary, new byte[] {(byte) 0xC3, (byte) 0x28, 0});

        assertThatThrownBy(() -> RatingReader.read(folder.resolve("none.json"), RUBRIC))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("there is no such file");
        assertThatThrownBy(() -> RatingReader.read(binary, RUBRIC))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("not UTF-8");
        assertThatThrownBy(() -> RatingReader.read(folder, RUBRIC)).isInstanceOf(InputException.class);
    }
}
