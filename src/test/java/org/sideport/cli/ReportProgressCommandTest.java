package org.sideport.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import javax.xml.parsers.DocumentBuilderFactory;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.cli.console.Console;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Figures on standard output, in the file beside the charts and in the charts' data are the same. */
class ReportProgressCommandTest {

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

    private String unit() {
        Path dir = home.resolve("unit");
        try (Workspace workspace = FreshWorkspace.in(dir)) {
            for (int i = 1; i <= 12; i++) {
                String code = "C-" + i;
                MediaTime end = new MediaTime(100_000_000L - i * i * 500_000L + (i % 3) * 4_000_000L);
                LocalDate day = LocalDate.of(2026, 1, i);
                workspace.change(s -> {
                    s.cases().add(new SurgicalCase(code, "T01", day, "phaco", Map.of(), null));
                    s.taggings()
                            .save(
                                    code,
                                    "A1",
                                    new Tagging(
                                            TaggingStyle.START_AND_END,
                                            List.of(new PhaseSpan("rhexis", MediaTime.ZERO, end, null)),
                                            List.of()));
                });
            }
        }
        return dir.toString();
    }

    @Test
    void chartsTheirDataAndTheFiguresAgree() throws Exception {
        Path out = home.resolve("out");
        Ran ran = run(
                "report",
                "progress",
                "--trainee",
                "T01",
                "--out",
                out.toString(),
                "--log-complete",
                "--json",
                "--workspace",
                unit());
        assertThat(ran.err()).isEmpty();
        assertThat(ran.code()).isZero();
        JsonNode json = JsonMapper.builder().build().readTree(ran.out());
        JsonNode file = JsonMapper.builder().build().readTree(Files.readString(out.resolve("progress.json")));
        for (String key : List.of("times", "cases", "monitoring", "recent")) {
            assertThat(file.path(key)).isEqualTo(json.path(key));
        }
        JsonNode rhexis = json.path("times").get(2);
        assertThat(rhexis.path("phase").asString()).isEqualTo("rhexis");
        // 100 − 0.5 + 4
        assertThat(rhexis.path("own").get(0).path("us").asLong()).isEqualTo(103_500_000);

        List<CSVRecord> rows;
        try (CSVParser parser = CSVParser.parse(
                Files.readString(out.resolve("time-rhexis.csv")),
                CSVFormat.DEFAULT
                        .builder()
                        .setHeader()
                        .setSkipHeaderRecord(true)
                        .get())) {
            rows = parser.getRecords();
        }
        List<CSVRecord> own =
                rows.stream().filter(r -> r.get("kind").equals("points")).toList();
        assertThat(own).hasSize(12);
        for (int i = 0; i < 12; i++) {
            JsonNode one = rhexis.path("own").get(i);
            assertThat(Double.parseDouble(own.get(i).get("time (s)")) * 1e6)
                    .isEqualTo(one.path("us").asDouble());
            assertThat(own.get(i).get("label")).isEqualTo(one.path("case").asString());
        }
        List<CSVRecord> limits = rows.stream()
                .filter(r -> r.get("layer").equals("95 % limits of the curve"))
                .toList();
        JsonNode places = rhexis.path("curve").path("places");
        assertThat(limits).hasSize(places.size());
        assertThat(Double.parseDouble(limits.get(7).get("low")))
                .isEqualTo(places.get(7).path("lower_us").asDouble() / 1e6);

        assertThat(json.path("files").size()).isEqualTo(3 * 4 + 1);
        assertThat(Files.readAllBytes(out.resolve("time-total.png"))).startsWith(0x89, 'P', 'N', 'G');
        assertThat(DocumentBuilderFactory.newInstance()
                        .newDocumentBuilder()
                        .parse(out.resolve("complications.svg").toFile())
                        .getDocumentElement()
                        .getTagName())
                .isEqualTo("svg");
    }

    @Test
    void peopleReadTheSentencesAndBadInputEndsWithTwo() {
        String unit = unit();
        Ran ran = run("report", "progress", "--trainee", "T01", "--workspace", unit);
        assertThat(ran.code()).isZero();
        assertThat(ran.out())
                .contains("Rhexis: 12 cases with a time")
                .contains("What others took is hidden")
                .contains("No chart of complications: nobody has stated");
        Ran german = run("report", "progress", "--trainee", "T01", "--language", "de", "--workspace", unit);
        assertThat(german.out()).contains("Rhexis: 12 Fälle mit einer Zeit");
        assertThat(run("report", "progress", "--trainee", "T09", "--workspace", unit)
                        .code())
                .isEqualTo(2);
        assertThat(run("cohort", "peers", "--fewest", "2", "--workspace", unit).code())
                .isEqualTo(2);
        assertThat(run("cohort", "peers", "--fewest", "8", "--json", "--workspace", unit)
                        .out())
                .contains("\"fewest_peers\"")
                .contains("8");
    }
}
