package org.sideport.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.stream.StreamSupport;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.cli.RealProgram.Result;
import org.sideport.model.MediaTime;
import org.sideport.store.Workspace;
import org.sideport.timing.Boundary;
import org.sideport.workflow.CommentCase;
import org.sideport.workflow.FollowCohort;
import org.sideport.workflow.TagRecording;
import tools.jackson.databind.JsonNode;

/**
 * Each command as a user runs it: its exit code, what it prints and what it leaves. Usage and the demo are run as a process of
 * their own.
 */
class CommandLineTest {

    private static final Path DATA = Path.of("demo-data").toAbsolutePath();
    private static final String PART_9 = DATA.resolve("D-001_part9.mp4").toString();
    private static final String PART_10 = DATA.resolve("D-001_part10.mp4").toString();

    @TempDir
    Path home;

    private ProgramHere program;
    private String workspace;

    @BeforeEach
    void makeAWorkspaceInAFolderWithSpacesAndLetters() throws Exception {
        program = new ProgramHere(home);
        workspace = home.resolve("Unit β – Fälle").toString();
        Result made = program.run("workspace", "init", workspace);
        assertThat(made.code()).as(made.err()).isZero();
    }

    @Test
    void probeMeasuresFilesAsOneRecordingInNaturalOrder() throws Exception {
        Result result = program.run("probe", PART_10, PART_9, "--json");
        assertThat(result.code()).isZero();
        JsonNode json = result.json();
        assertThat(json.at("/segments/0/file").asString()).endsWith("part9.mp4");
        // how the files were made, from the truth file: 925 and 1303 frames at 25 a second, 40 ms each
        JsonNode truth = truth("D-001");
        assertThat(json.at("/duration_us").asLong())
                .isEqualTo(truth.at("/duration_us").asLong());
        assertThat(json.at("/segments/0/frames").asLong()
                        + json.at("/segments/1/frames").asLong())
                .isEqualTo(truth.at("/frames").asLong());
        assertThat(json.at("/segments/0/duration_us").asLong())
                .isEqualTo(json.at("/segments/0/frames").asLong() * 40_000);
        assertThat(json.at("/segments/0/fps_num").asLong())
                .isEqualTo(25 * json.at("/segments/0/fps_den").asLong());
        assertThat(json.at("/segments/0/codec").asString()).isEqualTo("h264");
        assertThat(json.at("/segments/0/variable_rate").asBoolean()).isFalse();
        assertThat(json.at("/segments/0/size").asLong()).isEqualTo(Files.size(Path.of(PART_9)));
        assertThat(json.at("/segments/0/sha256").asString())
                .isEqualTo(HexFormat.of()
                        .formatHex(java.security.MessageDigest.getInstance("SHA-256")
                                .digest(Files.readAllBytes(Path.of(PART_9)))));
        assertThat(json.at("/warnings")).isEmpty();
    }

    @Test
    void frameWritesThePictureThatIsOnTheScreen() throws Exception {
        Path png = home.resolve("still.png");
        // frame 925 is the first of the second file: 925 × 40 ms = 37 s
        Result result = program.run("frame", PART_9, PART_10, "--at", "0:37.039", "--out", png.toString(), "--json");
        assertThat(result.code()).as(result.err()).isZero();
        JsonNode json = result.json();
        assertThat(json.at("/asked_us").asLong()).isEqualTo(37_039_000);
        assertThat(json.at("/frame_us").asLong()).isEqualTo(37_000_000);
        assertThat(json.at("/next_us").asLong()).isEqualTo(37_040_000);
        assertThat(json.at("/index").asLong()).isEqualTo(925);
        assertThat(json.at("/segment").asInt()).isEqualTo(1);
        assertThat(ImageIO.read(png.toFile()).getWidth()).isEqualTo(640);
    }

    @Test
    void framePastTheEndAndFilesThatAreNoVideoEndWithTwo() throws Exception {
        Result late = program.run(
                "frame", PART_9, "--at", "0:37", "--out", home.resolve("x.png").toString());
        assertThat(late.code()).isEqualTo(2);
        assertThat(late.err()).contains("ends at 37 s").contains("choose an earlier time");
        Path text = Files.writeString(home.resolve("text.mp4"), "hello");
        Result none = program.run("probe", text.toString());
        assertThat(none.code()).isEqualTo(2);
        assertThat(none.err()).contains("text.mp4").contains("no video");
        assertThat(none.out()).isEmpty();
    }

