package org.sideport.cli.compare;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.cli.Main;
import org.sideport.model.SurgicalCase;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.TagExchange;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Two cases by hand: rhexis 30 to 90 s and 20 to 50 s; only the second has its capsule dyed. */
class CompareCommandTest {

    @TempDir
    Path folder;

    private record Run(int code, String out, String err) {
        JsonNode json() {
            return JsonMapper.builder().build().readTree(out);
        }
    }

    @BeforeEach
    void makeCases() throws IOException {
        Path tags = Files.write(
                folder.resolve("tags.csv"),
                List.of(
                        "case,annotator,phase,start,end,operator",
                        "C-01,A1,rhexis,30,90,",
                        "C-02,A1,capsule_dye,12,15,",
                        "C-02,A1,rhexis,20,50,"));
        try (Workspace workspace = FreshWorkspace.in(folder.resolve("w"))) {
            for (String code : List.of("C-01", "C-02")) {
                workspace.change(s -> s.cases()
                        .add(new SurgicalCase(code, "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of(), null)));
            }
            new TagExchange(workspace).importCsv(tags, null, false);
        }
    }

    private Run run(String... arguments) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        String[] all = new String[arguments.length + 2];
        System.arraycopy(arguments, 0, all, 0, arguments.length);
        all[arguments.length] = "--workspace";
        all[arguments.length + 1] = folder.resolve("w").toString();
        int code = Main.run(all, new PrintWriter(out, true), new PrintWriter(err, true), Map.of(), folder);
        return new Run(code, out.toString(), err.toString());
    }

    @Test
    void theDifferenceTableIsPrinted() {
        Run run = run("compare", "--left", "C-01", "--right", "C-02");

        assertThat(run.code()).as(run.err()).isZero();
        assertThat(run.out()).containsPattern("Rhexis +1:00\\.000 +0:30\\.000 +\\+0:30\\.000 +2\\.00");
        assertThat(run.out()).containsPattern("Capsule dye +- +0:03\\.000 +- +-");
        assertThat(run.out()).contains("1 episode matched.", "Episodes only on the right: Capsule dye.");
        assertThat(run.out()).contains("Speed is not competence");
    }

    @Test
    void theSameIsThereForMachines() {
        JsonNode json = run("compare", "--left", "c-01", "--right", "C-02", "--annotator", "A1", "--json")
                .json();

        assertThat(json.at("/left/case").asString()).isEqualTo("C-01");
        assertThat(json.at("/matched").asInt()).isEqualTo(1);
        JsonNode rhexis = json.at("/phases/1");
        assertThat(rhexis.at("/phase").asString()).isEqualTo("rhexis");
        assertThat(rhexis.at("/difference_us").asLong()).isEqualTo(30_000_000);
        assertThat(rhexis.at("/ratio").asDouble()).isEqualTo(2.0);
        assertThat(rhexis.at("/exemplars").isNull()).isTrue();
        JsonNode dye = json.at("/phases/0");
        assertThat(dye.at("/left").isNull()).isTrue();
        assertThat(dye.at("/difference_us").isNull()).isTrue();
        // 0 to 30 onto 0 to 20 of which 3 are the dye, which the left lacks; then the rhexis
        assertThat(json.at("/time_map").valueStream().map(p -> p.at("/kind").asString()))
                .containsExactly("idle", "right_only", "idle", "phase");
        assertThat(json.at("/published_note").asString()).contains("never a norm");
    }

    @Test
    void exemplarsAreNamedListedAndTakenAway() {
        assertThat(run("exemplar", "list").out()).contains("No case has been named");
        Run named = run(
                "exemplar",
                "add",
                "--case",
                "C-02",
                "--title",
                "Dyed capsule",
                "--why",
                "calm",
                "--by",
                "A1",
                "--json");
        assertThat(named.code()).as(named.err()).isZero();
        assertThat(named.json().at("/usual").asBoolean()).isTrue();
        assertThat(run("exemplar", "list").out())
                .contains("phaco * C-02, tags of A1: Dyed capsule (calm); named by A1");

        // 60 s against the exemplar's 30: it took less long
        JsonNode standing = run("compare", "--left", "C-01", "--right", "C-02", "--json")
                .json()
                .at("/phases/1/exemplars");
        assertThat(standing.at("/n").asInt()).isEqualTo(1);
        assertThat(standing.at("/shorter").asInt()).isEqualTo(1);
        assertThat(standing.at("/share_below").asDouble()).isEqualTo(1.0);

        assertThat(run("exemplar", "remove", "--case", "C-02").out()).contains("No longer an exemplar: C-02");
        assertThat(run("exemplar", "remove", "--case", "C-02").code()).isEqualTo(2);
    }

    @Test
    void whatCannotBeComparedEndsWithTwo() {
        Run none = run("compare", "--left", "C-01", "--right", "C-09");
        assertThat(none.code()).isEqualTo(2);
        assertThat(none.err()).contains("there is no case C-09");
        Run nobody = run("compare", "--left", "C-01", "--right", "C-02", "--annotator", "A9");
        assertThat(nobody.code()).isEqualTo(2);
        assertThat(nobody.err()).contains("A9 has not tagged phases of case");
    }
}
