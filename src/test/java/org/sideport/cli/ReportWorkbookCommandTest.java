package org.sideport.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.cli.console.Console;
import org.sideport.model.SurgicalCase;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

class ReportWorkbookCommandTest {

    @TempDir
    Path home;

    private record Ran(int code, String out, String err) {}

    private Ran run(String... arguments) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        int code = new CommandTree(new Console(
                        new PrintWriter(out, true),
                        new PrintWriter(err, true),
                        Map.of("SIDEPORT_CONFIG", home.resolve("config").toString()),
                        home))
                .run(arguments);
        return new Ran(code, out.toString(), err.toString());
    }

    @BeforeEach
    void unit() {
        try (Workspace workspace = FreshWorkspace.in(home.resolve("unit"))) {
            workspace.change(s ->
                    s.cases().add(new SurgicalCase("C-1", "T01", LocalDate.of(2026, 1, 2), "phaco", Map.of(), null)));
        }
    }

    private String unitFolder() {
        return home.resolve("unit").toString();
    }

    @Test
    void oneRunWritesWorkbookAndCsv() throws Exception {
        Path book = home.resolve("unit.xlsx");
        Path csv = home.resolve("csv");
        Ran ran = run(
                "report", "workbook", book.toString(), "--csv", csv.toString(), "--json", "--workspace", unitFolder());
        assertThat(ran.code()).isZero();
        JsonNode json = JsonMapper.builder().build().readTree(ran.out());
        assertThat(Path.of(json.path("workbook").stringValue())).isEqualTo(book).exists();
        assertThat(json.path("csv")).hasSize(22);
        assertThat(Files.readAllLines(csv.resolve("cases.csv")).get(1)).startsWith("C-1,2026-01-02,T01,phaco");
    }

    @Test
    void sharedCsvAloneHoldsNoCase() {
        Path csv = home.resolve("csv");
        Ran ran = run("report", "workbook", "--csv", csv.toString(), "--shared", "--workspace", unitFolder());
        assertThat(ran.code()).isZero();
        assertThat(csv).isDirectoryContaining("glob:**/cohort.csv").isDirectoryNotContaining("glob:**/cases.csv");
    }

    @Test
    void nowhereToWriteAndAWrongNameAreRefused() {
        assertThat(run("report", "workbook", "--workspace", unitFolder()).code())
                .isEqualTo(2);
        Ran wrong = run("report", "workbook", home.resolve("a.xls").toString(), "--workspace", unitFolder());
        assertThat(wrong.code()).isEqualTo(2);
        assertThat(wrong.err()).contains(".xlsx");
    }
}