    @Test
    void aCaseWithItsTagsComesBackToTheMicrosecond() throws Exception {
        addCase("D-001", PART_9, PART_10);
        Path phases = rowsOf("truth-phases.csv", "D-001");
        Result imported =
                program.run("tags", "import", "--annotator", "A1", phases.toString(), "--workspace", workspace);
        assertThat(imported.code()).as(imported.err()).isZero();
        Result timing = program.run("timing", "--case", "D-001", "--json", "--workspace", workspace);
        assertThat(timing.code()).as(timing.err()).isZero();
        JsonNode one = timing.json().at("/cases/0");
        assertThat(one.at("/annotator").asString()).isEqualTo("A1");
        List<String[]> rows = Files.readAllLines(phases).stream()
                .skip(1)
                .map(line -> line.split(",", -1))
                .toList();
        assertThat(rows).hasSizeGreaterThan(10);
        long idle = 0;
        long end = MediaTime.parse(rows.get(0)[3]).micros();
        for (String[] row : rows) {
            long active = rows.stream()
                    .filter(r -> r[2].equals(row[2]))
                    .mapToLong(r -> MediaTime.parse(r[4]).micros()
                            - MediaTime.parse(r[3]).micros())
                    .sum();
            JsonNode phase = phase(one.at("/phases"), row[2]).orElseThrow();
            assertThat(phase.at("/active_us").asLong()).as(row[2]).isEqualTo(active);
            idle += MediaTime.parse(row[3]).micros() - end;
            end = MediaTime.parse(row[4]).micros();
        }
        assertThat(one.at("/idle_us").asLong()).isEqualTo(idle);
        assertThat(one.at("/operating_us").asLong())
                .isEqualTo(end - MediaTime.parse(rows.get(0)[3]).micros());
        assertThat(one.at("/rolled_up/0/phase").asString()).isEqualTo("incision");
        assertThat(program.run("timing", "--all", "--by", "trainee", "--workspace", workspace)
                        .out())
                .contains("Group")
                .contains("T03");
        Result exported = program.run("tags", "export", "--case", "D-001", "--format", "csv", "--workspace", workspace);
        assertThat(exported.out()).isEqualTo(Files.readString(phases).replace(",TRUTH,", ",A1,"));
    }

    @Test
    void tagsComeOutAsWebVttChaptersAndAsJson() throws Exception {
        addCase("D-009");
        Path csv = write("case,annotator,phase,start,end,operator\nD-009,A1,rhexis,0:01.5,0:02.5005,trainee\n");
        assertThat(program.run("tags", "import", csv.toString(), "--workspace", workspace)
                        .code())
                .isZero();
        // the form of a chapters file: W3C WebVTT, section 1.5
        assertThat(program.run("tags", "export", "--case", "D-009", "--format", "vtt", "--workspace", workspace)
                        .out())
                .isEqualTo("WEBVTT\n\n1\n00:00:01.500 --> 00:00:02.500\nRhexis\n");
        JsonNode json = program.run("tags", "export", "--case", "D-009", "--format", "json", "--workspace", workspace)
                .json();
        assertThat(json.at("/phases/0/end_us").asLong()).isEqualTo(2_500_500);
        assertThat(json.at("/phases/0/operator").asString()).isEqualTo("trainee");
        assertThat(json.at("/phases/0/start_confirmed").asBoolean()).isFalse();
    }

    @Test
    void theJsonOfTagsTellsWhichBoundariesAreConfirmed() throws Exception {
        addCase("D-009");
        Path csv = write("case,annotator,phase,start,end,operator\nD-009,A1,rhexis,0:01.5,0:02.5005,trainee\n");
        program.run("tags", "import", csv.toString(), "--workspace", workspace);
        try (Workspace open = Workspace.open(Path.of(workspace))) {
            MediaTime end = MediaTime.ofMicros(2_500_500);
            new TagRecording(open).open("D-009", "A1").confirm(new Boundary(Boundary.Kind.PHASE, end), end);
        }
        JsonNode json = program.run("tags", "export", "--case", "D-009", "--format", "json", "--workspace", workspace)
                .json();
        assertThat(json.at("/phases/0/start_confirmed").asBoolean()).isFalse();
        assertThat(json.at("/phases/0/end_confirmed").asBoolean()).isTrue();
    }

