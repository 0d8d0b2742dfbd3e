package org.sideport.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Cases from a sheet, and their sheets changed, as a user does it. */
class CaseSheetCommandsTest {

    @TempDir
    Path folder;

    private String workspace;
    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();

    @BeforeEach
    void makeAWorkspace() {
        workspace = folder.resolve("ws").toString();
        assertThat(run("workspace", "init", workspace)).isZero();
    }

    private int run(String... arguments) {
        out.getBuffer().setLength(0);
        err.getBuffer().setLength(0);
        return Main.run(arguments, new PrintWriter(out, true), new PrintWriter(err, true), Map.of(), folder);
    }

    private JsonNode json() {
        return JsonMapper.builder().build().readTree(out.toString());
    }

    private String sheet(String text) throws IOException {
        return Files.writeString(folder.resolve("list.csv"), text).toString();
    }

    private int count() {
        assertThat(run("case", "list", "--workspace", workspace, "--json")).isZero();
        return json().at("/cases").size();
    }

    @Test
    void aDryRunTellsEachFaultByRowAndColumnAndChangesNothing() throws Exception {
        String sheet = sheet("code,trainee,date\nC-1,T01,2026-03-09\nC-2,T01,then\n");
        assertThat(run("case", "import", sheet, "--dry-run", "--workspace", workspace, "--json"))
                .isEqualTo(1);
        assertThat(json().at("/rows").asInt()).isEqualTo(2);
        assertThat(json().at("/good_rows").asInt()).isEqualTo(1);
        assertThat(json().at("/stored")).isEmpty();
        assertThat(json().at("/faults/0/row").asInt()).isEqualTo(3);
        assertThat(json().at("/faults/0/column").asString()).isEqualTo("date");
        assertThat(count()).isZero();
    }

    @Test
    void faultsKeepAllOutUnlessTheGoodRowsAreWanted() throws Exception {
        String sheet = sheet("code,trainee,date\nC-1,T01,2026-03-09\nC-2,T01,then\n");
        assertThat(run("case", "import", sheet, "--workspace", workspace)).isEqualTo(1);
        assertThat(out.toString()).contains("Nothing was taken in: 1 fault.");
        assertThat(count()).isZero();
        assertThat(run("case", "import", sheet, "--good-rows", "--workspace", workspace))
                .isEqualTo(1);
        assertThat(out.toString()).contains("Took in 1 case of 2 rows.");
        assertThat(count()).isEqualTo(1);
    }

    /** 90 s at 15 % are 13.5 s: time × mean power ÷ 100. */
    @Test
    void anEditIsShownWithWhatItReplacedAndWhatFollowsFromIt() {
        run("case", "add", "--code", "C-1", "--trainee", "T01", "--date", "2026-03-09", "--workspace", workspace);
        int code = run(
                "case",
                "edit",
                "C-1",
                "--by",
                "A1",
                "--descriptor",
                "ultrasound_time=90",
                "--descriptor",
                "average_power=15",
                "--consent",
                "given",
                "--purpose",
                "assessment",
                "--consent-date",
                "2026-03-01",
                "--review-by",
                "2026-03-10",
                "--workspace",
                workspace,
                "--json");
        assertThat(code).as(err.toString()).isZero();
        assertThat(json().at("/changes")).hasSize(4);
        run("case", "show", "C-1", "--workspace", workspace, "--json");
        assertThat(json().at("/computed/effective_phaco_time").asString()).isEqualTo("13.5");
        assertThat(json().at("/consent/state").asString()).isEqualTo("given");
        assertThat(json().at("/consent/purposes/0").asString()).isEqualTo("assessment");
        assertThat(json().at("/consent/warning").isNull()).isTrue();
        assertThat(json().at("/review_by").asString()).isEqualTo("2026-03-10");
        assertThat(json().at("/changes/0/by").asString()).isEqualTo("A1");

        run(
                "case",
                "list",
                "--consent",
                "given",
                "--review-due",
                "--state",
                "untagged",
                "--workspace",
                workspace,
                "--json");
        assertThat(json().at("/cases")).hasSize(1);
        run("case", "list", "--consent", "refused,withdrawn", "--workspace", workspace);
        assertThat(out.toString()).contains("No case matches.");
    }

    @Test
    void whatCannotBeIsRefusedWithTwo() {
        run("case", "add", "--code", "C-1", "--trainee", "T01", "--date", "2026-03-09", "--workspace", workspace);
        assertThat(run(
                        "case",
                        "edit",
                        "C-1",
                        "--by",
                        "A1",
                        "--descriptor",
                        "nuclear_grade=9",
                        "--workspace",
                        workspace))
                .isEqualTo(2);
        assertThat(err.toString()).contains("a number from 0 to 4 in steps of 0.5");
        assertThat(run("case", "edit", "C-1", "--by", "A1", "--consent", "given", "--workspace", workspace))
                .isEqualTo(2);
        assertThat(err.toString()).contains("at least one purpose");
        assertThat(run(
                        "case",
                        "add",
                        "--code",
                        "12345678",
                        "--trainee",
                        "T01",
                        "--date",
                        "2026-03-09",
                        "--workspace",
                        workspace))
                .isEqualTo(2);
        assertThat(err.toString()).contains("a long number");
    }
}
