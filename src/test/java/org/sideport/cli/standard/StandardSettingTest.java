package org.sideport.cli.standard;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.cli.Main;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.MadeUpMarks;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Worked examples through the command line: sources stand in StandardsTest and DecisionsTest of the floor below. */
class StandardSettingTest {

    @TempDir
    Path folder;

    private record Run(int code, String out, String err) {
        JsonNode json() {
            return JsonMapper.builder().build().readTree(out);
        }
    }

    @BeforeEach
    void makeMarks() {
        try (Workspace workspace = FreshWorkspace.in(folder.resolve("w"))) {
            MadeUpMarks marks = new MadeUpMarks(workspace);
            marks.borderlineExample();
            // Shrout & Fleiss 1979, table 2
            int[][] table = {{9, 2, 5, 8}, {6, 1, 3, 2}, {8, 4, 6, 8}, {7, 1, 2, 6}, {10, 5, 6, 9}, {6, 2, 4, 7}};
            for (int t = 0; t < table.length; t++) {
                marks.addCase("S-" + t, "T0" + (t + 1), 10 + t);
                for (int a = 0; a < 4; a++) {
                    int points = (table[t][a] + 1) / 2;
                    marks.mark(
                            "S-" + t,
                            "A" + (a + 1),
                            "five",
                            true,
                            Map.of("i1", points, "i2", points, "i3", points, "i4", points, "i5", points));
                }
            }
        }
    }