    @Test
    void aBadTagFileChangesNothing() throws Exception {
        addCase("D-009");
        Path csv = write("case,annotator,phase,start,end,operator\nD-009,A1,rhexis,1,2,\nD-009,A1,rhexus,3,4,\n");
        Result result = program.run("tags", "import", csv.toString(), "--workspace", workspace);
        assertThat(result.code()).isEqualTo(2);
        assertThat(result.err())
                .contains("tags.csv, line 3")
                .contains("unknown phase \"rhexus\"")
                .contains("rhexis");
        assertThat(program.run("case", "show", "D-009", "--json", "--workspace", workspace)
                        .json()
                        .at("/annotators"))
                .isEmpty();
    }

    @Test
    void timingReadsAnyCsvWithoutAWorkspaceAndGroupsIt() throws Exception {
        Path csv = write("""
            case,annotator,phase,start,end,operator,experience
            1,P,cut,0,10,,low
            2,P,cut,0,14,,low
            3,P,cut,5,10,,high
            """);
        JsonNode json = program.run("timing", csv.toString(), "--by", "experience", "--json")
                .json();
        JsonNode high = json.at("/summary/0");
        assertThat(high.at("/group").asString()).isEqualTo("high");
        assertThat(high.at("/n").asInt()).isEqualTo(1);
        assertThat(high.at("/sd_us").isNull()).isTrue();
        JsonNode low = StreamSupport.stream(json.at("/summary").spliterator(), false)
                .filter(r -> r.at("/group").asString().equals("low")
                        && r.at("/phase").asString().equals("cut"))
                .findFirst()
                .orElseThrow();
        // 10 s and 14 s: mean and median 12, quartiles 11 and 13, SD sqrt(8), geometric mean sqrt(140)
        assertThat(low.at("/mean_us").asLong()).isEqualTo(12_000_000);
        assertThat(low.at("/q1_us").asLong()).isEqualTo(11_000_000);
        assertThat(low.at("/q3_us").asLong()).isEqualTo(13_000_000);
        assertThat(low.at("/sd_us").asLong()).isEqualTo(Math.round(Math.sqrt(8) * 1e6));
        assertThat(low.at("/geometric_mean_us").asLong()).isEqualTo(Math.round(Math.sqrt(140) * 1e6));
        Result text = program.run("timing", csv.toString());
        assertThat(text.out()).contains("Speed is not competence");
        assertThat(program.run("timing", csv.toString(), "--by", "nothing").err())
                .contains("no column nothing");
        assertThat(program.run("timing").code()).isEqualTo(2);
    }

    @Test
    void timesAcrossACutThatAPersonSawAreUnsureInTextAndJson() throws Exception {
        assertThat(program.run(
                                "case",
                                "add",
                                "--workspace",
                                workspace,
                                "--code",
                                "C-1",
                                "--trainee",
                                "T03",
                                "--date",
                                "2026-03-09",
                                PART_9,
                                PART_10)
                        .code())
                .isZero();
        Path csv = write("""
            case,annotator,phase,start,end,operator
            C-1,A1,side_port,1,10,
            C-1,A1,rhexis,10,30,
            """);
        program.run("tags", "import", csv.toString(), "--workspace", workspace);
        Result added = program.run(
                "cuts",
                "add",
                "--workspace",
                workspace,
                "--case",
                "C-1",
                "--at",
                "20",
                "--why",
                "paused",
                "--by",
                "A1");
        assertThat(added.code()).as(added.err()).isZero();
        assertThat(added.out()).contains("0:20.000", "accepted by A1", "paused");
        JsonNode json = program.run("timing", "--case", "C-1", "--workspace", workspace, "--json")
                .json();
        assertThat(json.at("/cases/0/phases/0/unsure")).isEmpty();
        assertThat(json.at("/cases/0/phases/1/unsure").toString()).isEqualTo("[\"active\",\"span\"]");
        assertThat(json.at("/cases/0/unsure").toString()).isEqualTo("[\"active\",\"operating\"]");
        String text =
                program.run("timing", "--case", "C-1", "--workspace", workspace).out();
        assertThat(text).contains("≥ 0:20.000", "≥ 0:29.000", "at least");
        assertThat(text).doesNotContain("≥ 0:09.000");
        assertThat(program.run("timing", "--all", "--by", "trainee", "--workspace", workspace)
                        .out())
                .contains("Left out");
        program.run("cuts", "dismiss", "--workspace", workspace, "--case", "C-1", "--at", "20.2", "--by", "A2");
        assertThat(program.run("timing", "--case", "C-1", "--workspace", workspace)
                        .out())
                .doesNotContain("≥");
        assertThat(program.run("cuts", "list", "--workspace", workspace, "--case", "C-1", "--json")
                        .json()
                        .at("/cuts/0/state")
                        .asString())
                .isEqualTo("dismissed");
        Result nowhere =
                program.run("cuts", "accept", "--workspace", workspace, "--case", "C-1", "--at", "5", "--by", "A1");
        assertThat(nowhere.code()).isEqualTo(2);
        assertThat(nowhere.err()).contains("0:20.000");
    }

