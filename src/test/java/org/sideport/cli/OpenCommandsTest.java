package org.sideport.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
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
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Published formats from the command line: what is dropped is said on standard error, faults name their line. */
class OpenCommandsTest {

    @TempDir
    Path folder;

    private Path dir;

    private record Result(int code, String out, String err) {
        JsonNode json() {
            return JsonMapper.shared().readTree(out);
        }
    }

    @BeforeEach
    void aTaggedCase() {
        dir = folder.resolve("w");
        try (Workspace workspace = FreshWorkspace.in(dir)) {
            workspace.change(s -> {
                s.cases().add(new SurgicalCase("C-12", "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of(), null));
                s.taggings()
                        .save(
                                "C-12",
                                "A1",
                                new Tagging(
                                        TaggingStyle.START_AND_END,
                                        List.of(new PhaseSpan(
                                                "rhexis",
                                                MediaTime.ofMicros(1_000_001),
                                                MediaTime.ofMicros(9_000_000),
                                                null)),
                                        List.of()));
            });
        }
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
    void tagsGoOutAndComeBackUnderAnotherCode() throws IOException {
        String file = folder.resolve("t.otio").toString();
        Result out = run("exchange", "export", "--case", "C-12", "--format", "otio", file, "--json");
        assertThat(out.code()).as(out.err()).isZero();
        assertThat(out.json().path("format").asString()).isEqualTo("otio");
        assertThat(run("exchange", "export", "--case", "C-12", "--format", "otio", file)
                        .code())
                .isEqualTo(2);
        Result in = run("exchange", "import", file, "--case", "C-12", "--by", "A2", "--json");
        assertThat(in.code()).as(in.err()).isZero();
        assertThat(in.json().path("phases").asInt()).isEqualTo(1);
        String first =
                run("tags", "export", "--case", "C-12", "--annotator", "A1").out();
        String second =
                run("tags", "export", "--case", "C-12", "--annotator", "A2").out();
        assertThat(second.replace("A2", "A1")).isEqualTo(first).contains("1.000001");

        String chapters = folder.resolve("c.vtt").toString();
        Result dropped =
                run("exchange", "export", "--case", "C-12", "--annotator", "A1", "--format", "vtt-chapters", chapters);
        assertThat(dropped.err()).contains("cut to milliseconds", "do not go with it");
        assertThat(dropped.out()).doesNotContain("milliseconds");

        Path bad = Files.writeString(folder.resolve("bad.vtt"), "WEBVTT\n\n00:00:05.000 --> 00:00:04.000\nx\n");
        Result refused = run("exchange", "import", bad.toString(), "--case", "C-12", "--by", "A3");
        assertThat(refused.code()).isEqualTo(2);
        assertThat(refused.err()).contains("bad.vtt, line 3");
    }

    @Test
    void rubricsAndMarksSayWhatTheyNeed() {
        String file = folder.resolve("r.json").toString();
        Result out = run("exchange", "export", "--rubric", "msics-competency", file);
        assertThat(out.code()).as(out.err()).isZero();
        Result in = run("exchange", "import", file, "--format", "case", "--by", "A1", "--json");
        assertThat(in.code()).as(in.err()).isZero();
        assertThat(in.json().at("/rubrics/0/file").isNull()).isTrue();
        String marks = folder.resolve("x.json").toString();
        assertThat(run("exchange", "export", "--case", "C-12", "--format", "xapi", marks)
                        .err())
                .contains("--home-page");
        assertThat(run(
                                "exchange",
                                "export",
                                "--case",
                                "C-12",
                                "--format",
                                "xapi",
                                "--home-page",
                                "https://eyes.example",
                                marks)
                        .err())
                .contains("no signed marks");
        assertThat(run("exchange", "export", marks).err()).contains("--case or --rubric");
        assertThat(run("exchange", "film", "--case", "C-12").err()).contains("OUT.mp4");
        assertThat(run("exchange", "film", "--case", "C-12", "f.mp4").err()).contains("has no recording");
        assertThat(run("exchange", "export", "--case", "C-12", "--format", "nonsense", "x")
                        .err())
                .contains("vtt-chapters");
    }
}
