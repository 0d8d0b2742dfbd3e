package org.sideport.cli.assign;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.cli.Main;
import org.sideport.model.Assignment;
import org.sideport.model.Hidden;
import org.sideport.model.Rubric;
import org.sideport.model.SurgicalCase;
import org.sideport.rubric.ShippedRubrics;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.assign.Assignments;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** From giving a case to settling it, by commands only. */
class AssignCommandsTest {

    private static final Rubric RUBRIC = ShippedRubrics.phacoCompetency();

    @TempDir
    Path folder;

    private record Run(int code, String out, String err) {
        JsonNode json() {
            return JsonMapper.builder().build().readTree(out);
        }
    }

    @BeforeEach
    void makeCases() {
        try (Workspace workspace = FreshWorkspace.in(folder.resolve("w"))) {
            for (String code : List.of("UNIT-1", "UNIT-2")) {
                workspace.change(s -> s.cases()
                        .add(new SurgicalCase(code, "T77", LocalDate.of(2026, 3, 9), "phaco", Map.of(), null)));
            }
        }
    }

    /** To A1, on a day long ago, for a day soon after it. */
    private void giveInTime(String code) {
        Clock then = Clock.fixed(Instant.parse("2026-03-20T08:00:00Z"), ZoneOffset.UTC);
        try (Workspace workspace = Workspace.open(folder.resolve("w"))) {
            new Assignments(workspace, then)
                    .give(
                            List.of(code),
                            "A1",
                            new Assignments.Terms(Assignment.Purpose.FIRST, Hidden.ALL, LocalDate.of(2026, 4, 1)));
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

    private String rating(int points) throws IOException {
        String scores = RUBRIC.items().stream()
                .map(i -> "{\"item\": \"" + i.id() + "\", \"points\": " + points + "}")
                .collect(Collectors.joining(", "));
        return Files.writeString(
                        folder.resolve("rating-" + points + ".json"),
                        "{\"rubric\": \"" + RUBRIC.id() + "\", \"version\": \"" + RUBRIC.version()
                                + "\", \"assessor\": \"A0\", \"scores\": [" + scores + "]}")
                .toString();
    }

    private void sign(String code, String assessor, int points) throws IOException {
        assertThat(run("rate", "--case", code, "--assessor", assessor, rating(points))
                        .code())
                .isZero();
        assertThat(run("rate", "sign", "--case", code, "--assessor", assessor).code())
                .isZero();
    }

    @Test
    void aCaseIsGivenMarkedByItsLabelTwiceDisputedAndSettled() throws IOException {
        Run given = run("assign", "add", "--assessor", "A1", "--case", "UNIT-1", "--json");
        assertThat(given.code()).isZero();
        assertThat(given.json().get("assignments")).hasSize(1);
        giveInTime("UNIT-2");
        Run mine = run("assign", "mine", "--assessor", "A1", "--json");
        assertThat(mine.out()).contains("M-").doesNotContain("UNIT-").doesNotContain("T77");
        for (JsonNode work : mine.json().get("work")) {
            assertThat(work.get("late").asBoolean()).isEqualTo(work.get("due").isString());
            sign(work.get("case").asString(), "A1", 4);
        }
        Run shown =
                run("case", "show", mine.json().get("work").get(0).get("case").asString(), "--json");
        assertThat(shown.json().get("trainee").isNull()).isTrue();
        assertThat(shown.json().get("date").isNull()).isTrue();
        Run drawn = run("assign", "draw", "--assessors", "A1,A2", "--share", "1", "--json");
        assertThat(drawn.code()).isZero();
        assertThat(drawn.json().get("connected").asBoolean()).isTrue();
        assertThat(drawn.json().get("pairs")).hasSize(2);
        for (JsonNode work :
                run("assign", "mine", "--assessor", "A2", "--json").json().get("work")) {
            sign(work.get("case").asString(), "A2", 3);
        }
        Run list = run("adjudicate", "list", "--json");
        assertThat(list.code()).isEqualTo(1);
        JsonNode first = list.json().get("disagreements").get(0);
        // a level of four throughout
        assertThat(first.get("share_gap").asDouble()).isEqualTo(.25);
        assertThat(first.get("stage").asString()).isEqualTo("third_wanted");
        assertThat(run("adjudicate", "stand", "--case", "UNIT-1", "--assessor", "A2", "--why", "so")
                        .code())
                .as("nobody is named who decided")
                .isEqualTo(2);
        assertThat(run("adjudicate", "stand", "--case", "UNIT-1", "--assessor", "A2", "--by", "P1", "--why", "so")
                        .code())
                .isZero();
        Run agreed = run(
                "adjudicate", "agree", "--case", "UNIT-2", "--by", "P1,A1", "--why", "seen again", "--json", rating(4));
        assertThat(agreed.json().get("share").asDouble()).isEqualTo(1);
        assertThat(agreed.json().get("stands").isNull()).isTrue();
        assertThat(run("adjudicate", "list").code()).isZero();
        assertThat(run("assign", "list", "--state", "done", "--json").json().get("assignments"))
                .hasSize(4);
    }

    @Test
    void statesAndDaysAreTheSameWordsEverywhereAndOthersAreRefused() {
        Run over = run("assign", "add", "--assessor", "A1", "--case", "UNIT-1", "--due", "2020-04-01");
        assertThat(over.code()).isEqualTo(2);
        assertThat(over.err()).contains("2020-04-01").contains("in the past");
        giveInTime("UNIT-1");
        Run late = run("assign", "list", "--state", "late", "--json");
        assertThat(late.json().get("assignments")).hasSize(1);
        assertThat(run("assign", "list", "--state", "withdrawn", "--json")
                        .json()
                        .get("assignments"))
                .isEmpty();
        Run lost = run("assign", "list", "--state", "lost");
        assertThat(lost.code()).isEqualTo(2);
        assertThat(lost.err()).contains("lost").contains("OPEN, LATE, DONE, WITHDRAWN");

        for (String[] wrong : new String[][] {
            {"assign", "add", "--assessor", "A2", "--case", "UNIT-1", "--due", "1.4.2026"},
            {"case", "add", "--code", "N-1", "--trainee", "T1", "--date", "1.4.2026"},
            {"case", "list", "--from", "1.4.2026"},
            {"keeping", "extend", "UNIT-1", "--by", "P1", "--until", "1.4.2026"},
            {
                "decision",
                "record",
                "--trainee",
                "T77",
                "--rubric",
                "phaco-competency",
                "--text",
                "so",
                "--by",
                "P1",
                "--on",
                "1.4.2026"
            }
        }) {
            Run refused = run(wrong);
            assertThat(refused.code()).as(String.join(" ", wrong)).isEqualTo(2);
            assertThat(refused.err())
                    .as(String.join(" ", wrong))
                    .contains("\"1.4.2026\" is no date")
                    .contains("write year-month-day");
        }
        Run edit = run("case", "edit", "UNIT-1", "--by", "P1", "--review-by", "1.4.2026");
        assertThat(edit.err()).contains("\"1.4.2026\" is no date");
    }

    @Test
    void listsAreObjectsAndAnEmptyCohortHasNoSeverity() {
        JsonNode lines = run("audit", "list", "--json").json().get("lines");
        assertThat(lines.size()).isPositive();
        assertThat(lines.get(0).get("deed").asString()).isNotEmpty();
        Run none = run("cohort", "severity", "--rubric", RUBRIC.id(), "--json");
        assertThat(none.code()).isEqualTo(1);
        assertThat(none.json().at("/refused/reason").asString()).isEqualTo("too_few");
    }

    @Test
    void whatCannotBeJoinedIsAFinding() throws IOException {
        sign("UNIT-1", "A1", 3);
        Run drawn = run("assign", "draw", "--assessors", "A1,A2,A3", "--share", "1", "--dry-run", "--json");
        // one case joins two of three assessors
        assertThat(drawn.code()).isEqualTo(1);
        assertThat(drawn.json().get("groups")).hasSize(2);
        assertThat(run("assign", "list", "--json").json().get("assignments")).isEmpty();
    }

    @Test
    void ownMarksAndReferencesAreComparedOnceSigned() throws IOException {
        assertThat(run("rate", "gap", "--case", "UNIT-1", "--json")
                        .json()
                        .get("state")
                        .asString())
                .isEqualTo("no_self");
        assertThat(run("rate", "--case", "UNIT-1", "--assessor", "T77", "--self", rating(4))
                        .code())
                .isZero();
        assertThat(run("rate", "sign", "--case", "UNIT-1", "--assessor", "T77", "--self")
                        .code())
                .isZero();
        assertThat(run("rate", "gap", "--case", "UNIT-1", "--json")
                        .json()
                        .get("state")
                        .asString())
                .isEqualTo("no_assessor");
        sign("UNIT-1", "A1", 3);
        JsonNode gap = run("rate", "gap", "--case", "UNIT-1", "--json")
                .json()
                .get("assessors")
                .get(0);
        assertThat(gap.get("share_gap").asDouble()).isEqualTo(.25);
        JsonNode over = run("rate", "calibration", "--trainee", "T77", "--json").json();
        assertThat(over.get("n").asInt()).isEqualTo(1);
        assertThat(over.get("mean_gap").isNull()).isTrue();
        assertThat(over.get("why_not").asString()).contains("not enough cases");
        assertThat(run("calibrate", "reference", "--case", "UNIT-1", "--by", "P1", "--why", "panel", rating(4))
                        .code())
                .isZero();
        JsonNode report =
                run("calibrate", "report", "--json").json().get("assessors").get(0);
        assertThat(report.get("assessor").asString()).isEqualTo("A1");
        assertThat(report.get("exact").asInt()).isZero();
        assertThat(report.get("within_one_level").asInt())
                .isEqualTo(RUBRIC.items().size());
        assertThat(report.get("severity").isNull()).isTrue();
        assertThat(run("assign", "rules", "--self-first", "false", "--json")
                        .json()
                        .get("self_first")
                        .asBoolean())
                .isFalse();
        assertThat(run("assign", "rules", "--share-limit", "1.5").code()).isEqualTo(2);
        assertThat(run("assign", "withdraw", "M-XXX").code()).isEqualTo(2);
    }
}