    @Test
    void rubricCheckEndsWithOneAtAFaultAndNamesItsLine() throws Exception {
        assertThat(program.run("rubric", "check", "rubrics/phaco-competency.json")
                        .code())
                .isZero();
        String broken = Files.readString(Path.of("rubrics/phaco-competency.json"));
        int second = broken.indexOf("\"id\"", broken.indexOf("\"items\""));
        String firstId = broken.substring(second).split("\"", 5)[3];
        int third = broken.indexOf("\"id\"", second + 4);
        String nextId = broken.substring(third).split("\"", 5)[3];
        Path file = Files.writeString(
                home.resolve("broken.json"),
                broken.replace("\"id\": \"" + nextId + "\"", "\"id\": \"" + firstId + "\""));
        Result result = program.run("rubric", "check", file.toString(), "--json");
        assertThat(result.code()).isEqualTo(1);
        assertThat(result.json().at("/findings/0/line").asInt()).isGreaterThan(1);
        assertThat(result.json().at("/findings/0/text").asString()).contains(firstId);
        JsonNode rubrics = program.run("rubric", "list", "--json", "--workspace", workspace)
                .json();
        assertThat(rubrics.at("/rubrics/0/id").asString()).isEqualTo("phaco-competency");
    }

    /** A form with levels 2 to 5 as Golnik et al. 2013 (Trans Am Ophthalmol Soc 111:24) use them; marks by hand. */
    @Test
    void rubricScoreGivesTheShareOfTheApplicableMaximum() throws Exception {
        Path rubric =
                Files.writeString(home.resolve("small.json"), """
                    {"id": "small", "version": "1.0.0", "title": "Small", "procedure": "phaco", "source": "own", "guidance": "",
                     "levels": [{"points": 2, "label": "a", "meaning": "a"}, {"points": 3, "label": "b", "meaning": "b"},
                                {"points": 4, "label": "c", "meaning": "c"}, {"points": 5, "label": "d", "meaning": "d"}],
                     "domains": [{"id": "all", "title": "All"}],
                     "items": [%s, %s, %s]}
                    """.formatted(item("one"), item("two"), item("three")));
        Path rating = Files.writeString(home.resolve("rating.json"), """
            {"rubric": "small", "version": "1.0.0", "scores": [{"item": "one", "points": 5}, {"item": "two", "points": 2},
             {"item": "three", "not_applicable": "done_by_trainer"}]}
            """);
        Result result = program.run("rubric", "score", "--rubric", rubric.toString(), rating.toString(), "--json");
        assertThat(result.code()).as(result.err()).isZero();
        JsonNode json = result.json();
        // 5 + 2 of 2 × 5: the trainer's step is neither zero nor in the maximum
        assertThat(json.at("/share").asDouble()).isCloseTo(0.7, within(1e-12));
        assertThat(json.at("/applicable_items").asInt()).isEqualTo(2);
        assertThat(json.at("/complete").asBoolean()).isTrue();
        assertThat(json.at("/verdict").isNull()).isTrue();
        Path unknown = Files.writeString(
                home.resolve("unknown.json"),
                "{\"rubric\": \"small\", \"version\": \"1.0.0\", \"scores\": [{\"item\": \"four\", \"points\": 5}]}");
        Result refused = program.run("rubric", "score", "--rubric", rubric.toString(), unknown.toString());
        assertThat(refused.code()).isEqualTo(2);
        assertThat(refused.err()).contains("unknown.json").contains("four");
    }

    private static String item(String id) {
        return """
            {"id": "%s", "domain": "all", "title": "%s", "kind": "level", "weight": 1,
             "not_applicable": ["done_by_trainer"], "guidance": "",
             "anchors": [{"points": 2, "text": "a"}, {"points": 3, "text": "b"}, {"points": 4, "text": "c"},
                         {"points": 5, "text": "d"}]}\
            """.formatted(id, id);
    }

