package org.sideport.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
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

/** The example that {@code TwoTaggingsTest} works by hand (kappa of Cohen 1960), from CSV files to the printed figures. */
class TagsCompareCommandTest {

    @TempDir
    Path folder;

    private Path dir;

    private record Result(int code, String out, String err) {}

    @BeforeEach
    void twoTaggings() throws Exception {
        dir = folder.resolve("w");
        try (Workspace workspace = FreshWorkspace.in(dir)) {
            workspace.change(stores -> stores.cases()
                    .add(new SurgicalCase("C-12", "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of(), null)));
        }
        Path tags = Files.writeString(folder.resolve("tags.csv"), """
            case,annotator,phase,start,end,operator
            C-12,A1,rhexis,0,10,
            C-12,A1,hydrodissection,10,20,
            C-12,A2,rhexis,1,12,
            C-12,A2,hydrodissection,12,21,
            C-12,A2,sculpting,21,24,
            """);
        assertThat(run("tags", "import", tags.toString()).code()).isZero();
    }

    private Result run(String... args) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        List<String> all = new ArrayList<>(Arrays.asList(args));
        all.addAll(List.of("--workspace", dir.toString()));
        int code = new CommandTree(new Console(
                        new PrintWriter(out, true),
                        new PrintWriter(err, true),
                        Map.of("SIDEPORT_CONFIG", folder.toString()),
                        folder))
                .run(all.toArray(String[]::new));
        return new Result(code, out.toString(), err.toString());
    }

    @Test
    void howFarTwoTaggersAgreeAndWhereTheyDoNot() {
        Result said = run("tags", "compare", "--case", "C-12", "--annotators", "A1,A2", "--json");
        assertThat(said.code()).as(said.err()).isZero();
        JsonNode json = JsonMapper.builder().build().readTree(said.out());
        assertThat(json.path("share").asDouble()).isEqualTo(17.0 / 24, within(1e-12));
        assertThat(json.path("kappa").asDouble()).isEqualTo(204.0 / 372, within(1e-12));
        assertThat(json.path("boundary_us").asLong()).isEqualTo(1_000_000);
        assertThat(json.path("differences").size()).isEqualTo(4);
        JsonNode first = json.path("differences").get(0);
        assertThat(first.path("first").asString()).isEqualTo("rhexis");
        assertThat(first.path("second").isNull()).isTrue();

        Result words = run("tags", "compare", "--case", "C-12", "--annotators", "A1,A2");
        assertThat(words.out())
                .contains("the same on 70.8 % of the time", "kappa 0.55", "1.00 s apart", "differ in 4 places");
    }

    @Test
    void oneAloneOrSomebodyWhoHasNotTaggedIsRefused() {
        assertThat(run("tags", "compare", "--case", "C-12", "--annotators", "A1")
                        .code())
                .isEqualTo(2);
        Result unknown = run("tags", "compare", "--case", "C-12", "--annotators", "A1,A9");
        assertThat(unknown.code()).isEqualTo(2);
        assertThat(unknown.err()).contains("C-12");
    }
}