    private Run run(String... arguments) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        List<String> all = new ArrayList<>(List.of(arguments));
        all.addAll(List.of("--workspace", folder.resolve("w").toString()));
        int code = Main.run(
                all.toArray(new String[0]), new PrintWriter(out, true), new PrintWriter(err, true), Map.of(), folder);
        return new Run(code, out.toString(), err.toString());
    }

    @Test
    void aPanelJudgesClosesAndAgrees() throws IOException {
        assertThat(run("standard", "round", "show").out()).contains("No round was opened yet");
        Run opened = run("standard", "round", "open", "--rubric", "five", "--judges", "A1,A2,A3,A4", "--json");
        assertThat(opened.code()).as(opened.err()).isZero();
        String id = opened.json().at("/id").asString();
        MadeUpMarks.angoffExample().forEach((judge, points) -> {
            String items = points.entrySet().stream()
                    .filter(e -> !e.getKey().equals("i1"))
                    .map(e -> e.getKey() + "=" + e.getValue())
                    .collect(Collectors.joining(","));
            assertThat(run("standard", "round", "judge", "--round", "five", "--judge", judge, "--item", items)
                            .out())
                    .contains("4 of 5 items judged.");
        });
        Run early = run("standard", "round", "close", "--round", id);
        assertThat(early.code()).isEqualTo(2);
        assertThat(early.err()).contains("not all have judged every item: A1 (4 of 5)");
        for (String judge : List.of("A1", "A2", "A3", "A4")) {
            double first = MadeUpMarks.angoffExample().get(judge).get("i1");
            Path csv = Files.writeString(folder.resolve("p.csv"), "item,points\ni1," + first + "\n");
            JsonNode sheet = run(
                            "standard", "round", "judge", "--round", "five", "--judge", judge, csv.toString(), "--json")
                    .json();
            assertThat(sheet.at("/items_judged").asInt()).isEqualTo(5);
        }
        JsonNode hidden =
                run("standard", "round", "show", "--round", "five", "--json").json();
        assertThat(hidden.at("/items").size()).isZero();
        assertThat(hidden.at("/items_judged/A3").asInt()).isEqualTo(5);
        Run closed = run("standard", "round", "close", "--round", "five", "--note", "long talk");
        assertThat(closed.out())
                .contains("closed", "long talk")
                .containsPattern("i2 +5 +3\\.00 +3\\.00 +3\\.00 +4\\.00");

        JsonNode set = run(
                        "standard",
                        "set",
                        "--method",
                        "angoff",
                        "--rubric",
                        "five",
                        "--agreed-by",
                        "A1,A2",
                        "--on",
                        "2026-03-01",
                        "--json")
                .json();
        assertThat(set.at("/cut/share").asDouble()).isCloseTo(0.69, within(1e-12));
        assertThat(set.at("/cut/se").asDouble()).isCloseTo(0.629152869606 / 25, within(1e-12));
        assertThat(set.at("/cut/detail/totals/2/points").asDouble()).isEqualTo(16);
        assertThat(set.at("/standard/number").asInt()).isEqualTo(1);
        assertThat(set.at("/standard/agreed_by/1").asString()).isEqualTo("A2");
        assertThat(set.at("/standard/basis/round_id").asString()).isEqualTo(id);
        assertThat(set.at("/cut/data_digest").asString()).hasSize(64);

        String standard = set.at("/standard/id").asString();
        assertThat(run("standard", "show", standard.substring(0, 6)).out())
                .contains("Standard 1 of rubric five 1.0.0, in force: 69.0 %", "Agreed on 2026-03-01 by A1, A2");
        assertThat(run("standard", "list", "--rubric", "grade").out()).contains("No standard has been agreed");
    }

    @Test
    void aCutIsReadOffTheLineAndKeptOnlyIfAgreed() {
        String[] wish = {
            "standard",
            "set",
            "--method",
            "borderline-regression",
            "--rubric",
            "scale",
            "--grade-rubric",
            "grade",
            "--borderline",
            "2.5",
            "--json",
            "--dry-run"
        };
        JsonNode cut = run(wish).json();
        assertThat(cut.at("/cut/share").asDouble()).isCloseTo(0.570874125874, within(1e-10));
        assertThat(cut.at("/cut/se").asDouble()).isCloseTo(0.00978928453534, within(1e-11));
        assertThat(cut.at("/cut/detail/r2").asDouble()).isCloseTo(0.9596668273, within(1e-9));
        assertThat(cut.at("/cut/detail/performances").size()).isEqualTo(13);
        assertThat(cut.at("/standard").isNull()).isTrue();
        assertThat(run("standard", "list", "--json").json().at("/standards").size())
                .isZero();
        // the same limits again: the drawing is seeded
        assertThat(run(wish).json().at("/cut/lower")).isEqualTo(cut.at("/cut/lower"));
    }

    @Test
    void tooLittleEndsWithOneAndSaysWhy() {
        Run run = run(
                "standard",
                "set",
                "--method",
                "borderline_group",
                "--rubric",
                "scale",
                "--grade-rubric",
                "grade",
                "--borderline",
                "9",
                "--dry-run",
                "--json");
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.json().at("/refused/reason").asString()).isEqualTo("too_few");
        assertThat(run.json().at("/refused/why").asString()).isEqualTo("nobody was graded borderline");
        assertThat(run("standard", "set", "--method", "angoff", "--rubric", "scale", "--dry-run")
                        .code())
                .isEqualTo(2);
        assertThat(run("standard", "set", "--method", "angof", "--rubric", "scale", "--dry-run")
                        .err())
                .contains("there is no method angof");
        assertThat(run("standard", "set", "--method", "agreed", "--share", "0.6", "--rubric", "scale")
                        .err())
                .contains("who agreed is not said");
    }

    @Test
    void thePanelSeesFiguresAndNotEnoughAndWritesDownItsOwnWords() {
        run("standard", "set", "--method", "agreed", "--share", "0.5", "--rubric", "five", "--agreed-by", "A1");
        Run text = run("decision", "show", "--trainee", "T05", "--rubric", "five");
        assertThat(text.code()).as(text.err()).isZero();
        // (5 + 3 + 3 + 5) / 4 of 5
        assertThat(text.out()).contains("Mean 80.0 %", "Not enough for 0.80", "The program does not decide");
        assertThat(text.out()).containsIgnoringCase("standard in force 50.0 %").doesNotContainIgnoringCase("passed");
        JsonNode json = run("decision", "show", "--trainee", "T05", "--rubric", "five", "--json")
                .json();
        assertThat(json.at("/mean_share").asDouble()).isCloseTo(0.8, within(1e-12));
        assertThat(json.at("/enough").asBoolean()).isFalse();
        assertThat(json.at("/marks").size()).isEqualTo(4);
        assertThat(json.at("/blind_marks").asInt()).isEqualTo(4);
        assertThat(json.at("/phi").asDouble()).isBetween(0.4, 0.8);
        assertThat(json.at("/mean_less_standard").asDouble()).isCloseTo(0.3, within(1e-12));
        String digest = json.at("/digest").asString();

        Run recorded = run(
                "decision",
                "record",
                "--trainee",
                "T05",
                "--rubric",
                "five",
                "--text",
                "Look again in May",
                "--by",
                "A1,A2",
                "--shown",
                digest);
        assertThat(recorded.code()).as(recorded.err()).isZero();
        JsonNode kept = run("decision", "list", "--trainee", "T05", "--json").json();
        assertThat(kept.at("/decisions/0/text").asString()).isEqualTo("Look again in May");
        assertThat(kept.at("/decisions/0/shown_digest").asString()).isEqualTo(digest);
        assertThat(run("decision", "list", "--trainee", "T04").out()).contains("No decision about T04");
        Run old = run(
                "decision",
                "record",
                "--trainee",
                "T05",
                "--rubric",
                "five",
                "--text",
                "x",
                "--by",
                "A1",
                "--shown",
                "0".repeat(64));
        assertThat(old.code()).isEqualTo(2);
        assertThat(old.err()).contains("the figures have changed");
    }
}