    @Test
    void aRatingIsDraftedSignedAndAmendedAndNeverChangedInPlace() throws Exception {
        addCase("D-009");
        Path whole = rating("3");
        Path part = Files.writeString(
                home.resolve("part.json"),
                "{\"rubric\": \"phaco-competency\", \"version\": \"1.0.0\", \"scores\": []}");
        String[] on = {"--case", "D-009", "--assessor", "A1", "--workspace", workspace};
        assertThat(program.run(with(on, "rate", part.toString())).code()).isZero();
        Result early = program.run(with(on, "rate", "sign"));
        assertThat(early.code()).isEqualTo(2);
        assertThat(early.err()).contains("not complete");
        assertThat(program.run(with(on, "rate", whole.toString())).code()).isZero();
        Result signed = program.run(with(on, "rate", "sign", "--json"));
        assertThat(signed.json().at("/state").asString()).isEqualTo("signed");
        // every item has 3 of 4 points
        assertThat(signed.json().at("/score/share").asDouble()).isCloseTo(0.75, within(1e-12));
        Result again = program.run(with(on, "rate", whole.toString()));
        assertThat(again.code()).isEqualTo(2);
        assertThat(again.err()).contains("signed").contains("amend");
        Result amended = program.run(with(
                on, "rate", "amend", "--reason", "wrong case open", rating("4").toString()));
        assertThat(amended.code()).as(amended.err()).isZero();
        JsonNode ratings = program.run("case", "show", "D-009", "--json", "--workspace", workspace)
                .json()
                .at("/ratings");
        assertThat(ratings.at("/0/state").asString()).isEqualTo("superseded");
        assertThat(ratings.at("/0/share").asDouble()).isCloseTo(0.75, within(1e-12));
        assertThat(ratings.at("/1/share").asDouble()).isCloseTo(1, within(1e-12));
        assertThat(ratings.at("/1/reason").asString()).isEqualTo("wrong case open");
        assertThat(program.run(
                                "rate",
                                "--case",
                                "D-009",
                                "--assessor",
                                "T03",
                                "--self",
                                whole.toString(),
                                "--workspace",
                                workspace)
                        .code())
                .isZero();
    }

    @Test
    void theWorkbookIsWrittenAndAFaultLeavesTheOldOne() throws Exception {
        addCase("D-009");
        Path out = home.resolve("out.xlsx");
        Result result = program.run("report", "workbook", out.toString(), "--workspace", workspace);
        assertThat(result.code()).as(result.err()).isZero();
        // an Office Open XML package is a ZIP file (ECMA-376 part 2): PK\3\4
        assertThat(Files.readAllBytes(out)).startsWith(0x50, 0x4b, 3, 4);
        Result nowhere = program.run(
                "report", "workbook", home.resolve("no/such/out.xlsx").toString(), "--workspace", workspace);
        assertThat(nowhere.code()).isEqualTo(2);
        assertThat(nowhere.err()).contains("no/such").contains("create it");
    }

    @Test
    void casesAreListedAndDoublesRefused() throws Exception {
        addCase("D-009");
        Result twice = program.run(
                "case", "add", "--code", "d-009", "--trainee", "T03", "--date", "2026-03-09", "--workspace", workspace);
        assertThat(twice.code()).isEqualTo(2);
        assertThat(twice.err()).contains("d-009 already");
        JsonNode cases =
                program.run("case", "list", "--json", "--workspace", workspace).json();
        assertThat(cases.at("/cases").size()).isEqualTo(1);
        assertThat(cases.at("/cases/0/descriptors/nuclear_grade").asString()).isEqualTo("2.5");
        assertThat(cases.at("/cases/0/duration_us").isNull()).isTrue();
    }

    @Test
    void wrongUsageEndsWithTwoAndHelpWithZero() throws Exception {
        RealProgram program = new RealProgram(home);
        assertThat(program.run("nonsense").code()).isEqualTo(2);
        assertThat(program.run().code()).isEqualTo(2);
        assertThat(program.run("case").code()).isEqualTo(2);
        Result help = program.run("tags", "import", "--help");
        assertThat(help.code()).isZero();
        assertThat(help.out()).contains("--annotator").contains("Exit codes");
        Result missing =
                program.run("case", "list", "--workspace", home.resolve("none").toString());
        assertThat(missing.code()).isEqualTo(2);
        assertThat(missing.err()).contains("workspace init");
    }

    @Test
    void theDemoDoesTheMainJobFromNothingAndCanBeRepeated() throws Exception {
        Path out = home.resolve("demo");
        Result first = new RealProgram(home).run("demo", "--no-window", "--out", out.toString());
        assertThat(first.code()).as(first.err()).isZero();
        assertThat(first.out()).contains("T01").contains("T06").contains("competency.xlsx");
        assertThat(out.resolve("competency.xlsx")).isNotEmptyFile();
        Result second = program.run("demo", "--no-window", "--out", out.toString(), "--json");
        assertThat(second.code()).as(second.err()).isZero();
        assertThat(second.json().at("/cohort").size()).isEqualTo(6);
        try (Workspace made = Workspace.open(out)) {
            // what A1 says about the rhexis of D-001 in comments.json is at 25 s
            assertThat(new FollowCohort(made, Clock.systemUTC())
                            .marks("", null, "T02", "rhexis_completion").marks().stream()
                                    .filter(m -> m.caseCode().equals("D-001")
                                            && m.assessor().equals("A1"))
                                    .flatMap(m -> m.items().stream())
                                    .flatMap(i -> i.moments().stream()))
                    .containsExactly(MediaTime.ofMicros(25_000_000));
            assertThat(new CommentCase(made).of("D-001"))
                    .hasSize(3)
                    .anyMatch(thread -> !thread.replies().isEmpty());
            // each moment is the start of a frame: 25 a second, and 30000 in 1001 seconds
            assertThat(new CommentCase(made).of("D-001"))
                    .allMatch(thread -> thread.comment().from().micros() % 40_000 == 0);
            assertThat(new CommentCase(made).of("D-003")).allMatch(thread -> {
                double frame = thread.comment().from().micros() * 30000 / 1001e6;
                return Math.abs(frame - Math.round(frame)) < 1e-4;
            });
        }
        Path other = Files.createDirectories(home.resolve("mine"));
        Files.writeString(other.resolve("keep.txt"), "keep");
        assertThat(program.run("demo", "--no-window", "--out", other.toString()).code())
                .isEqualTo(2);
        assertThat(other.resolve("keep.txt")).exists();
    }

    private void addCase(String code, String... files) throws IOException, InterruptedException {
        String[] fixed = {
            "case",
            "add",
            "--code",
            code,
            "--trainee",
            "T03",
            "--date",
            "2026-03-09",
            "--procedure",
            "phaco",
            "--descriptor",
            "nuclear_grade=2.5",
            "--workspace",
            workspace
        };
        Result added = program.run(with(fixed, files));
        assertThat(added.code()).as(added.err()).isZero();
    }

    private static String[] with(String[] last, String... first) {
        boolean options = last[0].startsWith("--");
        String[] all = new String[first.length + last.length];
        System.arraycopy(options ? first : last, 0, all, 0, options ? first.length : last.length);
        System.arraycopy(
                options ? last : first,
                0,
                all,
                options ? first.length : last.length,
                options ? last.length : first.length);
        return all;
    }

    private Path rating(String points) throws IOException {
        StringBuilder scores = new StringBuilder();
        JsonNode rubric = json(Path.of("rubrics/phaco-competency.json"));
        for (JsonNode item : rubric.at("/items")) {
            scores.append(scores.isEmpty() ? "" : ",")
                    .append("{\"item\": \"")
                    .append(item.at("/id").asString())
                    .append("\", \"points\": ")
                    .append(points)
                    .append('}');
        }
        return Files.writeString(
                home.resolve("rating-" + points + ".json"),
                "{\"rubric\": \"phaco-competency\", \"version\": \""
                        + rubric.at("/version").asString() + "\", \"scores\": [" + scores + "]}");
    }

    private Path rowsOf(String file, String code) throws IOException {
        List<String> lines = Files.readAllLines(DATA.resolve(file), StandardCharsets.UTF_8);
        return write(lines.stream()
                .filter(line -> line.startsWith("case,") || line.startsWith(code + ","))
                .reduce("", (all, line) -> all + line + "\n"));
    }

    private Path write(String csv) throws IOException {
        return Files.writeString(home.resolve("tags.csv"), csv);
    }

    private static JsonNode truth(String code) throws IOException {
        return json(DATA.resolve(code + "-truth.json"));
    }

    private static JsonNode json(Path file) throws IOException {
        return tools.jackson.databind.json.JsonMapper.builder().build().readTree(Files.readString(file));
    }

    private static Optional<JsonNode> phase(JsonNode phases, String id) {
        return StreamSupport.stream(phases.spliterator(), false)
                .filter(p -> p.at("/phase").asString().equals(id))
                .findFirst();
    }
}
